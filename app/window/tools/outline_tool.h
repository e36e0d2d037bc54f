// SPDX-License-Identifier: GPL-3.0-or-later
// Redraws a stretch of the outline: begin on it, go along the true edge, end on it. Between two
// clicks the line follows the edge in the picture, or runs straight while Shift is held.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "app/window/tools/edge_follower.h"
#include "app/window/tools/outline_stretch.h"
#include "app/window/tools/tool.h"

namespace rackside {

class OutlineTool : public Tool {
  Q_OBJECT
 public:
  explicit OutlineTool(FaceView& view);
  const char* id() const override { return "outline"; }
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
  Point lastPoint() const;
  void follow(Point to);
  EdgePicture edgePicture() const;
  void takeFound(Point from, Point to, const std::vector<StretchPoint>& line);
  std::vector<StretchPoint> lineTo(Point to) const;

  std::optional<OutlinePlace> from_;
  std::vector<StretchPoint> line_;  // settled so far
  std::vector<size_t> anchors_;     // lengths of line_ at each click, to take clicks back
  std::vector<StretchPoint> next_;  // from the last click to the pointer
  EdgeFollower follower_;
  bool straight_ = false;  // Shift is held
  QPointF pressedScreen_;
  bool byHand_ = false;
};

}  // namespace rackside
