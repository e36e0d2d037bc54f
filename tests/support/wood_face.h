// SPDX-License-Identifier: GPL-3.0-or-later
// Paints a believable wood surface from the log's geometry: growth rings, pores, knots, checks,
// sapwood, grey and saw marks. The same seed gives the same wood with or without any of these.
#pragma once

#include <opencv2/core.hpp>

#include "tests/support/wood_log.h"
#include "tests/support/wood_species.h"

namespace rackside::synthetic {

struct PaintOptions {
  double mmPerPx = 0.3;
  bool sawMarks = true;
  double grey = 0.75;  // 0: freshly planed, 1: as grey as boards get
  bool defects = true;
  bool stickerBands = true;     // paler bands where stickers kept the light away (when grey)
  double sawLight = 1;          // how low the light rakes over the saw marks (0: not seen)
  std::optional<Species> look;  // instead of the species that the spec names
};

// A painted plane. Pixel (px, py), centres at integers, shows the wood at
//   u = u0 + px mmPerPx,  v = v1 - py mmPerPx
// with (u, v) = (x, y) on a face, (x, z) on an edge, (y, z) on an end, model frame.
struct PaintedWood {
  cv::Mat bgr;  // CV_8UC3, sRGB
  double mmPerPx = 0;
  double u0 = 0, v1 = 0;
};

PaintedWood paintFace(const WoodLog& log, const Rect& xyMm, double z, const PaintOptions& options);
PaintedWood paintEdge(const WoodLog& log, const Rect& xzMm, double y, const PaintOptions& options);
PaintedWood paintEnd(const WoodLog& log, const Rect& yzMm, double x, const PaintOptions& options);

// Slope of the saw marks' surface (relative, about -1..1) and, for tests, their phase in turns.
double sawPhase(const SawSpec& saw, uint32_t seed, double x, double y);

}  // namespace rackside::synthetic
