// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_limits.h"

#include <algorithm>
#include <cmath>

#include "core/base/length.h"
#include "core/trade/tally.h"

namespace rackside {
namespace {

Rect boxOf(const Mark& mark, Face face) {
  Rect all;
  bool first = true;
  for (const Polygon& p : polygonsOf(*mark.on(face))) {
    const Rect b = bounds(p);
    all = first ? b
                : Rect{std::min(all.x0, b.x0), std::min(all.y0, b.y0), std::max(all.x1, b.x1),
                       std::max(all.y1, b.y1)};
    first = false;
  }
  return all;
}

constexpr double kFootIn = 12;  // "first lineal foot", ¶59

struct Figures {
  double pithIn = 0;
  double splitsIn = 0;
  double waneNearIn = 0;  // along either edge
  double waneFarIn = 0;
  double waneNearWidestIn = 0;
  double waneFarWidestIn = 0;
  double largestHoleIn = 0;  // average of length and width, of knots and holes past the first foot
};

// A knot or hole that lies within the first foot at an end is left to the first foot's own limit
// (NHLA 2019 ¶60).
bool withinFirstFoot(const Rect& b, const Rect& board) {
  const double foot = kFootIn * kMmPerInch + kSameIn;
  return b.x1 <= board.x0 + foot || b.x0 >= board.x1 - foot;
}

void addWane(const Rect& b, const Rect& board, Figures& f) {
  const double lengthIn = b.width() / kMmPerInch, widthIn = b.height() / kMmPerInch;
  const bool near = b.y0 + b.y1 < board.y0 + board.y1;
  (near ? f.waneNearIn : f.waneFarIn) += lengthIn;
  double& widest = near ? f.waneNearWidestIn : f.waneFarWidestIn;
  widest = std::max(widest, widthIn);
}

Figures figuresOf(const GradedBoard& on, Face face) {
  const Rect box = bounds(on.board.outline.polygon());
  Figures f;
  for (const Mark& mark : on.board.marks) {
    if (!isConsidered(mark, on) || !mark.on(face)) continue;
    const Rect b = boxOf(mark, face);
    const double lengthIn = b.width() / kMmPerInch;
    if (mark.kind == MarkKind::pith) f.pithIn += lengthIn;
    if (mark.kind == MarkKind::split) f.splitsIn += lengthIn;
    if (mark.kind == MarkKind::wane) addWane(b, box, f);
    const bool knotOrHole = mark.kind == MarkKind::knot || mark.kind == MarkKind::holeToFill;
    if (knotOrHole && spoilsClear(mark, on) && !withinFirstFoot(b, box))
      f.largestHoleIn = std::max(f.largestHoleIn, averageDiameterIn(mark, face));
  }
  return f;
}

bool over(double value, double limit) {
  return value > limit + kSameIn;
}

// Share of the wood in the foot at an end that is clear in `map`.
double shareClear(const GradeMap& map, bool leftEnd) {
  const int foot = std::min(12, map.wood.columns);
  const int start = leftEnd ? 0 : map.wood.columns - foot;
  int wood = 0, clear = 0;
  for (int row = 0; row < map.wood.rows; ++row)
    for (int column = start; column < start + foot; ++column) {
      wood += map.wood.at(column, row) ? 1 : 0;
      clear += map.clear.at(column, row) ? 1 : 0;
    }
  return wood > 0 ? static_cast<double>(clear) / wood : 0;
}

// hooddistribution.com (pith, splits, warp); NHLA 2019 ¶57 (wane), ¶60 (knots, holes).
std::string fasMissed(const Figures& f, const GradedBoard& on) {
  const double sm = on.surfaceMeasureFt2;
  if (over(f.pithIn, sm)) return "pith longer in inches than the surface measure";
  if (over(f.splitsIn, std::max(2 * sm, 12.0))) return "splits longer than the grade allows";
  if (over(std::max(f.waneNearIn, f.waneFarIn), on.lengthIn / 2)) return "wane over half an edge";
  if (over(f.largestHoleIn, sm / 3))
    return "a knot or hole wider than a third of the surface measure";
  if (!surfacesFlat(on)) return "too warped to surface two sides to standard thickness";
  return {};
}

int standardDefects(const GradedBoard& on, Face face) {
  constexpr double kStandardDefectIn = 1.25;
  double defects = 0;
  for (const Mark& mark : on.board.marks) {
    if (!isConsidered(mark, on) || !mark.on(face) || !spoilsClear(mark, on)) continue;
    if (mark.kind == MarkKind::wane || mark.kind == MarkKind::split)
      continue;  // limits of their own
    defects +=
        std::max(1.0, std::ceil(averageDiameterIn(mark, face) / kStandardDefectIn - kSameIn));
  }
  return static_cast<int>(defects);
}

}  // namespace

bool surfacesFlat(const GradedBoard& on) {
  const Board& b = on.board;
  if (!(b.thicknessMm > 0)) return true;
  const double lostMm = b.bowMm + b.cupMm + b.twistMm / 2;
  return !over(surfacedThicknessIn(on.nominalIn), (b.thicknessMm - lostMm) / kMmPerInch);
}

std::string limitMissed(Grade grade, const GradedBoard& on, Face face, const GradeMap& clear,
                        const GradeMap& sound) {
  const Figures f = figuresOf(on, face);
  // NHLA 2019 ¶72.
  if (grade == Grade::common1 && over(f.pithIn, on.lengthIn / 2))
    return "pith over half the length";
  if (grade != Grade::fas) return {};
  if (std::string missed = fasMissed(f, on); !missed.empty()) return missed;
  // ¶59: at least half of the first foot clear and a further quarter sound.
  for (const bool leftEnd : {true, false})
    if (over(0.5, shareClear(clear, leftEnd)) || over(0.75, shareClear(sound, leftEnd)))
      return "the first foot at an end is not clear enough";
  return {};
}

bool waneFitsOneFace(const GradedBoard& on, Face face) {
  const Figures f = figuresOf(on, face);
  return !over(f.waneNearWidestIn + f.waneFarWidestIn, on.widthIn / 3) &&
         !over(std::max(f.waneNearIn, f.waneFarIn), on.lengthIn / 2);
}

bool isGradedByDefectCount(const GradedBoard& on) {
  return on.rule == GradingRule::walnut && on.lengthIn < 96 - kSameIn;
}

bool fasByDefectCount(const GradedBoard& on, Face face) {
  const Figures f = figuresOf(on, face);
  const int admitted = on.widthIn + kKilnDriedScantIn >= 8 - kSameIn ? 2 : 1;
  return surfacesFlat(on) && !over(f.splitsIn, 6) &&
         !over(std::max(f.waneNearIn, f.waneFarIn), on.lengthIn / 2) &&
         standardDefects(on, face) <= admitted;
}

}  // namespace rackside
