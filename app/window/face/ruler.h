// SPDX-License-Identifier: GPL-3.0-or-later
// Rulers along two sides of the face view, in the maker's units.
#pragma once

#include <QPainter>
#include <optional>
#include <vector>

#include "app/window/face/face_camera.h"
#include "core/base/length.h"

namespace rackside {

inline constexpr double kRulerPx = 26;

struct RulerTick {
  double mm = 0;
  int rank = 0;  // 0 is the longest tick
  QString label;
};

// Ticks from fromMm to toMm, the finest at least 5 px apart, labels at least labelPx apart. Inches
// are divided by halves (1/2, 1/4, … down to the maker's finest fraction), millimetres by tens.
std::vector<RulerTick> rulerTicks(double fromMm, double toMm, double pxPerMm, double labelPx,
                                  const LengthStyle& style);

struct Ruler {
  const FaceCamera& camera;
  const LengthStyle& style;
  std::optional<Point> cursor;  // board mm, shown as a stroke across the ruler
};

// Along the top, over the viewport of the ruler's camera; `strip` is kRulerPx high.
void paintTopRuler(QPainter& painter, const QRectF& strip, const Ruler& ruler);
// Along the left, likewise; `strip` is kRulerPx wide.
void paintLeftRuler(QPainter& painter, const QRectF& strip, const Ruler& ruler);
// The square where both meet names the unit.
void paintRulerCorner(QPainter& painter, const LengthStyle& style);

}  // namespace rackside
