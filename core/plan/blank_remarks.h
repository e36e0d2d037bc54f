// SPDX-License-Identifier: GPL-3.0-or-later
// What the maker should know of a blank before milling it.
#pragma once

#include <string>
#include <vector>

#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/plan/plan.h"

namespace rackside {

// Wider than the jointer, and the way round it; thick stock planed away, and whether it can be
// resawn into two; shows or is
// wide, and too thin to be milled twice. Common practice, no source.
std::vector<std::string> remarksOn(const Blank& blank, const Board& board, const Part& part,
                                   const Shop& shop);

}  // namespace rackside
