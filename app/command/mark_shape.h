// SPDX-License-Identifier: GPL-3.0-or-later
// The shape of a mark as typed on the command line.
#pragma once

#include <string>
#include <vector>

#include "core/base/length.h"
#include "core/base/result.h"
#include "core/geometry/polygon.h"
#include "core/wood/mark.h"

namespace rackside::command {

// Each is the text of its option, empty when it was not given; lengths with or without a unit.
struct ShapeText {
  std::vector<std::string> ellipse;  // x y along across [degrees]
  std::vector<std::string> polygon;  // x y x y x y …
  std::vector<std::string> line;     // x y x y …
  std::string lineWidth;
};

// Fails when not exactly one shape is given, a length is not understood, or points are missing.
Result<MarkShape> shapeFrom(const ShapeText& text, UnitSystem bareUnit);

}  // namespace rackside::command
