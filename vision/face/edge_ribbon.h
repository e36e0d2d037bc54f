// SPDX-License-Identifier: GPL-3.0-or-later
// A narrow band of the photographs unrolled along a line: one row a step along the line, columns
// across it.
#pragma once

#include "vision/face/rough_outline.h"

namespace rackside {

struct RibbonRow {
  Point at;       // on the line, axis frame
  Point outward;  // unit
  double wallMm = 0;
  double mmPerPx = 1;   // of the photograph, across the line
  bool hidden = false;  // by a card
  bool seen = true;
};

struct EdgeRibbon {
  double stepMm = 0;  // across
  int middle = 0;     // the column that lies on the line
  std::vector<RibbonRow> rows;
  cv::Mat light;  // CV_32FC3, linear light 0..1
};

// inwardMm, outwardMm: how far to either side of the line.
EdgeRibbon edgeRibbon(FaceViews& views, const AxisFace& axis, const std::vector<Point>& line,
                      const std::vector<Point>& outward, double inwardMm, double outwardMm);

}  // namespace rackside
