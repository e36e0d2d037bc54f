// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/wish.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace rackside {
namespace {

struct Named {
  std::string_view name;
  Wish wish;
  std::string_view words;
};
constexpr Named kWishes[] = {
    {"straight", {Look::straight, false}, "straight and quiet"},
    {"arch-centred", {Look::archCentred, false}, "the arch in the middle"},
    {"lively", {Look::lively, false}, "lively"},
    {"even-colour", {Look::evenColour, false}, "even colour"},
    {"sapwood-edge", {Look::any, true}, "a sapwood edge"},
};

const Named* find(const Wish& wish) {
  for (const Named& n : kWishes)
    if (n.wish.sapwoodEdge == wish.sapwoodEdge && (wish.sapwoodEdge || n.wish.look == wish.look))
      return &n;
  return nullptr;
}

double degrees(double rad) {
  return rad * 180 / CV_PI;
}

// Standard deviation of the grain's direction about its mean, radians (small angles).
double grainSpreadRad(const FigureReading& f) {
  return std::sqrt(f.grainSpread / 2);
}

std::string number(const char* format, double v) {
  char text[60];
  std::snprintf(text, sizeof text, format, v);
  return text;
}

// Each divisor is the amount that a maker would call plainly visible on a finished top: 3° of
// slope, arches over most of it, rings of 15 % contrast, … (judged by eye; no source).
double straightPenalty(const PlaceReading& p) {
  const FigureReading& f = p.figure;
  return std::abs(degrees(p.slopeRad)) / 3 + degrees(grainSpreadRad(f)) / 4 + 1.2 * p.archShare +
         std::sqrt(f.ringsTurned) / 0.35 + f.contrast / 0.15 + f.lightnessSpread / 0.25 +
         f.ripple / 0.04;
}

// What ripples more than rings alone do: on plain boards the ripple read was 0.10 to 0.18 of the
// rings' contrast (rendered cherry and walnut).
double rippleBeyondRings(const FigureReading& f) {
  return std::sqrt(std::max(0.0, f.ripple * f.ripple - std::pow(0.15 * f.contrast, 2)));
}

// Arches are not counted apart: their turning rings and grain are.
double livelyMeasure(const PlaceReading& p) {
  const FigureReading& f = p.figure;
  return f.contrast / 0.07 + 1.5 * rippleBeyondRings(f) / 0.02 + std::sqrt(f.ringsTurned) / 0.35 +
         degrees(grainSpreadRad(f)) / 8;
}

double archMeasure(const PlaceReading& p) {
  const double half = std::max(1.0, p.widthMm / 2);
  return p.archShare * std::exp(-2.5 * std::pow(p.archOffRmsMm / half, 2)) *
         std::exp(-1.5 * std::abs(p.archOffMm) / half);
}

double evenPenalty(const PlaceReading& p) {
  const FigureReading& f = p.figure;
  const double mixed = f.sapwoodShare * (1 - f.sapwoodShare);
  return f.lightnessSpread / 0.06 + f.warmthSpread / 0.05 + 8 * mixed;
}

double sapEdgeMeasure(const PlaceReading& p) {
  const double edge = std::max(p.sapNear, p.sapFar), other = std::min(p.sapNear, p.sapFar);
  return edge * (1 - other) * (1 - 0.7 * p.sapMiddle);
}

void sayGrain(const PlaceReading& p, std::vector<std::string>& said) {
  const double slope = std::abs(degrees(p.slopeRad)), spread = degrees(grainSpreadRad(p.figure));
  if (slope < 1 && spread < 1.5)
    said.push_back("grain straight along it");
  else if (slope >= 1)
    said.push_back("grain runs off by " +
                   number("%.0f mm a metre", 1000 * std::tan(std::abs(p.slopeRad))));
  if (spread >= 1.5) said.push_back("grain turns by " + number("±%.0f°", 2 * spread));
}

void sayArch(const PlaceReading& p, std::vector<std::string>& said) {
  if (p.archShare < 0.15) {
    said.push_back("no arch in it");
    return;
  }
  if (p.archShare < 0.6)
    said.push_back("arch over " + number("%.0f %%", 100 * p.archShare) + " of its length");
  const double off = std::abs(p.archOffMm);
  said.push_back(off < 3 ? "arch in the middle" : "arch off centre by " + number("%.0f mm", off));
}

void sayLife(const PlaceReading& p, std::vector<std::string>& said) {
  const FigureReading& f = p.figure;
  if (f.ripple > 0.02) said.push_back("ripples across the grain");
  said.push_back(f.contrast > 0.06   ? "strongly marked rings"
                 : f.contrast > 0.03 ? "plain to see rings"
                                     : "quiet rings");
}

void sayColour(const PlaceReading& p, std::vector<std::string>& said) {
  const FigureReading& f = p.figure;
  if (f.sapwoodShare > 0.03)
    said.push_back(number("%.0f %%", 100 * f.sapwoodShare) + " of it is sapwood");
  const double spread = std::hypot(f.lightnessSpread, f.warmthSpread);
  said.push_back(spread < 0.04   ? "one colour all over"
                 : spread < 0.08 ? "colour varies a little"
                                 : "colour varies much");
  if (f.colourShare < 0.9) said.push_back("colour seen in the planed window only");
}

void saySapwood(const PlaceReading& p, std::vector<std::string>& said) {
  const double edge = std::max(p.sapNear, p.sapFar);
  if (edge < 0.15)
    said.push_back("no sapwood along its edges");
  else
    said.push_back("sapwood over " + number("%.0f %%", 100 * edge) + " of its " +
                   (p.sapNear > p.sapFar ? "near" : "far") + " edge");
  if (p.sapMiddle > 0.1)
    said.push_back("sapwood reaches over " + number("%.0f %%", 100 * p.sapMiddle) +
                   " of its middle");
}

}  // namespace

std::optional<Wish> wishFromName(std::string_view name) {
  for (const Named& n : kWishes)
    if (n.name == name) return n.wish;
  return std::nullopt;
}

std::vector<std::string> wishNames() {
  std::vector<std::string> names;
  for (const Named& n : kWishes) names.emplace_back(n.name);
  return names;
}

std::string_view name(const Wish& wish) {
  const Named* n = find(wish);
  return n ? n->name : "straight";
}

std::string words(const Wish& wish) {
  const Named* n = find(wish);
  return std::string(n ? n->words : "straight and quiet");
}

Wish wishOf(const Part& part) {
  if (part.look != Look::any) return {part.look, false};
  if (part.show.sapwood == SapwoodRule::wantedOnEdge) return {Look::any, true};
  return {};
}

bool needsColour(const Wish& wish) {
  return wish.sapwoodEdge || wish.look == Look::evenColour;
}

double fulfilment(const Wish& wish, const PlaceReading& place) {
  if (wish.sapwoodEdge) return sapEdgeMeasure(place);
  switch (wish.look) {
    case Look::archCentred:
      return archMeasure(place);
    case Look::lively:
      return 1 - std::exp(-livelyMeasure(place) / 3);
    case Look::evenColour:
      return std::exp(-evenPenalty(place) / 2);
    case Look::any:
    case Look::straight:
      break;
  }
  return std::exp(-straightPenalty(place) / 3);
}

std::vector<std::string> reasons(const Wish& wish, const PlaceReading& place) {
  std::vector<std::string> said;
  if (wish.sapwoodEdge) {
    saySapwood(place, said);
    sayGrain(place, said);
    return said;
  }
  switch (wish.look) {
    case Look::archCentred:
      sayArch(place, said);
      break;
    case Look::lively:
      sayLife(place, said);
      sayGrain(place, said);
      break;
    case Look::evenColour:
      sayColour(place, said);
      break;
    case Look::any:
    case Look::straight:
      sayGrain(place, said);
      if (place.archShare >= 0.15) sayArch(place, said);
      sayLife(place, said);
      break;
  }
  return said;
}

}  // namespace rackside
