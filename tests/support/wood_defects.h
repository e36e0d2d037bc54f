// SPDX-License-Identifier: GPL-3.0-or-later
// Paints knots, checks, holes, bark and stain over clean wood, and tells their true outlines.
#pragma once

#include <vector>

#include "core/wood/mark.h"
#include "tests/support/wood_face.h"

namespace rackside::synthetic {

void paintDefects(const WoodLog& log, double z, const PaintOptions& options, PaintedWood& face);

// The true marks of the log's defects, model frame: shapes on both faces, through and depth.
std::vector<Mark> trueMarks(const WoodLog& log);

// Where sapwood meets heartwood on the plane z: y at every stepMm of x from x0 to x1, all crossings
// from low to high y between yLow and yHigh.
struct SapwoodAt {
  double x = 0;
  std::vector<double> crossings;
  bool lowIsSap = false;  // the wood at yLow
};
std::vector<SapwoodAt> sapwoodLine(const WoodLog& log, double z, const Rect& within, double stepMm);

}  // namespace rackside::synthetic
