// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/strip_labels.h"

#include <algorithm>

#include "app/sheets/board_labels.h"
#include "app/sheets/hatch.h"
#include "core/plan/cut_tree.h"

namespace rackside::sheets {
namespace {

std::vector<StripLabel> dimensions(const Strip& strip, const BoardWork& work,
                                   const LengthStyle& lengths) {
  std::vector<StripLabel> labels;
  for (const CutStep& step : work.steps) {
    const double x = middleOf(step.cut->line).x;
    if (!step.runningMm || x < strip.x0 || x > strip.x1) continue;
    StripLabel l;
    l.text = step.cut == work.freshCut
                 ? QString("0 fresh end")
                 : QString::fromStdString(formatLength(*step.runningMm, lengths, false));
    l.cutOrder = step.cut->order;
    l.tip = QPointF(strip.at({x, 0}).x(), strip.box().top());
    l.place.width = kRingMm + 1.2 + Sheet::textSize(l.text, kDimensionLook).width();
    l.place.wantedX = l.tip.x() + l.place.width / 2 - kRingMm / 2;  // the ring over the cut
    labels.push_back(l);
  }
  return labels;
}

QString wordsOf(const Mark& mark, bool onFarFace) {
  QString words = wordFor(mark);
  if (mark.through) words += ", through";
  if (onFarFace) words += " (far face)";
  return words;
}

std::vector<StripLabel> markWords(const Strip& strip, const Board& board, Face face) {
  std::vector<StripLabel> labels;
  for (const Mark& mark : board.marks) {
    if (!mark.confirmed) continue;
    const bool here = mark.on(face).has_value();
    const Polygons shape = polygonsOf(here ? *mark.on(face) : *mark.on(otherFace(face)));
    if (shape.empty()) continue;
    const Rect b = bounds(shape.front());
    if (b.x1 < strip.x0 || b.x0 > strip.x1) continue;
    StripLabel l;
    l.text = wordsOf(mark, !here);
    l.tip = strip.at({std::clamp((b.x0 + b.x1) / 2, strip.x0, strip.x1), (b.y0 + b.y1) / 2});
    l.place.width = Sheet::textSize(l.text, {kMarkWordMm}).width() + 0.5;
    l.place.wantedX = l.tip.x();
    labels.push_back(l);
  }
  return labels;
}

// Returns how many lanes are in use, at least one.
int place(std::vector<StripLabel>& labels, double left, double right, double gap) {
  std::vector<LaneLabel> places;
  places.reserve(labels.size());
  for (const StripLabel& l : labels) places.push_back(l.place);
  placeInLanes(places, kMostLanes, left, right, gap);
  int lanes = 1;
  for (size_t i = 0; i < labels.size(); ++i) {
    labels[i].place = places[i];
    lanes = std::max(lanes, places[i].lane + 1);
  }
  return lanes;
}

}  // namespace

StripLabels labelsFor(const Strip& strip, const Board& board, const BoardWork& work, Face face,
                      const LengthStyle& lengths, double left, double right) {
  StripLabels labels{dimensions(strip, work, lengths), markWords(strip, board, face), 1, 1};
  labels.lanesAbove = place(labels.above, left, right, 1.5);
  labels.lanesBelow = place(labels.below, left, right, 2);
  return labels;
}

}  // namespace rackside::sheets
