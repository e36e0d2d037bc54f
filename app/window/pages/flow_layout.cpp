// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/flow_layout.h"

#include <QWidget>
#include <algorithm>

namespace rackside {

namespace {
constexpr int kGap = 4;
}

FlowLayout::FlowLayout(QWidget* parent) : QLayout(parent) {}

FlowLayout::~FlowLayout() {
  for (QLayoutItem* item : items_) delete item;
}

void FlowLayout::addItem(QLayoutItem* item) {
  items_.push_back(item);
}

void FlowLayout::insertWidget(int index, QWidget* widget) {
  addWidget(widget);
  std::rotate(items_.begin() + index, items_.end() - 1, items_.end());
  invalidate();
}

QLayoutItem* FlowLayout::itemAt(int index) const {
  return index >= 0 && index < count() ? items_[static_cast<size_t>(index)] : nullptr;
}

QLayoutItem* FlowLayout::takeAt(int index) {
  if (index < 0 || index >= count()) return nullptr;
  QLayoutItem* item = items_[static_cast<size_t>(index)];
  items_.erase(items_.begin() + index);
  return item;
}

QSize FlowLayout::minimumSize() const {
  QSize size;
  for (const QLayoutItem* item : items_)
    if (!item->isEmpty()) size = size.expandedTo(item->minimumSize());
  const QMargins m = contentsMargins();
  return size + QSize(m.left() + m.right(), m.top() + m.bottom());
}

void FlowLayout::setGeometry(const QRect& rect) {
  QLayout::setGeometry(rect);
  arrange(rect, true);
}

// Lines are gathered first, so that the items of one line stand on one middle.
int FlowLayout::arrange(const QRect& rect, bool place) const {
  const QRect in = rect.marginsRemoved(contentsMargins());
  int y = in.top(), x = in.left(), lineHeight = 0;
  std::vector<std::pair<QLayoutItem*, int>> line;
  const auto flush = [&] {
    if (place)
      for (const auto& [item, left] : line) {
        const QSize size = item->sizeHint();
        item->setGeometry(QRect(QPoint(left, y + (lineHeight - size.height()) / 2), size));
      }
    line.clear();
  };
  for (QLayoutItem* item : items_) {
    if (item->isEmpty()) continue;
    const QSize size = item->sizeHint();
    if (x > in.left() && x + size.width() > in.right() + 1) {
      flush();
      y += lineHeight + kGap;
      x = in.left();
      lineHeight = 0;
    }
    line.emplace_back(item, x);
    x += size.width() + kGap;
    lineHeight = std::max(lineHeight, size.height());
  }
  flush();
  return y + lineHeight - rect.top() + contentsMargins().bottom();
}

}  // namespace rackside
