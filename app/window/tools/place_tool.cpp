// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/place_tool.h"

#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/window/face/face_item.h"
#include "app/window/face/face_view.h"
#include "core/document/pinned.h"

namespace rackside {

namespace {
constexpr double kTremblePx = 4;
constexpr double kSettleSeconds = 3;
}  // namespace

QString PlaceTool::hint() const {
  if (session_.running()) return tr("Planning … the best so far is shown as it improves.");
  if (chosen())
    return tr(
        "Drag the piece, or move it with the arrow keys (Shift: in large steps) and press "
        "Enter. N pins it or lets it go, Esc puts it back.");
  return tr("Click a piece to select it, or press Tab to walk through them.");
}

const Piece* PlaceTool::chosen() const {
  const Plan* plan = session_.shown();
  if (!plan) return nullptr;
  for (const Piece& piece : plan->pieces)
    if (piece.id == view().choice().piece() && piece.board == view().choice().board())
      return &piece;
  return nullptr;
}

void PlaceTool::press(const ToolPoint& p) {
  pressedAt_ = p.board;
  pressedScreen_ = p.screen;
  dragging_ = false;
  panning_ = false;
  const auto hit = view().scene().pieceAt(p.board, view().hitToleranceMm());
  if (!hit || *hit != view().choice().piece()) {
    session_.dropTrial();
    held_ = {};
  }
  view().choice().setPiece(hit.value_or(PieceId{}));
  panning_ = !hit;
  dragging_ = hit.has_value() && !session_.running();
  pressedAt_ = p.board - held_;
  view().showHint();
}

void PlaceTool::move(const ToolPoint& p) {
  if (!p.down) return;
  const QPointF d = p.screen - pressedScreen_;
  if (panning_) {
    view().panBy(d);
    pressedScreen_ = p.screen;
    return;
  }
  if (!dragging_ || (!session_.trial() && std::hypot(d.x(), d.y()) < kTremblePx)) return;
  held_ = p.board - pressedAt_;
  session_.holdAt(view().choice().piece(), held_);
}

void PlaceTool::release(const ToolPoint&) {
  panning_ = false;
  if (!dragging_) return;
  dragging_ = false;
  letGo();
}

// A place that is forbidden keeps the piece in hand, with the reason in view.
void PlaceTool::letGo() {
  if (!session_.trial() || !session_.trial()->legal()) return;
  held_ = {};
  session_.settle(kSettleSeconds);
}

bool PlaceTool::walk(int step) {
  const auto ids = view().scene().piecesInOrder();
  if (ids.empty()) return false;
  const auto at = std::find(ids.begin(), ids.end(), view().choice().piece());
  const auto n = static_cast<std::ptrdiff_t>(ids.size());
  const std::ptrdiff_t next = (at == ids.end() ? (step > 0 ? -1 : n) : at - ids.begin()) + step;
  cancel();
  view().choice().setPiece(next < 0 || next >= n ? PieceId{} : ids[static_cast<size_t>(next)]);
  view().showHint();
  return next >= 0 && next < n;
}

bool PlaceTool::nudge(const QKeyEvent& event) {
  if (!chosen() || event.modifiers().testFlag(Qt::ControlModifier)) return false;
  const double step = event.modifiers().testFlag(Qt::ShiftModifier) ? 25 : 2;
  const double along = view().camera().turnedOver() ? -step : step;
  if (event.key() == Qt::Key_Left)
    held_.x -= along;
  else if (event.key() == Qt::Key_Right)
    held_.x += along;
  else if (event.key() == Qt::Key_Up)
    held_.y += step;
  else if (event.key() == Qt::Key_Down)
    held_.y -= step;
  else
    return false;
  session_.holdAt(view().choice().piece(), held_);
  return true;
}

bool PlaceTool::key(const QKeyEvent& event) {
  switch (event.key()) {
    case Qt::Key_Tab:
      return walk(1);
    case Qt::Key_Backtab:
      return walk(-1);
    case Qt::Key_Return:
    case Qt::Key_Enter:
      letGo();
      return true;
    case Qt::Key_N:
      if (const Piece* piece = chosen(); piece && view().document().rack().plan)
        session_.setPinned(piece->id, !isPinned(*view().document().rack().plan, piece->id));
      return true;
    case Qt::Key_Escape:
      if (session_.trial()) {
        cancel();
        return true;
      }
      if (view().choice().piece().empty()) return false;
      view().choice().setPiece({});
      return true;
    default:
      return nudge(event);
  }
}

void PlaceTool::cancel() {
  dragging_ = false;
  panning_ = false;
  held_ = {};
  if (session_.trial() && !session_.running()) session_.dropTrial();
}

void PlaceTool::paintOver(QPainter& painter) const {
  const auto& trial = session_.trial();
  const Piece* piece = chosen();
  if (!trial || !piece || trial->piece != piece->id) return;
  const QPainterPath path = view().camera().screenFromBoard().map(pathOf(piece->outline));
  const QColor colour = trial->legal() ? QColor(0x1F, 0x8A, 0x4C) : QColor(0xC6, 0x28, 0x28);
  painter.setBrush(QBrush(colour, trial->legal() ? Qt::NoBrush : Qt::BDiagPattern));
  painter.setPen(QPen(colour, 3, trial->legal() ? Qt::SolidLine : Qt::DashLine));
  painter.drawPath(path);
  const QString text = session_.running() ? tr("Planning the rest round it …")
                       : trial->legal()   ? tr("Fits here: let go to pin it")
                                          : trial->why.first();
  QFont font = painter.font();
  font.setBold(true);
  painter.setFont(font);
  const QRectF at = path.boundingRect();
  const double half = QFontMetricsF(font).horizontalAdvance(text) / 2 + 8;
  const QRectF in = view().camera().viewport();
  const double x = in.width() > 2 * half
                       ? std::clamp(at.center().x(), in.left() + half, in.right() - half)
                       : in.center().x();
  const double y = at.bottom() + 18 < in.bottom() ? at.bottom() + 16 : at.top() - 16;
  paintPlate(painter, QPointF(x, std::clamp(y, in.top() + 12, in.bottom() - 12)), text, Qt::white,
             colour);
}

}  // namespace rackside
