// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: what limits the measurement, and what each remedy would bring, foretold
// from the same normal equations.
#pragma once

#include <string>
#include <vector>

#include "vision/measure/fit.h"

namespace rackside::measure {

// 95 % half widths, mm, of the plane alone (edge finding not counted).
struct Foreseen {
  double length = 0;       // between the middles of the region's ends
  double width = 0;        // the worst of both ends and the middle
  double lengthTotal = 0;  // with the prints' scale
};
Foreseen foreseen(const Fit& f, const Eigen::MatrixXd& normal, const Polygon& region,
                  const Pose& boardFromPlane);

// The normal equations with something added that was not there.
Eigen::MatrixXd withCardAt(const Fit& f, const Eigen::MatrixXd& normal, Point planeMm,
                           double turnRad);
Eigen::MatrixXd withCalibratedLens(const Fit& f);

// How much longer the region would measure, mm, if both its ends stood endsMm higher than its
// middle and that were known: what leaving a bow out costs. 0 when the cards cannot be fitted so.
double longerIfBowed(const Fit& f, const Polygon& region, const Pose& boardFromPlane,
                     double endsMm);

std::vector<std::string> advice(const Fit& f, const Polygon& region, const Pose& boardFromPlane);
std::vector<std::string> warnings(const Fit& f);

}  // namespace rackside::measure
