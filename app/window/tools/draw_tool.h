// SPDX-License-Identifier: GPL-3.0-or-later
// Draws a new mark of the kind in hand: an area, a round spot, or a line.
#pragma once

#include <optional>
#include <vector>

#include "app/window/tools/tool.h"
#include "core/wood/mark.h"

namespace rackside {

class DrawTool : public Tool {
  Q_OBJECT
 public:
  enum class Form { area, round, line };
  DrawTool(FaceView& view, Form form);
  const char* id() const override;
  QString name() const override;
  QString hint() const override;
  void press(const ToolPoint& p) override;
  void move(const ToolPoint& p) override;
  void release(const ToolPoint& p) override;
  void doubleClick(const ToolPoint& p) override;
  bool key(const QKeyEvent& event) override;
  void cancel() override;
  void paintOver(QPainter& painter) const override;

  MarkKind kind() const { return kind_; }
  void setKind(MarkKind kind) { kind_ = kind; }

 signals:
  void drawn();

 private:
  void finish();
  std::optional<MarkShape> shape() const;

  Form form_;
  MarkKind kind_ = MarkKind::knot;
  std::vector<Point> points_;
  std::optional<Point> next_;  // where the pointer is
  QPointF pressedScreen_;
  bool byHand_ = false;  // dragged instead of clicked
};

}  // namespace rackside
