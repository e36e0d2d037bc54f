// SPDX-License-Identifier: GPL-3.0-or-later
// Redraws a stretch of the outline: begin on it, go along the true edge, end on it.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "app/window/tools/outline_stretch.h"
#include "app/window/tools/tool.h"

namespace rackside {

class OutlineTool : public Tool {
  Q_OBJECT
 public:
  using Tool::Tool;
  QString name() const override { return tr("Outline"); }
  QString hint() const override;
  void press(const ToolPoint& p) override;
  void move(const ToolPoint& p) override;
  void release(const ToolPoint& p) override;
  void doubleClick(const ToolPoint& p) override;
  bool key(const QKeyEvent& event) override;
  void cancel() override;
  void refresh() override;
  void paintOver(QPainter& painter) const override;

 private:
  bool begin(Point at);
  void extendTo(Point at);
  void finish(const OutlinePlace& end);
  double reachMm() const;
  void follow(Point to);
  std::vector<StretchPoint> straightTo(Point to) const;

  std::optional<OutlinePlace> from_;
  std::vector<StretchPoint> line_;  // settled so far
  std::vector<size_t> anchors_;     // lengths of line_ at each click, to take clicks back
  std::vector<StretchPoint> next_;  // from the last click to the pointer
  QPointF pressedScreen_;
  bool byHand_ = false;
};

}  // namespace rackside
