// SPDX-License-Identifier: GPL-3.0-or-later
// What the maker is told of the holes to fill, alike on a screen and on paper.
#pragma once

#include <map>
#include <string>

#include "core/trade/fill_list.h"

namespace rackside {

// What to mind at one spot: "dig out the bark; dam it below". Empty when there is nothing to mind.
std::string fillRemark(const FillSpot& spot);

// "coating epoxy", or why none is named.
std::string fillerWord(const FillSpot& spot, const FillHabits& habits);

// The usual cautions of fillers; the label on the product comes first.
std::string fillCaution();

struct PartFill {
  int spots = 0;
  Measured volumeMl;  // u95 of the sum of independent spots
  bool depthUnknown = false;
};
std::map<PartId, PartFill> fillByPart(const FillList& list);

}  // namespace rackside
