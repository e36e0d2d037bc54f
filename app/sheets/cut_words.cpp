// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/cut_words.h"

#include <algorithm>
#include <cmath>

#include "core/plan/slice.h"

namespace rackside::sheets {
namespace {

double distanceToLine(const Segment& line, Point p) {
  const double length = line.length();
  return length > 0 ? std::abs(cross(line.to - line.from, p - line.from)) / length : 0;
}

// "left end", "far side", …: where the wood on one side of the cut lies.
std::string sideWord(const Cut& cut, bool left) {
  const Point d = cut.line.to - cut.line.from;
  const Point toSide = left ? Point{-d.y, d.x} : Point{d.y, -d.x};
  if (isCrosswise(cut)) return toSide.x < 0 ? "left" : "right";
  return toSide.y < 0 ? "near side" : "far side";
}

// What becomes of the side that holds no piece: waste, or an offcut worth keeping.
std::string wasteWords(const Cut& cut, const CutTree& tree, const Shop& shop) {
  std::string words;
  for (const bool left : {true, false}) {
    if (!(left ? cut.wasteIsLeft : cut.wasteIsRight)) continue;
    const Polygons& shape = tree.region({cut.id.text, left});
    const bool keep = std::any_of(shape.begin(), shape.end(),
                                  [&](const Polygon& p) { return worthKeeping(p, shop); });
    words += (keep ? " Keep the offcut: " : " Waste: ") + sideWord(cut, left) + ".";
  }
  return words;
}

// From a reference point to the border of the cut that faces it.
double toFacingBorder(const Cut& cut, Point reference) {
  return distanceToLine(borderOf(cut, isLeftOf(cut.line, reference)), reference);
}

// The nearest cut above that runs the same way, as the border our wood has from it.
struct Reference {
  const Cut* cut = nullptr;
  Segment border;
};
Reference nearestParallel(const Cut& cut, const CutTree& tree, const BoardWork& work) {
  Reference found;
  const bool crosswise = isCrosswise(cut);
  for (const auto& [above, left] : tree.ancestors(cut)) {
    if (isCrosswise(*above) != crosswise) continue;
    const Segment border = borderOf(*above, left);
    const bool towardsFresh = (middleOf(border).x < middleOf(cut.line).x) == work.freshIsLeft;
    if (!crosswise || towardsFresh) return {above, border};
    if (!found.cut) found = {above, border};
  }
  return found;
}

void describeFullCrosscut(CutStep& step, const BoardWork& work, const Board& board,
                          const LengthStyle& style) {
  const Cut& cut = *step.cut;
  const double y = middleOf(cut.line).y;
  if (&cut == work.freshCut) {
    const double roughEnd = work.freshIsLeft ? 0 : board.lengthMm.value;
    step.what = "Trim";
    step.runningMm = 0;
    step.where = formatLength(std::abs(work.freshXMm - roughEnd), style) + " off the rough " +
                 (work.freshIsLeft ? "left" : "right") +
                 " end, the kerf within it. This is the fresh end: run every length from it.";
    return;
  }
  step.what = "Crosscut";
  step.runningMm = toFacingBorder(cut, {work.freshXMm, y});
  step.where = "at " + formatLength(*step.runningMm, style) + " from the " +
               (work.freshCut ? "fresh end." : "rough left end.");
}

// A jointer takes a little off; a line that runs out of the wood is sawn first where there is more.
void describeJoint(CutStep& step, double atLeft, double atRight, const LengthStyle& style) {
  constexpr double kMostJointedMm = 12;
  const std::string line = formatLength(std::max(0.0, atLeft), style) + " at the left, " +
                           formatLength(std::max(0.0, atRight), style) + " at the right";
  step.what = "Joint this edge";
  if (std::max(atLeft, atRight) <= kMostJointedMm)
    step.where = "make the near edge straight on the jointer; takes about " + line + ".";
  else
    step.where = "lay a straight line " + line +
                 " in from the near edge, saw close to it on the bandsaw, then joint to it: the "
                 "line runs out along the rough edge.";
}

void describeFirstRip(CutStep& step, const LengthStyle& style) {
  const Cut& cut = *step.cut;
  const bool leftToRight = cut.line.to.x > cut.line.from.x;
  const double atLeft = leftToRight ? cut.offsetAtFromMm : cut.offsetAtToMm;
  const double atRight = leftToRight ? cut.offsetAtToMm : cut.offsetAtFromMm;
  if (isJointed(cut)) return describeJoint(step, atLeft, atRight, style);
  step.what = "First rip";
  // At a worn corner the line may begin beside the wood, by more than shows as 0.
  const auto outside = [&](double mm) {
    return mm < 0 && formatLength(-mm, style) != formatLength(0, style);
  };
  step.where = "lay a straight line " + formatLength(std::abs(atLeft), style) +
               (outside(atLeft) ? " outside the near edge at the left, "
                                : " in from the near edge at the left, ") +
               formatLength(std::abs(atRight), style) + (outside(atRight) ? " outside it" : "") +
               " at the right. Saw just on its " + sideWord(cut, false) + ".";
}

void describeInner(CutStep& step, const CutTree& tree, const BoardWork& work,
                   const LengthStyle& style) {
  const Cut& cut = *step.cut;
  step.what = step.crosswise ? (cut.kind == CutKind::trim ? "Trim" : "Crosscut") : "Rip";
  const Reference from = nearestParallel(cut, tree, work);
  if (!from.cut && !step.crosswise) return describeFirstRip(step, style);
  if (!from.cut) {
    step.where = formatLength(toFacingBorder(cut, {0, middleOf(cut.line).y}), style) +
                 " from the rough left end.";
    return;
  }
  const double distance = toFacingBorder(cut, middleOf(from.border));
  step.where = formatLength(distance, style) +
               (step.crosswise ? " from its end at cut " : " from the straight edge of cut ") +
               std::to_string(from.cut->order) + ".";
}

}  // namespace

CutStep cutStep(const Cut& cut, const CutTree& tree, const Board& board, const BoardWork& work,
                const Shop& shop, const LengthStyle& style) {
  CutStep step;
  step.cut = &cut;
  step.crosswise = isCrosswise(cut);
  if (cut.kind == CutKind::curve) {
    step.what = "Curve";
    step.where = "saw along the drawn curve.";
  } else if (cut.firstRip) {
    describeFirstRip(step, style);
  } else if (tree.overFullWidth(cut)) {
    describeFullCrosscut(step, work, board, style);
  } else {
    describeInner(step, tree, work, style);
  }
  step.where += wasteWords(cut, tree, shop);
  return step;
}

}  // namespace rackside::sheets
