// SPDX-License-Identifier: GPL-3.0-or-later
// Painted hardwood to check proposals on: named species (never learned from by name), knots and
// checks in the look of wood_defects.h, a card, a tag and crayon on it, worn as by a telephone.
#pragma once

#include <string>
#include <vector>

#include "core/wood/mark.h"
#include "vision/wood/propose/propose.h"

namespace rackside::synthetic {

struct PaintedCheck {
  FaceToRead face;
  std::vector<Mark> truth;                              // carried into pixels of the face
  std::vector<std::pair<const char*, Ellipse>> decoys;  // what lies on it, pixels
};

PaintedCheck paintedCheck(const std::string& species, uint32_t seed, double lengthMm,
                          double widthMm);

// Prints, by species: knots and checks found, false proposals a square metre, those on decoys.
void scorePaintedChecks(const MarkModel& model);

}  // namespace rackside::synthetic
