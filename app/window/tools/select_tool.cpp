// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/select_tool.h"

#include <algorithm>

#include "app/window/face/face_view.h"
#include "app/window/look/mark_look.h"
#include "app/window/tools/shape_handles.h"
#include "core/document/edits.h"
#include "core/geometry/polygon.h"

namespace rackside {

namespace {
constexpr double kHandleReachPx = 9;
constexpr double kTremblePx = 3;  // a click seldom holds quite still
}  // namespace

QString SelectTool::hint() const {
  if (chosen())
    return tr(
        "Drag to move, drag a dot to reshape, double-click a side for a new dot. "
        "Arrow keys nudge, Delete removes.");
  return tr(
      "Click a mark to select it, or press Tab to walk through them. Drag bare wood to move "
      "the view.");
}

const Mark* SelectTool::chosen() const {
  const Board* board = view().board();
  const Mark* mark = board ? board->findMark(view().choice().mark()) : nullptr;
  return mark && mark->on(view().choice().face()) ? mark : nullptr;
}

std::optional<size_t> SelectTool::handleAt(QPointF screen) const {
  const Mark* mark = chosen();
  if (!mark) return std::nullopt;
  const auto handles = handlesOf(*mark->on(view().choice().face()));
  std::optional<size_t> best;
  // Inside a mark that is small on the screen most of it must still serve to move it.
  double bestPx = kHandleReachPx;
  if (view().scene().markAt(view().camera().toBoard(screen), 0) == mark->id) {
    const Rect b = bounds(polygonsOf(*mark->on(view().choice().face())).front());
    bestPx = std::min(bestPx, 0.25 * std::min(b.width(), b.height()) * view().camera().pxPerMm());
  }
  for (size_t i = 0; i < handles.size(); ++i) {
    const QPointF d = view().camera().toScreen(handles[i]) - screen;
    const double px = std::hypot(d.x(), d.y());
    if (px > bestPx) continue;
    bestPx = px;
    best = i;
  }
  return best;
}

void SelectTool::press(const ToolPoint& p) {
  pressedAt_ = p.board;
  pressedScreen_ = p.screen;
  beyondTremble_ = false;
  gesture_ = view().document().newGesture();
  if (const auto handle = handleAt(p.screen)) {
    drag_ = Drag::handle;
    handle_ = *handle;
    before_ = *chosen()->on(view().choice().face());
    return;
  }
  const auto hit = view().scene().markAt(p.board, view().hitToleranceMm());
  view().choice().setMark(hit.value_or(MarkId{}));
  drag_ = hit ? Drag::mark : Drag::view;
  before_.reset();
  if (const Mark* mark = chosen()) before_ = *mark->on(view().choice().face());
  view().showHint();
}

void SelectTool::move(const ToolPoint& p) {
  if (!p.down || drag_ == Drag::none) return;
  const QPointF moved = p.screen - pressedScreen_;
  if (!beyondTremble_ && std::hypot(moved.x(), moved.y()) < kTremblePx) return;
  beyondTremble_ = true;
  if (drag_ == Drag::view) {
    view().panBy(moved);
    pressedScreen_ = p.screen;
    return;
  }
  if (!before_ || !chosen()) return;
  replaceShape(drag_ == Drag::handle ? withHandleAt(*before_, handle_, p.board)
                                     : movedBy(*before_, p.board - pressedAt_),
               gesture_);
}

void SelectTool::release(const ToolPoint&) {
  drag_ = Drag::none;
  before_.reset();
}

void SelectTool::doubleClick(const ToolPoint& p) {
  const Mark* mark = chosen();
  if (!mark) return;
  const auto added =
      withVertexNear(*mark->on(view().choice().face()), p.board, view().hitToleranceMm());
  if (added) replaceShape(added->first, -1);
}

void SelectTool::replaceShape(const MarkShape& shape, long long gesture) {
  const Mark* mark = chosen();
  if (!mark) return;
  Mark changed = *mark;
  changed.on(view().choice().face()) = shape;
  (void)view().document().perform(changeMark(view().choice().board(), std::move(changed)), gesture);
}

bool SelectTool::walk(int step) {
  const auto ids = view().scene().marksInOrder();
  if (ids.empty()) return false;
  const auto at = std::find(ids.begin(), ids.end(), view().choice().mark());
  const auto n = static_cast<std::ptrdiff_t>(ids.size());
  const std::ptrdiff_t from = at == ids.end() ? (step > 0 ? -1 : n) : at - ids.begin();
  const std::ptrdiff_t next = from + step;
  // Past the last mark, Tab leaves the view, as everywhere else.
  view().choice().setMark(next < 0 || next >= n ? MarkId{} : ids[static_cast<size_t>(next)]);
  view().showHint();
  return next >= 0 && next < n;
}

bool SelectTool::nudge(const QKeyEvent& event) {
  const Mark* mark = chosen();
  if (!mark || event.modifiers().testFlag(Qt::ControlModifier)) return false;
  const LengthStyle style = view().document().lengths();
  double step = style.system == UnitSystem::inches ? kMmPerInch / style.denominator : 1.0;
  if (event.modifiers().testFlag(Qt::ShiftModifier)) step *= 10;
  const double across = view().camera().turnedOver() ? -step : step;
  Point delta;
  if (event.key() == Qt::Key_Left)
    delta = {-across, 0};
  else if (event.key() == Qt::Key_Right)
    delta = {across, 0};
  else if (event.key() == Qt::Key_Up)
    delta = {0, step};
  else if (event.key() == Qt::Key_Down)
    delta = {0, -step};
  else
    return false;
  // Holding the key down is one gesture.
  if (!event.isAutoRepeat()) gesture_ = view().document().newGesture();
  replaceShape(movedBy(*mark->on(view().choice().face()), delta), gesture_);
  return true;
}

bool SelectTool::key(const QKeyEvent& event) {
  const Mark* mark = chosen();
  switch (event.key()) {
    case Qt::Key_Tab:
      return walk(1);
    case Qt::Key_Backtab:
      return walk(-1);
    case Qt::Key_Delete:
    case Qt::Key_Backspace: {
      if (!mark) return false;
      const MarkId id = mark->id;
      const BoardId board = view().choice().board();
      const bool suggested = !mark->confirmed;  // removed only, it would come back
      view().choice().setMark({});
      (void)view().document().perform(suggested ? refuseMarks(board, {id}) : removeMark(board, id));
      return true;
    }
    case Qt::Key_Escape:
      if (view().choice().mark().empty()) return false;
      view().choice().setMark({});
      view().showHint();
      return true;
    default:
      return nudge(event);
  }
}

void SelectTool::cancel() {
  drag_ = Drag::none;
  before_.reset();
}

void SelectTool::paintOver(QPainter& painter) const {
  const Mark* mark = chosen();
  if (!mark) return;
  painter.setPen(QPen(QColor(0, 0, 0, 180), 1.5));
  painter.setBrush(Qt::white);
  for (const Point handle : handlesOf(*mark->on(view().choice().face())))
    painter.drawEllipse(view().camera().toScreen(handle), 4.5, 4.5);
}

}  // namespace rackside
