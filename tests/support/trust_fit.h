// SPDX-License-Identifier: GPL-3.0-or-later
// Learns how far the network's regions are to be trusted, on pictures that it did not learn from.
#pragma once

#include <vector>

#include "vision/wood/propose/mark_model.h"

namespace rackside::test {

struct JudgedRegion {
  RegionFamily family = RegionFamily::round;
  double mean = 0, top = 0, areaPx = 0;  // as RegionTrust takes them
  bool right = false;
};

// Penalised maximum likelihood (Newton's method); the family's own law, or the plain one where
// there are too few regions.
RegionTrust fitTrust(const std::vector<JudgedRegion>& regions, RegionFamily family);

}  // namespace rackside::test
