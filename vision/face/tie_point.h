// SPDX-License-Identifier: GPL-3.0-or-later
// One place in the wood seen from both faces: a through knot, a nail hole, a tag on an end.
#pragma once

#include <opencv2/core.hpp>

#include "core/geometry/shapes.h"

namespace rackside {

struct TiePoint {
  Point boardMm;     // on face A
  size_t photo = 0;  // of face B, as given to the scan
  cv::Point2d px;    // there, image frame
};

}  // namespace rackside
