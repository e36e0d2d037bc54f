// SPDX-License-Identifier: GPL-3.0-or-later
// What holes are filled with. The label on the product governs; these figures are where a shop
// starts from, and they are kept in shop.json.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/job/shop.h"

namespace rackside {

struct Filler {
  std::string name;
  double greatestDepthMm = 0;  // a deeper hole wants another filler
  double greatestPourMm = 0;   // of one pour; deeper holes are filled in several
  double densityGPerMl = 0;
  double leastBatchMl = 0;  // less cannot be mixed in proportion
  double mixingLoss = 0;    // share of what is needed that stays in cup and brush
  double hoursBetweenPours = 0;
  double hoursBeforeNextStep = 0;  // before it may be planed or sanded
};

std::vector<Filler> defaultFillers();
Status validate(const Filler& filler);

struct FillHabits {
  // The first that reaches a hole's depth is taken.
  std::vector<Filler> fillers = defaultFillers();
  // Bark and punky wood are dug out this much wider and deeper than they show before filling.
  double digOutMm = 1.5;
};

// The keys "fillers" and "dig_out_mm" of shop.json, the usual habits where they are absent. Fails
// with the key that is wrong.
Result<FillHabits> fillHabits(const Shop& shop);

}  // namespace rackside
