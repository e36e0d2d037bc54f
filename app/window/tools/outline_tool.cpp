// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/outline_tool.h"

#include <QPainterPath>
#include <cmath>

#include "app/window/face/face_view.h"
#include "app/window/look/text.h"
#include "app/window/tools/shape_handles.h"
#include "core/document/edits.h"

namespace rackside {

namespace {
constexpr double kCatchPx = 12;
constexpr double kTremblePx = 4;
}  // namespace

OutlineTool::OutlineTool(FaceView& view) : Tool(view) {
  connect(&follower_, &EdgeFollower::found, this, &OutlineTool::takeFound);
}

QString OutlineTool::hint() const {
  if (!from_)
    return tr(
        "Click on the outline where the wrong stretch begins, then along the true edge, then "
        "on the outline where it ends. The line follows the edge that is seen. Or draw it in one "
        "stroke.");
  return tr(
      "Click along the edge; click on the outline, or double-click, to end. Shift draws straight, "
      "Backspace takes a point back, Esc drops it.");
}

double OutlineTool::reachMm() const {
  return kCatchPx * view().mmPerScreenPx();
}

bool OutlineTool::begin(Point at) {
  const Board* board = view().board();
  if (!board || board->outline.vertices.size() < 3) return false;
  const OutlinePlace place = nearestPlace(board->outline, at);
  if (place.offMm > reachMm()) return false;
  from_ = place;
  line_.clear();
  anchors_.clear();
  next_.clear();
  view().showHint();
  return true;
}

Point OutlineTool::lastPoint() const {
  return line_.empty() ? from_->at : line_.back().at;
}

EdgePicture OutlineTool::edgePicture() const {
  return {view().tiles(), view().boardFromPicture()};
}

std::vector<StretchPoint> OutlineTool::lineTo(Point to) const {
  if (straight_) return {{to, view().pointingSigmaMm()}};
  return edgeBetween(edgePicture(), lastPoint(), to, view().pointingSigmaMm());
}

// Straight at once; along the edge as soon as it is found.
void OutlineTool::follow(Point to) {
  next_ = {{to, view().pointingSigmaMm()}};
  if (straight_)
    follower_.forget();
  else
    follower_.ask(edgePicture(), lastPoint(), to, view().pointingSigmaMm());
}

void OutlineTool::takeFound(Point from, Point to, const std::vector<StretchPoint>& line) {
  const bool wanted = from_ && !byHand_ && !straight_ && !next_.empty() && from == lastPoint() &&
                      next_.back().at == to;
  if (!wanted) return;
  next_ = line;
  view().update();
}

void OutlineTool::extendTo(Point at) {
  const std::vector<StretchPoint> line = lineTo(at);
  anchors_.push_back(line_.size());
  line_.insert(line_.end(), line.begin(), line.end());
  next_.clear();
}

void OutlineTool::press(const ToolPoint& p) {
  pressedScreen_ = p.screen;
  byHand_ = false;
  straight_ = p.keys.testFlag(Qt::ShiftModifier);
  if (!from_) {
    begin(p.board);
    return;
  }
  const OutlinePlace place = nearestPlace(view().board()->outline, p.board);
  const bool ends = place.offMm < reachMm() && norm(place.at - from_->at) > reachMm();
  if (ends && (!line_.empty() || !straight_)) {
    extendTo(place.at);
    return finish(place);
  }
  extendTo(p.board);
}

void OutlineTool::move(const ToolPoint& p) {
  if (!from_) return;
  const QPointF d = p.screen - pressedScreen_;
  if (p.down && (byHand_ || std::hypot(d.x(), d.y()) > kTremblePx)) {
    byHand_ = true;
    if (norm(lastPoint() - p.board) > 2 * view().mmPerScreenPx())
      line_.push_back({p.board, view().pointingSigmaMm()});
    return;
  }
  straight_ = p.keys.testFlag(Qt::ShiftModifier);
  follow(p.board);
}

void OutlineTool::release(const ToolPoint& p) {
  if (!byHand_ || !from_) return;
  byHand_ = false;
  std::vector<Point> points;
  for (const StretchPoint& s : line_) points.push_back(s.at);
  points = thinned(points, 0.7 * view().mmPerScreenPx());
  line_.clear();
  for (const Point q : points) line_.push_back({q, view().pointingSigmaMm()});
  finish(nearestPlace(view().board()->outline, p.board));
}

void OutlineTool::doubleClick(const ToolPoint& p) {
  if (from_ && view().board()) finish(nearestPlace(view().board()->outline, p.board));
}

bool OutlineTool::key(const QKeyEvent& event) {
  if (!from_) return false;
  if (event.key() == Qt::Key_Escape) {
    cancel();
  } else if (event.key() == Qt::Key_Backspace) {
    if (anchors_.empty()) {
      cancel();
    } else {
      line_.resize(anchors_.back());
      anchors_.pop_back();
    }
  } else if (event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter) {
    if (line_.empty()) return true;
    finish(nearestPlace(view().board()->outline, line_.back().at));
  } else {
    return false;
  }
  view().update();
  return true;
}

void OutlineTool::finish(const OutlinePlace& end) {
  const Board* board = view().board();
  if (!board || !from_ || line_.empty()) return cancel();
  // The last point clicked lies where the line meets the outline again, or nearly: one is enough.
  if (norm(line_.back().at - end.at) < 2 * view().mmPerScreenPx()) line_.pop_back();
  const auto changed = withStretch(board->outline, *from_, end, line_, view().pointingSigmaMm());
  cancel();
  if (!changed) {
    emit view().document().editRefused(qt(changed.error().message));
    return;
  }
  (void)view().document().perform(changeOutline(board->id, *changed));
}

void OutlineTool::cancel() {
  from_.reset();
  line_.clear();
  anchors_.clear();
  next_.clear();
  byHand_ = false;
  view().showHint();
  view().update();
}

void OutlineTool::refresh() {
  from_.reset();
  line_.clear();
  next_.clear();
}

void OutlineTool::paintOver(QPainter& painter) const {
  if (!from_) return;
  QPainterPath path;
  path.moveTo(view().camera().toScreen(from_->at));
  for (const StretchPoint& p : line_) path.lineTo(view().camera().toScreen(p.at));
  for (const StretchPoint& p : next_) path.lineTo(view().camera().toScreen(p.at));
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(QColor(0, 0, 0, 160), 4.5));
  painter.drawPath(path);
  painter.setPen(QPen(QColor(0x8F, 0xD8, 0xFF), 2, Qt::DashDotLine));
  painter.drawPath(path);
  painter.setBrush(Qt::white);
  painter.setPen(QPen(QColor(0, 0, 0, 180), 1));
  painter.drawEllipse(view().camera().toScreen(from_->at), 4, 4);
}

}  // namespace rackside
