// SPDX-License-Identifier: GPL-3.0-or-later
// What it costs to take a cell border for the side of the board. Evidence for a border: a step of
// colour there (against the wood's own variation), wood inside and ground outside by colour, and,
// where the side wall shows, a second step where the wall ends. Evidence against: a line along the
// board crossed on the way out, or ground inside.
#pragma once

#include "vision/face/boundary.h"

namespace rackside {

struct BoundaryCost {
  cv::Mat total;  // CV_32F, of the border between rows y - 1 and y
  // CV_32F, to be added where the side is sawn: where wood ends by its hue and the face by its
  // roughness.
  cv::Mat ifSawn;
  cv::Mat hidden;  // CV_8U, a card is there
};

BoundaryCost boundaryCost(const BoundaryProblem& problem);

}  // namespace rackside
