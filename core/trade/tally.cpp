// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/tally.h"

#include <algorithm>
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

}  // namespace

double tallyWidthMm(const Outline& outline) {
  const double lengthMm = lengthOf(outline).value;
  double sum = 0;
  int found = 0;
  for (const double share : {1.0 / 6, 1.0 / 2, 5.0 / 6}) {
    const double left = outline.vertices.empty() ? 0 : bounds(outline.polygon()).x0;
    if (const auto width = widthAt(outline, left + share * lengthMm)) {
      sum += width->value;
      ++found;
    }
  }
  return found > 0 ? sum / found : 0;
}

int surfaceMeasure(double widthMm, double lengthMm) {
  const double feet = std::floor(lengthMm / kMmPerFoot + kRoundingSlack);
  return static_cast<int>(std::floor(widthMm / kMmPerInch * feet / 12 + 0.5 + kRoundingSlack));
}

double surfaceMeasureExactFt2(const Outline& outline) {
  return std::abs(signedArea(outline.polygon())) / kMm2PerFt2;
}

double nominalThicknessIn(double roughThicknessMm) {
  const double quarters =
      std::floor((roughThicknessMm / kMmPerInch + 1.0 / 16) * 4 + kRoundingSlack);
  return std::max(quarters, 1.0) / 4;
}

std::string nominalName(double nominalThicknessInches) {
  return std::to_string(std::lround(nominalThicknessInches * 4)) + "/4";
}

double boardFeet(int surfaceMeasureFt2, double nominalThicknessInches) {
  return surfaceMeasureFt2 * std::max(1.0, nominalThicknessInches);
}

double boardFeetExact(const Outline& outline, double thicknessMm) {
  return std::abs(signedArea(outline.polygon())) * thicknessMm / kMm3PerBoardFoot;
}

}  // namespace rackside
