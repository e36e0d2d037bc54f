// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_limits.h"

#include <algorithm>

#include "core/base/length.h"
#include "core/wood/clear_area.h"

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

struct Figures {
  double pithIn = 0;
  double splitsIn = 0;
  double waneNearIn = 0;  // along either edge
  double waneFarIn = 0;
  double waneWidestIn = 0;
  double largestHoleIn = 0;  // average of length and width, of knots and holes
};

Figures figuresOf(const Board& board, Face face) {
  const Rect box = bounds(board.outline.polygon());
  Figures f;
  for (const Mark& mark : board.marks) {
    if (!counts(mark) || !mark.on(face)) continue;
    const Rect b = boxOf(mark, face);
    const double lengthIn = b.width() / kMmPerInch;
    switch (mark.kind) {
      case MarkKind::pith:
        f.pithIn += lengthIn;
        break;
      case MarkKind::split:
        f.splitsIn += lengthIn;
        break;
      case MarkKind::wane:
        (b.y0 + b.y1 < box.y0 + box.y1 ? f.waneNearIn : f.waneFarIn) += lengthIn;
        f.waneWidestIn = std::max(f.waneWidestIn, b.height() / kMmPerInch);
        break;
      case MarkKind::knot:
      case MarkKind::holeToFill:
      case MarkKind::wormHoles:
        f.largestHoleIn = std::max(f.largestHoleIn, (b.width() + b.height()) / 2 / kMmPerInch);
        break;
      default:
        break;
    }
  }
  return f;
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

// hooddistribution.com (pith, splits); NHLA 2019 ¶57 (wane), ¶59 (first foot), ¶60 (knots, holes).
std::string fasMissed(const Figures& f, double lengthIn, int sm) {
  if (f.pithIn > sm) return "pith longer in inches than the surface measure";
  if (f.splitsIn > std::max(2.0 * sm, 12.0)) return "splits longer than the grade allows";
  if (std::max(f.waneNearIn, f.waneFarIn) > lengthIn / 2) return "wane over half an edge";
  if (f.largestHoleIn > sm / 3.0) return "a knot or hole wider than a third of the surface measure";
  return {};
}

}  // namespace

std::string limitMissed(Grade grade, const Board& board, Face face, const GradeMap& clear,
                        const GradeMap& sound, int sm) {
  const Figures f = figuresOf(board, face);
  const double lengthIn = bounds(board.outline.polygon()).width() / kMmPerInch;
  // NHLA 2019 ¶72.
  if (grade == Grade::common1 && f.pithIn > lengthIn / 2) return "pith over half the length";
  if (grade != Grade::fas) return {};
  if (std::string missed = fasMissed(f, lengthIn, sm); !missed.empty()) return missed;
  for (const bool leftEnd : {true, false})
    // At least half of it clear and a further quarter sound.
    if (shareClear(clear, leftEnd) < 0.5 || shareClear(sound, leftEnd) < 0.75)
      return "the first foot at an end is not clear enough";
  return {};
}

bool waneFitsOneFace(const Board& board, Face face) {
  const Figures f = figuresOf(board, face);
  const Rect box = bounds(board.outline.polygon());
  return f.waneWidestIn <= box.height() / kMmPerInch / 3 &&
         std::max(f.waneNearIn, f.waneFarIn) <= box.width() / kMmPerInch / 2;
}

}  // namespace rackside
