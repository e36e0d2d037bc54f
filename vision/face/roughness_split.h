// SPDX-License-Identifier: GPL-3.0-or-later
// Where the roughness of a face ends, across a ribbon along one of its sides: the place that best
// parts what is as rough as the face farther in from what is as rough as the ground farther out.
#pragma once

#include "vision/face/ribbon_cells.h"

namespace rackside {

struct RoughnessSplit {
  // CV_32F by cell: how much less likely the arris lies there than in the best place, once a few
  // millimetres about that are let off; logarithm times millimetres.
  cv::Mat shortfall;
  std::vector<bool> told;  // by column: the face ends here beyond doubt, and in one place

  bool tells(int column, int row) const {
    return told[size_t(column)] && shortfall.at<float>(row, column) <= 0;
  }
};

RoughnessSplit splitByRoughness(const RibbonCells& cells);

}  // namespace rackside
