// SPDX-License-Identifier: GPL-3.0-or-later
// The parts that move enough through the year to be built for.
#pragma once

#include <string>
#include <vector>

#include "core/document/rack.h"
#include "core/trade/moisture.h"

namespace rackside {

struct MovingPart {
  PartId part;
  std::string name;
  std::string species;        // as the table names it
  Sawn sawn = Sawn::unknown;  // of its boards; unknown: reckoned flat sawn, the greater movement
  Provenance from = Provenance::memory;  // of the least sure coefficient
  Movement movement;
};
// From this width on a part is told of: a panel moves as one board of its width (common practice,
// no source).
inline constexpr double kWideFromMm = 150;

struct MovingParts {
  std::vector<MovingPart> parts;
  std::vector<std::string> woodsWithoutFigures;  // "": parts of which no wood is known
};
// Wood and way of sawing come from the boards that the plan cuts each part from (the greater
// movement where they differ); for a part that is not placed, from all boards that would serve it.
MovingParts movingParts(const Rack& rack, const Seasons& seasons);

// What to build for it, and how surely that is known.
std::string movementAdvice();

}  // namespace rackside
