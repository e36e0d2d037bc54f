// SPDX-License-Identifier: GPL-3.0-or-later
// What holes are filled with. The label on the product and its data sheet govern; these figures are
// where a shop starts from, and they are kept in shop.json. Fillers are named after the kinds that
// data sheets tell apart: by how thin they are and how deep they may be poured.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/job/shop.h"

namespace rackside {

struct Filler {
  std::string name;
  double leastWidthMm = 0;     // of the hole's mouth: it does not run into a narrower one
  double greatestWidthMm = 0;  // it does not stand in a wider one; 0: any
  double greatestDepthMm = 0;  // a deeper hole wants another filler
  double greatestPourMm = 0;   // of one pour; deeper holes are filled in several
  double densityGPerMl = 0;
  double leastBatchMl = 0;     // less cannot be mixed in proportion
  double greatestBatchMl = 0;  // more grows too hot in one cup; 0: none is mixed
  double mixingLoss = 0;       // share of what is needed that stays in cup and brush
  double hoursBetweenPours = 0;
  double hoursBeforeNextStep = 0;  // before it may be planed or sanded
};

std::vector<Filler> defaultFillers();
Status validate(const Filler& filler);

// A hole of less is a matter of a drop of thin glue, whatever its size (common practice, no
// source).
inline constexpr double kDropMl = 0.2;

struct FillHabits {
  // The first that suits a hole's width and reaches its depth is taken.
  std::vector<Filler> fillers = defaultFillers();
  // Bark and punky wood are dug out this much wider and deeper than they show before filling.
  double digOutMm = 1.5;
};

// The keys "fillers" and "dig_out_mm" of shop.json, the usual habits where they are absent. Fails
// with the key that is wrong.
Result<FillHabits> fillHabits(const Shop& shop);

}  // namespace rackside
