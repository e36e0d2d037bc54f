// SPDX-License-Identifier: GPL-3.0-or-later
// A measuring line with its ±: of the measured plane, and of setting two points by hand.
#pragma once

#include <optional>

#include "app/window/tools/tool.h"
#include "core/wood/measure.h"

namespace rackside {

class MeasureTool : public Tool {
  Q_OBJECT
 public:
  using Tool::Tool;
  const char* id() const override { return "measure"; }
  QString name() const override { return tr("Measure"); }
  QString hint() const override {
    return tr(
        "Click two places, or drag between them; near the outline the end catches on it "
        "(Alt: it does not). Shift keeps the line along or across the board.");
  }
  void press(const ToolPoint& p) override;
  void move(const ToolPoint& p) override;
  void release(const ToolPoint& p) override;
  bool key(const QKeyEvent& event) override;
  void cancel() override;
  void paintOver(QPainter& painter) const override;
  std::optional<Measured> measured() const;
  QString text() const;

 private:
  struct End {
    Point at;
    bool onOutline = false;
  };
  End endAt(const ToolPoint& p) const;
  double sigma(const End& end) const;

  std::optional<End> from_, to_;
  QPointF pressedScreen_;
  bool open_ = false;  // the second end still follows the pointer
};

}  // namespace rackside
