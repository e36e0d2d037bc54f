// SPDX-License-Identifier: GPL-3.0-or-later
// The one smooth curve over a picture of costs that most of its columns favour: where a sawn side
// runs, though each stretch of it alone could be taken for something else.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

struct CurveBorder {  // row = a + b u + c u², u = -1 at the first column, 1 at the last
  double a = 0, b = 0, c = 0;
  double dearness = 0;  // mean over columns of what its place costs above the cheapest there
  double rival = 0;     // the same of the best curve that runs elsewhere

  double row(int column, int columns) const {
    const double u = 2.0 * column / (columns - 1) - 1;
    return a + u * (b + u * c);
  }
};

struct CurveOptions {                 // places in rows
  double mostTilt = 0, mostBend = 0;  // of b and c
  double bendCost = 0;                // added to dearness, for a row of bend
  float mostAColumn = 0;              // no column says more than that against a curve
  double samePlace = 0;               // mean distance up to which two curves are one
};

// cost: CV_32F, of the border between rows y - 1 and y; at least 2 columns.
CurveBorder cheapestCurve(const cv::Mat& cost, const CurveOptions& options);

// What straying from the curve adds to each place's cost: so much a square row, at most.
cv::Mat leaningTo(const CurveBorder& curve, cv::Size size, double perRow2, double most);

}  // namespace rackside
