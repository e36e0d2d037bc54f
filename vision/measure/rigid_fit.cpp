// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/rigid_fit.h"

#include <cmath>
#include <stdexcept>

namespace rackside::measure {

Pose rigidFit(const std::vector<Point>& from, const std::vector<Point>& to) {
  if (from.size() != to.size() || from.size() < 2)
    throw std::logic_error("rigidFit() needs two lists of one length, at least 2");
  Point meanFrom, meanTo;
  for (size_t i = 0; i < from.size(); ++i) {
    meanFrom = meanFrom + from[i];
    meanTo = meanTo + to[i];
  }
  const double n = static_cast<double>(from.size());
  meanFrom = (1 / n) * meanFrom;
  meanTo = (1 / n) * meanTo;
  double c = 0, s = 0;
  for (size_t i = 0; i < from.size(); ++i) {
    c += dot(from[i] - meanFrom, to[i] - meanTo);
    s += cross(from[i] - meanFrom, to[i] - meanTo);
  }
  const double angle = std::atan2(s, c);
  return {meanTo - apply(Pose{{0, 0}, angle}, meanFrom), angle};
}

}  // namespace rackside::measure
