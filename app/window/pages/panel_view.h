// SPDX-License-Identifier: GPL-3.0-or-later
// A panel before it is glued up: its strips as they lie, to be dragged into another order, turned
// end for end or over. What each seam comes to stands beside it.
#pragma once

#include <QWidget>
#include <memory>

#include "app/window/document/look_session.h"

namespace rackside {

class PanelView : public QWidget {
  Q_OBJECT
 public:
  explicit PanelView(QWidget* parent = nullptr);
  void show(const std::shared_ptr<const PanelLooks>& looks);
  void setOrder(const PanelOrder& order);
  const PanelOrder& order() const { return order_; }
  QSize sizeHint() const override;

 signals:
  void orderChanged();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  // Place 0 is the near edge, at the bottom.
  double stripHeight() const;
  QRectF boxOf(size_t place) const;
  size_t placeAt(double y) const;
  void lay(const std::vector<LaidStrip>& strips);
  void moveChosen(int by);
  void turnChosen();
  void turnChosenOver();
  void drawStrip(QPainter& painter, size_t place, const QRectF& box) const;
  void drawSeams(QPainter& painter) const;

  std::shared_ptr<const PanelLooks> looks_;
  PanelOrder order_;
  size_t chosen_ = 0;
  std::optional<double> heldAt_;  // of the mouse in the strip in hand, from its top
  double mouseY_ = 0;
};

}  // namespace rackside
