// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/draw_tool.h"

#include "app/window/face/face_item.h"
#include "app/window/face/face_view.h"
#include "app/window/look/mark_look.h"
#include "app/window/tools/shape_handles.h"
#include "core/document/edits.h"

namespace rackside {

namespace {
constexpr double kTremblePx = 4;
constexpr double kClosePx = 9;
constexpr double kCheckWidthMm = 1;  // what a pencil line shows; set the true width in the panel
}  // namespace

DrawTool::DrawTool(FaceView& view, Form form) : Tool(view), form_(form) {}

const char* DrawTool::id() const {
  return form_ == Form::area ? "area" : form_ == Form::round ? "ellipse" : "line";
}

QString DrawTool::name() const {
  switch (form_) {
    case Form::area:
      return tr("Area");
    case Form::round:
      return tr("Ellipse");
    case Form::line:
      break;
  }
  return tr("Line");
}

QString DrawTool::hint() const {
  switch (form_) {
    case Form::area:
      return tr(
          "Click round the place, or draw round it in one stroke. Double-click or Ctrl+Enter "
          "closes it, Backspace takes a point back.");
    case Form::round:
      return tr("Drag from one corner of the spot to the other.");
    case Form::line:
      break;
  }
  return tr("Click along the line, or draw it in one stroke. Double-click or Ctrl+Enter ends it.");
}

void DrawTool::press(const ToolPoint& p) {
  pressedScreen_ = p.screen;
  byHand_ = false;
  if (form_ == Form::area && points_.size() > 2) {
    const QPointF d = view().camera().toScreen(points_.front()) - p.screen;
    if (std::hypot(d.x(), d.y()) < kClosePx) return finish();
  }
  if (points_.empty() || norm(points_.back() - p.board) > view().mmPerScreenPx())
    points_.push_back(p.board);
  next_ = p.board;
  // The second corner set by the keys, where there is no drag.
  if (form_ == Form::round && points_.size() == 2) finish();
}

void DrawTool::move(const ToolPoint& p) {
  next_ = p.board;
  if (!p.down || form_ == Form::round || points_.empty()) return;
  const QPointF d = p.screen - pressedScreen_;
  if (!byHand_ && std::hypot(d.x(), d.y()) < kTremblePx) return;
  byHand_ = true;
  if (norm(points_.back() - p.board) > 2 * view().mmPerScreenPx()) points_.push_back(p.board);
}

void DrawTool::release(const ToolPoint& p) {
  const QPointF d = p.screen - pressedScreen_;
  const bool dragged = std::hypot(d.x(), d.y()) >= kTremblePx;
  if (form_ == Form::round && points_.size() == 1 && dragged) {
    points_.push_back(p.board);
    finish();
  } else if (byHand_) {
    byHand_ = false;
    points_ = thinned(points_, 0.7 * view().mmPerScreenPx());
    finish();
  }
}

void DrawTool::doubleClick(const ToolPoint& p) {
  if (points_.empty() || norm(points_.back() - p.board) > 2 * view().mmPerScreenPx())
    points_.push_back(p.board);
  finish();
}

bool DrawTool::key(const QKeyEvent& event) {
  if (points_.empty()) return false;
  if (event.key() == Qt::Key_Escape) {
    cancel();
  } else if (event.key() == Qt::Key_Backspace) {
    points_.pop_back();
  } else if (event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter) {
    finish();
  } else {
    return false;
  }
  view().update();
  return true;
}

void DrawTool::cancel() {
  points_.clear();
  next_.reset();
  byHand_ = false;
}

std::optional<MarkShape> DrawTool::shape() const {
  if (form_ == Form::round) {
    if (points_.size() < 2) return std::nullopt;
    const Point a = points_.front(), b = points_.back();
    const Ellipse e{0.5 * (a + b), std::abs(b.x - a.x) / 2, std::abs(b.y - a.y) / 2, 0};
    if (std::min(e.semiX, e.semiY) < 0.2) return std::nullopt;
    return e;
  }
  if (form_ == Form::line) {
    if (points_.size() < 2) return std::nullopt;
    return Stroke{points_, kCheckWidthMm};
  }
  if (points_.size() < 3) return std::nullopt;
  return turnedCounterClockwise(points_);
}

void DrawTool::finish() {
  const auto drawnShape = shape();
  points_.clear();
  if (!drawnShape) return view().update();
  Mark mark;
  mark.id = MarkId{newIdText("mark")};
  mark.kind = kind_;
  mark.on(view().choice().face()) = *drawnShape;
  mark.depthFrom = view().choice().face();
  if (const Status fine = validate(mark); !fine) {
    emit view().document().editRefused(QString::fromStdString(fine.error().message));
    return view().update();
  }
  const MarkId id = mark.id;
  if (!view().document().perform(addMark(view().choice().board(), std::move(mark)))) return;
  view().choice().setMark(id);
  emit drawn();
}

void DrawTool::paintOver(QPainter& painter) const {
  if (points_.empty()) return;
  const QColor colour = markLook(kind_).colour;
  QPainterPath path;
  if (form_ == Form::round) {
    const Point b = next_.value_or(points_.front());
    path.addEllipse(QRectF(view().camera().toScreen(points_.front()), view().camera().toScreen(b))
                        .normalized());
  } else {
    path.moveTo(view().camera().toScreen(points_.front()));
    for (const Point p : points_) path.lineTo(view().camera().toScreen(p));
    if (next_ && !byHand_) path.lineTo(view().camera().toScreen(*next_));
  }
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(QColor(0, 0, 0, 150), 4));
  painter.drawPath(path);
  painter.setPen(QPen(colour.lighter(115), 2));
  painter.drawPath(path);
  painter.setBrush(Qt::white);
  painter.setPen(QPen(QColor(0, 0, 0, 180), 1));
  if (!byHand_)
    for (const Point p : points_) painter.drawEllipse(view().camera().toScreen(p), 3, 3);
}

}  // namespace rackside
