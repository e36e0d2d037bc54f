// SPDX-License-Identifier: GPL-3.0-or-later
// A row that breaks into further rows where the window is narrow, so that nothing is cut off.
#pragma once

#include <QLayout>
#include <vector>

namespace rackside {

class FlowLayout : public QLayout {
  Q_OBJECT
 public:
  explicit FlowLayout(QWidget* parent);
  ~FlowLayout() override;
  void insertWidget(int index, QWidget* widget);
  void addItem(QLayoutItem* item) override;
  int count() const override { return static_cast<int>(items_.size()); }
  QLayoutItem* itemAt(int index) const override;
  QLayoutItem* takeAt(int index) override;
  Qt::Orientations expandingDirections() const override { return {}; }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override { return arrange(QRect(0, 0, width, 0), false); }
  QSize sizeHint() const override { return minimumSize(); }
  QSize minimumSize() const override;
  void setGeometry(const QRect& rect) override;

 private:
  int arrange(const QRect& rect, bool place) const;
  std::vector<QLayoutItem*> items_;
};

}  // namespace rackside
