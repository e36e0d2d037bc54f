// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_marks.h"

#include <algorithm>

#include "core/base/length.h"
#include "core/geometry/polygon.h"
#include "core/trade/tally.h"
#include "core/wood/clear_area.h"
#include "core/wood/mark_traits.h"

namespace rackside {
namespace {

constexpr double kSpotHoleIn = 0.25;  // from here on a hole is no pin, shot or spot hole (¶31)
constexpr double kCherryPinKnotIn = 0.125;
// An ellipse's polygon measures a little short of it or long (of our own drawing).
constexpr double kDrawnIn = 0.002;

// An ordinary season check goes with the planing (from memory).
bool surfacesOut(const Mark& mark, const GradedBoard& on) {
  if (mark.through) return false;
  if (!mark.depthMm) return true;
  const double off = on.board.thicknessMm / kMmPerInch - surfacedThicknessIn(on.nominalIn);
  return *mark.depthMm / kMmPerInch <= std::max(0.0, off / 2) + kSameIn;
}

// How deep a mark lies that shows on one face alone; deeper than any board where nobody measured.
double depthIn(const Mark& mark) {
  const bool oneFace = mark.onA.has_value() != mark.onB.has_value();
  return oneFace && !mark.through && mark.depthMm ? *mark.depthMm / kMmPerInch : 1e9;
}

// The deepest mark of a face that the wood above the standard thickness could take with it.
double deepestWithinIn(const GradedBoard& on, Face face, double excessIn) {
  double deepest = 0;
  for (const Mark& mark : on.board.marks)
    if (counts(mark) && mark.on(face) && depthIn(mark) <= excessIn)
      deepest = std::max(deepest, depthIn(mark));
  return deepest;
}

bool goesWithSurfacing(const Mark& mark, const GradedBoard& on) {
  const double excessIn = on.board.thicknessMm / kMmPerInch - on.nominalIn;
  if (depthIn(mark) > excessIn + kSameIn) return false;
  const Face far = mark.onA ? Face::B : Face::A;
  return depthIn(mark) + deepestWithinIn(on, far, excessIn) <= excessIn + kSameIn;
}

bool isPinKnot(const Mark& mark) {
  return std::max(averageDiameterIn(mark, Face::A), averageDiameterIn(mark, Face::B)) <=
         kCherryPinKnotIn + kDrawnIn;
}

bool isSpotHole(const Mark& mark) {
  return std::max(averageDiameterIn(mark, Face::A), averageDiameterIn(mark, Face::B)) <
         kSpotHoleIn - kDrawnIn;
}

bool isAdmittedKnot(const Mark& mark, const GradedBoard& on) {
  return on.rule == GradingRule::cherry && isPinKnot(mark);
}

}  // namespace

bool isConsidered(const Mark& mark, const GradedBoard& on) {
  return counts(mark) && !goesWithSurfacing(mark, on);
}

double averageDiameterIn(const Mark& mark, Face face) {
  if (!mark.on(face)) return 0;
  const Polygons ps = polygonsOf(*mark.on(face));
  if (ps.empty()) return 0;
  Rect all = bounds(ps.front());
  for (const Polygon& p : ps) {
    const Rect b = bounds(p);
    all = {std::min(all.x0, b.x0), std::min(all.y0, b.y0), std::max(all.x1, b.x1),
           std::max(all.y1, b.y1)};
  }
  return (all.width() + all.height()) / 2 / kMmPerInch;
}

bool spoilsClear(const Mark& mark, const GradedBoard& on) {
  switch (traitsOf(mark.kind).fault) {
    case GradeFault::none:
      return false;
    case GradeFault::gum:
      return on.rule != GradingRule::cherry;
    case GradeFault::seasonCheck:
      return !surfacesOut(mark, on);
    case GradeFault::bySoundness:
      return !isAdmittedKnot(mark, on);
    case GradeFault::blemish:
    case GradeFault::unsound:
    case GradeFault::wormHoles:
      return true;
  }
  return true;
}

bool isUnsound(const Mark& mark, const GradedBoard& on) {
  switch (traitsOf(mark.kind).fault) {
    case GradeFault::none:
    case GradeFault::blemish:
    case GradeFault::gum:
      return false;
    case GradeFault::seasonCheck:  // right through it is a split
      return mark.through;
    case GradeFault::bySoundness:
      return mark.soundness != Soundness::sound && !isAdmittedKnot(mark, on);
    case GradeFault::wormHoles:
      return mark.live;
    case GradeFault::unsound:
      return traitsOf(mark.kind).hollow != HollowWhen::always || mark.through ||
             traitsOf(mark.kind).form == MarkForm::line || !isSpotHole(mark);
  }
  return true;
}

}  // namespace rackside
