// SPDX-License-Identifier: GPL-3.0-or-later
// Points in JSON, [x, y] each, and the readers that one form lends another.
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "core/geometry/shapes.h"
#include "core/wood/mark.h"

namespace rackside {

class JsonReader;

inline nlohmann::json pointJson(Point p) {
  return nlohmann::json::array({p.x, p.y});
}

inline nlohmann::json pointsJson(const std::vector<Point>& points) {
  nlohmann::json j = nlohmann::json::array();
  for (const Point p : points) j.push_back(pointJson(p));
  return j;
}

Mark readMark(JsonReader& reader);

}  // namespace rackside
