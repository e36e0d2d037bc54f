// SPDX-License-Identifier: GPL-3.0-or-later
// Chooses marks, moves and reshapes them. Dragging bare wood moves the view.
#pragma once

#include <optional>

#include "app/window/tools/tool.h"
#include "core/wood/board.h"

namespace rackside {

class SelectTool : public Tool {
  Q_OBJECT
 public:
  using Tool::Tool;
  const char* id() const override { return "select"; }
  QString name() const override { return tr("Select"); }
  QString hint() const override;
  QCursor cursor() const override { return Qt::ArrowCursor; }
  void press(const ToolPoint& p) override;
  void move(const ToolPoint& p) override;
  void release(const ToolPoint& p) override;
  void doubleClick(const ToolPoint& p) override;
  bool key(const QKeyEvent& event) override;
  bool usesKeyCursor() const override { return false; }
  void cancel() override;
  void paintOver(QPainter& painter) const override;

 private:
  enum class Drag { none, view, mark, handle };
  const Mark* chosen() const;
  std::optional<size_t> handleAt(QPointF screen) const;
  void replaceShape(const MarkShape& shape, long long gesture);
  bool walk(int step);
  bool nudge(const QKeyEvent& event);

  Drag drag_ = Drag::none;
  size_t handle_ = 0;
  Point pressedAt_;
  QPointF pressedScreen_;
  bool beyondTremble_ = false;
  std::optional<MarkShape> before_;
  long long gesture_ = -1;
};

}  // namespace rackside
