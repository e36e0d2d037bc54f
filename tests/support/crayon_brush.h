// SPDX-License-Identifier: GPL-3.0-or-later
// Draws strokes of lumber crayon on a picture of wood as a hand would: a path that wobbles, a width
// that changes with the pressure, wax that skips over the hollows of the grain and leaves gaps.
#pragma once

#include <opencv2/core.hpp>
#include <random>
#include <vector>

namespace rackside::test {

struct BrushStroke {
  enum class Kind { ring, cross, line, tick };
  Kind kind = Kind::ring;
  cv::Point2d middleMm;  // of the ring, of the crossing, of the line, of the tick's bend
  double sizeMm = 80;    // across the ring; of each line of the cross; of the line; of the tick
};

enum class BrushColour { white, yellow, red, blue };

// Paints on `bgr` in place, x and y in mm of the picture (mmPerPx, y down).
void drawCrayon(cv::Mat& bgr, double mmPerPx, const BrushStroke& stroke, BrushColour colour,
                std::mt19937_64& random);

}  // namespace rackside::test
