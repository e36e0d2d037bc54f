// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/tools/measure_tool.h"

#include "app/window/face/face_item.h"
#include "app/window/face/face_view.h"
#include "app/window/look/text.h"

namespace rackside {

namespace {
constexpr double kTremblePx = 4;
}

MeasureTool::End MeasureTool::endAt(const ToolPoint& p) const {
  Point at = p.board;
  if (open_ && from_ && p.keys.testFlag(Qt::ShiftModifier)) {
    const Point d = at - from_->at;
    at = std::abs(d.x) > std::abs(d.y) ? Point{at.x, from_->at.y} : Point{from_->at.x, at.y};
  }
  if (!p.keys.testFlag(Qt::AltModifier))
    if (const auto caught = view().snapToOutline(at)) return {*caught, true};
  return {at, false};
}

// On the outline, the σ of its nearest vertex; elsewhere that of pointing.
double MeasureTool::sigma(const End& end) const {
  const Board* board = view().board();
  if (!end.onOutline || !board) return view().pointingSigmaMm();
  double best = 1e300, sigmaMm = view().pointingSigmaMm();
  for (const OutlineVertex& v : board->outline.vertices) {
    const double off = norm(v.at - end.at);
    if (off >= best) continue;
    best = off;
    sigmaMm = v.sigmaMm;
  }
  return sigmaMm;
}

void MeasureTool::press(const ToolPoint& p) {
  pressedScreen_ = p.screen;
  if (open_) {
    to_ = endAt(p);
    open_ = false;
    return;
  }
  from_ = endAt(p);
  to_ = from_;
  open_ = true;
}

void MeasureTool::move(const ToolPoint& p) {
  if (open_) to_ = endAt(p);
}

void MeasureTool::release(const ToolPoint& p) {
  const QPointF d = p.screen - pressedScreen_;
  if (!open_ || std::hypot(d.x(), d.y()) < kTremblePx) return;
  to_ = endAt(p);
  open_ = false;
}

bool MeasureTool::key(const QKeyEvent& event) {
  if (event.key() != Qt::Key_Escape || !from_) return false;
  cancel();
  view().update();
  return true;
}

void MeasureTool::cancel() {
  from_.reset();
  to_.reset();
  open_ = false;
}

std::optional<Measured> MeasureTool::measured() const {
  const Board* board = view().board();
  if (!from_ || !to_ || !board) return std::nullopt;
  return distance(board->outline, from_->at, to_->at, sigma(*from_), sigma(*to_));
}

QString MeasureTool::text() const {
  const auto m = measured();
  return m ? measuredText(*m, view().document().lengths()) : QString();
}

void MeasureTool::paintOver(QPainter& painter) const {
  if (!from_ || !to_) return;
  const QPointF a = view().camera().toScreen(from_->at), b = view().camera().toScreen(to_->at);
  const QPointF d = b - a;
  const double length = std::hypot(d.x(), d.y());
  const QPointF side = length > 0 ? QPointF(-d.y(), d.x()) / length * 8 : QPointF(0, 8);
  for (const auto& [colour, width] :
       {std::pair(QColor(0, 0, 0, 170), 4.5), std::pair(QColor(0xFF, 0xF2, 0xB8), 2.0)}) {
    painter.setPen(QPen(colour, width));
    painter.drawLine(a, b);
    painter.drawLine(a - side, a + side);
    painter.drawLine(b - side, b + side);
  }
  if (length < 2) return;
  QFont font = painter.font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * 1.15);
  painter.setFont(font);
  const QPointF lift(0, std::abs(d.x()) > std::abs(d.y()) ? -20 : 0);
  const QPointF aside(std::abs(d.x()) > std::abs(d.y()) ? 0 : 80, 0);
  paintPlate(painter, (a + b) / 2 + lift + aside, text(), QColor(0x2B, 0x28, 0x24),
             QColor(0xFF, 0xF2, 0xB8));
}

}  // namespace rackside
