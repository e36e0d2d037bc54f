// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: which parts of each block are free, and how tightly they are known.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "vision/measure/unknowns.h"

namespace rackside::measure {

// The free parts of a block and the information (inverse covariance) on them beforehand.
struct BlockPrior {
  std::vector<int> parts;
  Eigen::VectorXd mean;
  Eigen::MatrixXd information;
};

// Throws std::logic_error when the lens's covariance is not one.
BlockPrior lensPrior(const Lens& lens);
BlockPrior ownPrior(const Piece& piece);
BlockPrior sharedPrior(const Scene& scene);

}  // namespace rackside::measure
