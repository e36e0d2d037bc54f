// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/tally.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "core/base/length.h"
#include "core/wood/measure.h"

namespace rackside {
namespace {

constexpr double kMmPerFoot = 304.8;
constexpr double kMm2PerFt2 = kMmPerFoot * kMmPerFoot;
// A board foot is 144 in³.
constexpr double kMm3PerBoardFoot = 144 * kMmPerInch * kMmPerInch * kMmPerInch;
// So that a length of exactly n feet, held in binary, is not taken for less.
constexpr double kRoundingSlack = 1e-9;

struct Thickness {
  double nominalIn;
  double surfacedIn;
};
// Rough, and surfaced two sides: 4/4, 5/4, 6/4 and 8/4 at engineeringtoolbox.com (NHLA); the others
// from memory of the same rule.
constexpr std::array kStandard = {
    Thickness{0.375, 0.1875}, Thickness{0.5, 0.3125}, Thickness{0.625, 0.4375},
    Thickness{0.75, 0.5625},  Thickness{1, 0.8125},   Thickness{1.25, 1.0625},
    Thickness{1.5, 1.3125},   Thickness{1.75, 1.5},   Thickness{2, 1.75},
    Thickness{2.5, 2.25},     Thickness{3, 2.75},     Thickness{3.5, 3.25},
    Thickness{4, 3.75},       Thickness{4.5, 4.25},   Thickness{5, 4.75},
    Thickness{5.5, 5.25},     Thickness{6, 5.75},
};

struct Chord {
  double x = 0, widthMm = 0;
};

// Every inch of the length, the last inch at either end left out.
std::vector<Chord> chordsOf(const Outline& outline) {
  std::vector<Chord> chords;
  if (outline.vertices.size() < 3) return chords;
  const Rect box = bounds(outline.polygon());
  const int steps = std::max(2, static_cast<int>(box.width() / kMmPerInch));
  for (int i = 1; i < steps; ++i) {
    const double x = box.x0 + box.width() * i / steps;
    if (const auto width = widthAt(outline, x)) chords.push_back({x, width->value});
  }
  return chords;
}

}  // namespace

double tallyWidthMm(const Outline& outline) {
  const std::vector<Chord> chords = chordsOf(outline);
  if (chords.empty()) return 0;
  const auto n = static_cast<double>(chords.size());
  double x = 0, w = 0, xx = 0, xw = 0;
  for (const Chord& c : chords) x += c.x / n, w += c.widthMm / n;
  for (const Chord& c : chords) {
    xx += (c.x - x) * (c.x - x);
    xw += (c.x - x) * (c.widthMm - w);
  }
  const double slope = xx > 0 ? xw / xx : 0;
  const Rect box = bounds(outline.polygon());
  const double narrowEnd = slope >= 0 ? box.x0 : box.x1;
  const double at = narrowEnd + (slope >= 0 ? 1 : -1) * box.width() / 3;
  return std::max(0.0, w + slope * (at - x));
}

double narrowestMm(const Outline& outline) {
  double least = 1e300;
  for (const Chord& c : chordsOf(outline)) least = std::min(least, c.widthMm);
  return least < 1e300 ? least : 0;
}

int surfaceMeasure(double widthMm, double lengthMm, HalfFeet& halves) {
  const double feet = std::floor(lengthMm / kMmPerFoot + kRoundingSlack);
  const double exact = widthMm / kMmPerInch * feet / 12;
  const double whole = std::floor(exact + kRoundingSlack);
  if (std::abs(exact - whole - 0.5) <= kSameIn)
    return static_cast<int>(whole) + (halves.turn() ? 1 : 0);
  return static_cast<int>(std::floor(exact + 0.5));
}

int surfaceMeasure(double widthMm, double lengthMm) {
  HalfFeet alone;
  return surfaceMeasure(widthMm, lengthMm, alone);
}

double surfaceMeasureExactFt2(const Outline& outline) {
  return std::abs(signedArea(outline.polygon())) / kMm2PerFt2;
}

double nominalThicknessIn(double roughThicknessMm, bool airDried) {
  double nominal = 0;
  for (const Thickness& t : kStandard) {
    // Kiln-dried 1/16 in scant below 2 in, 1/8 in from 2 in on (NHLA, rough lumber).
    const double scantIn = airDried ? 0 : t.nominalIn < 2 ? 1.0 / 16 : 1.0 / 8;
    if (roughThicknessMm / kMmPerInch >= t.nominalIn - scantIn - kSameIn) nominal = t.nominalIn;
  }
  return nominal;
}

double surfacedThicknessIn(double nominal) {
  double surfaced = 0;
  for (const Thickness& t : kStandard)
    if (t.nominalIn <= nominal + kSameIn) surfaced = t.surfacedIn;
  return surfaced;
}

std::string nominalName(double nominal) {
  if (nominal <= 0) return "thin";
  const double quarters = nominal * 4;
  if (nominal >= 0.75 && std::abs(quarters - std::round(quarters)) < kSameIn)
    return std::to_string(std::lround(quarters)) + "/4";
  return formatLength(nominal * kMmPerInch, {UnitSystem::inches, 0, 8}, false);
}

std::optional<double> thicknessFromQuarters(std::string_view said) {
  while (!said.empty() && said.front() == ' ') said.remove_prefix(1);
  while (!said.empty() && said.back() == ' ') said.remove_suffix(1);
  int quarters = 0;
  const auto [end, error] = std::from_chars(said.data(), said.data() + said.size(), quarters);
  const std::string_view rest = said.substr(static_cast<size_t>(end - said.data()));
  if (error != std::errc() || rest != "/4") return std::nullopt;
  for (const Thickness& t : kStandard)
    if (t.nominalIn >= 0.75 && std::abs(t.nominalIn * 4 - quarters) < kSameIn)
      return t.nominalIn * kMmPerInch;
  return std::nullopt;
}

double boardFeet(int surfaceMeasureFt2, double nominalThicknessInches) {
  return surfaceMeasureFt2 * std::max(1.0, nominalThicknessInches);
}

double boardFeetExact(const Outline& outline, double thicknessMm) {
  return std::abs(signedArea(outline.polygon())) * thicknessMm / kMm3PerBoardFoot;
}

}  // namespace rackside
