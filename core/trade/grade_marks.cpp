// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_marks.h"

#include <algorithm>

#include "core/base/length.h"
#include "core/geometry/polygon.h"
#include "core/trade/tally.h"
#include "core/wood/mark_traits.h"

namespace rackside {
namespace {

constexpr double kSpotHoleIn = 0.25;  // from here on a hole is no pin, shot or spot hole
constexpr double kCherryPinKnotIn = 0.125;
// An ellipse's polygon measures a little short of it or long.
constexpr double kDrawnIn = 0.002;

bool surfacesOut(const Mark& mark, const GradedBoard& on) {
  if (mark.through) return false;
  if (!mark.depthMm) return true;
  const double off = on.board.thicknessMm / kMmPerInch - surfacedThicknessIn(on.nominalIn);
  return *mark.depthMm / kMmPerInch <= std::max(0.0, off / 2) + kSameIn;
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
