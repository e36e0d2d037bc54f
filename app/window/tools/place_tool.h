// SPDX-License-Identifier: GPL-3.0-or-later
// Takes a planned piece in hand: tells at once whether it may lie where it is held, and why not;
// let go, it is pinned there and the rest is planned round it.
#pragma once

#include "app/window/document/plan_session.h"
#include "app/window/tools/tool.h"

namespace rackside {

class PlaceTool : public Tool {
  Q_OBJECT
 public:
  PlaceTool(FaceView& view, PlanSession& session) : Tool(view), session_(session) {}
  const char* id() const override { return "place"; }
  QString name() const override { return tr("Place"); }
  QString hint() const override;
  QCursor cursor() const override { return Qt::ArrowCursor; }
  void press(const ToolPoint& p) override;
  void move(const ToolPoint& p) override;
  void release(const ToolPoint& p) override;
  bool key(const QKeyEvent& event) override;
  bool usesKeyCursor() const override { return false; }
  void cancel() override;
  void paintOver(QPainter& painter) const override;

 private:
  const Piece* chosen() const;
  void letGo();
  bool walk(int step);
  bool nudge(const QKeyEvent& event);

  PlanSession& session_;
  bool dragging_ = false;
  bool panning_ = false;
  Point pressedAt_;
  QPointF pressedScreen_;
  Point held_;  // how far the piece has been moved
};

}  // namespace rackside
