// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/panel_view.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"

namespace rackside {
namespace {

constexpr double kWordsPx = 230, kMarginPx = 8;
constexpr double kLeastStripPx = 26;

}  // namespace

PanelView::PanelView(QWidget* parent) : QWidget(parent) {
  setFocusPolicy(Qt::StrongFocus);
  setObjectName(QStringLiteral("panelView"));
  setAccessibleName(tr("The panel's strips"));
  setToolTip(
      tr("Drag a strip to another place. Keys: up and down choose, with Ctrl they move it; "
         "T turns it end for end, O turns it over."));
}

void PanelView::show(const std::shared_ptr<const PanelLooks>& looks) {
  looks_ = looks;
  chosen_ = 0;
  heldAt_.reset();
  setOrder(looks && !looks->panel.orders.empty() ? looks->panel.orders.front() : PanelOrder{});
}

void PanelView::setOrder(const PanelOrder& order) {
  order_ = order;
  chosen_ = std::min(chosen_, order_.strips.empty() ? 0 : order_.strips.size() - 1);
  setFixedHeight(sizeHint().height());
  update();
  emit orderChanged();
}

void PanelView::resizeEvent(QResizeEvent*) {
  setFixedHeight(sizeHint().height());
}

QSize PanelView::sizeHint() const {
  return {600, static_cast<int>(2 * kMarginPx + stripHeight() * double(order_.strips.size()))};
}

// True to its own shape, as wide as there is room.
double PanelView::stripHeight() const {
  if (!looks_) return kLeastStripPx;
  const double pxPerMm =
      std::max(100.0, width() - kWordsPx - 2 * kMarginPx) / looks_->panel.strip.lengthMm;
  return std::max(kLeastStripPx, looks_->panel.strip.widthMm * pxPerMm);
}

QRectF PanelView::boxOf(size_t place) const {
  const double high = stripHeight();
  const double top = kMarginPx + high * double(order_.strips.size() - 1 - place);
  return {kMarginPx, top, std::max(100.0, width() - kWordsPx - 2 * kMarginPx), high};
}

size_t PanelView::placeAt(double y) const {
  const auto fromTop = static_cast<int>(std::floor((y - kMarginPx) / stripHeight()));
  const int last = static_cast<int>(order_.strips.size()) - 1;
  return static_cast<size_t>(std::clamp(last - fromTop, 0, last));
}

void PanelView::lay(const std::vector<LaidStrip>& strips) {
  setOrder(judgedOrder(looks_->panel, strips));
}

void PanelView::moveChosen(int by) {
  const auto to = static_cast<std::ptrdiff_t>(chosen_) + by;
  if (to < 0 || to >= static_cast<std::ptrdiff_t>(order_.strips.size())) return;
  auto strips = order_.strips;
  std::swap(strips[chosen_], strips[static_cast<size_t>(to)]);
  chosen_ = static_cast<size_t>(to);
  lay(strips);
}

void PanelView::turnChosen() {
  auto strips = order_.strips;
  strips[chosen_].turned = !strips[chosen_].turned;
  lay(strips);
}

void PanelView::turnChosenOver() {
  auto strips = order_.strips;
  LaidStrip& s = strips[chosen_];
  if (!s.over && !looks_->panel.strips[static_cast<size_t>(s.strip)].other) return;
  s.over = !s.over;
  lay(strips);
}

void PanelView::drawStrip(QPainter& painter, size_t place, const QRectF& box) const {
  const LaidStrip& s = order_.strips[place];
  painter.drawImage(box, imageOf(laidPicture(looks_->strips, s)));
  painter.setPen(QPen(colours().line, 1));
  painter.drawRect(box);
  QString label = QString::number(s.strip + 1);
  if (s.turned) label += QStringLiteral(" ↔");
  if (s.over) label += QStringLiteral(" ↕");
  const QRectF tag(box.left() + 4, box.top() + 4, fontMetrics().horizontalAdvance(label) + 12,
                   fontMetrics().height() + 2);
  painter.setPen(Qt::NoPen);
  painter.setBrush(place == chosen_ ? colours().accent : colours().card);
  painter.drawRoundedRect(tag, 4, 4);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(place == chosen_ ? colours().onAccent : colours().ink);
  painter.drawText(tag, Qt::AlignCenter, label);
  if (place != chosen_) return;
  painter.setPen(QPen(colours().accent, hasFocus() ? 3 : 2));
  painter.drawRect(box.adjusted(1, 1, -1, -1));
}

void PanelView::drawSeams(QPainter& painter) const {
  for (size_t i = 0; i < order_.seams.size(); ++i) {
    const Seam& seam = order_.seams[i];
    const double y = boxOf(i).top(), x = boxOf(i).right();
    const QColor ink = seam.cost() < 0.5   ? colours().good
                       : seam.cost() < 1.0 ? colours().warn
                                           : colours().bad;
    painter.setPen(QPen(ink, 2));
    painter.drawLine(QPointF(x, y), QPointF(x + 14, y));
    painter.drawText(
        QRectF(x + 18, y - fontMetrics().height(), kWordsPx - 22, 2 * fontMetrics().height()),
        Qt::AlignVCenter | Qt::TextWordWrap, qt(words(seam)));
  }
}

void PanelView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  if (!looks_ || order_.strips.empty()) return;
  painter.setRenderHints(QPainter::SmoothPixmapTransform | QPainter::Antialiasing);
  for (size_t i = 0; i < order_.strips.size(); ++i)
    if (!(heldAt_ && i == chosen_)) drawStrip(painter, i, boxOf(i));
  drawSeams(painter);
  if (!heldAt_) return;
  QRectF box = boxOf(chosen_);
  box.moveTop(mouseY_ - *heldAt_);
  painter.setOpacity(0.85);
  drawStrip(painter, chosen_, box);
}

void PanelView::mousePressEvent(QMouseEvent* event) {
  if (!looks_ || order_.strips.empty() || event->button() != Qt::LeftButton) return;
  chosen_ = placeAt(event->position().y());
  mouseY_ = event->position().y();
  heldAt_ = mouseY_ - boxOf(chosen_).top();
  update();
}

void PanelView::mouseMoveEvent(QMouseEvent* event) {
  if (!heldAt_) return;
  mouseY_ = event->position().y();
  const size_t to = placeAt(mouseY_ - *heldAt_ + stripHeight() / 2);
  if (to != chosen_) {
    auto strips = order_.strips;
    const LaidStrip held = strips[chosen_];
    strips.erase(strips.begin() + static_cast<std::ptrdiff_t>(chosen_));
    strips.insert(strips.begin() + static_cast<std::ptrdiff_t>(to), held);
    chosen_ = to;
    lay(strips);
  }
  update();
}

void PanelView::mouseReleaseEvent(QMouseEvent*) {
  heldAt_.reset();
  update();
}

void PanelView::keyPressEvent(QKeyEvent* event) {
  if (!looks_ || order_.strips.empty()) return QWidget::keyPressEvent(event);
  const bool move = event->modifiers() & Qt::ControlModifier;
  switch (event->key()) {
    case Qt::Key_Up:
    case Qt::Key_Down: {
      const int by = event->key() == Qt::Key_Up ? 1 : -1;
      if (move) return moveChosen(by);
      const auto to = static_cast<std::ptrdiff_t>(chosen_) + by;
      chosen_ = static_cast<size_t>(
          std::clamp<std::ptrdiff_t>(to, 0, std::ptrdiff_t(order_.strips.size()) - 1));
      return update();
    }
    case Qt::Key_T:
      return turnChosen();
    case Qt::Key_O:
      return turnChosenOver();
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace rackside
