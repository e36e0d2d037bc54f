// SPDX-License-Identifier: GPL-3.0-or-later
// What a copy of each part costs while one board is laid out by itself, and how many it may hold.
#pragma once

#include <vector>

namespace rackside {

struct Prices {
  std::vector<double> ofPart;  // taken off the worth of each copy
};

// An item's pay at one set of prices: worth · gain − cost.
struct ItemPay {
  double plainValue = 0;
  double cost = 0;
  double most = 0;  // at its best place
};

}  // namespace rackside
