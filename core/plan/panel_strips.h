// SPDX-License-Identifier: GPL-3.0-or-later
// Panels glued up from strips. Millimetres.
//
// A panel of n strips is planned as n parts of one width, w = (W + 2 g (n − 1)) / n: jointing takes
// the glue-line allowance g off each glued edge, the two outer edges keep theirs, and n w − 2 g (n
// − 1) = W is the panel's finished width. (Plain arithmetic.)
#pragma once

#include <map>
#include <vector>

#include "core/plan/planner.h"

namespace rackside {

// May be glued up, and has a width that strips can be counted in: its grain runs along, it has no
// outline of its own.
bool mayBeGluedUp(const Part& part);

double stripWidthMm(const Part& part, int strips, const Shop& shop);

// Counts worth trying, fewest first: strips between the part's least and greatest width; 1 stands
// for one piece, when a board is wide enough for that.
std::vector<int> stripCounts(const Part& part, const std::vector<Board>& boards, const Shop& shop);

using StripCounts = std::map<PartId, int>;  // of parts planned in more than one strip

// The parts with each panel as its strips; a strip has its share of the panel's value.
std::vector<Part> inStrips(const std::vector<Part>& parts, const StripCounts& counts,
                           const Shop& shop);

// The reverse for a plan made of such parts: strips become panels, as many as are whole, each of
// one species and as far as can be of one board, in show order; strips of no whole panel are taken
// out. Returns how many panels of each part are whole.
StripCounts intoPanels(const PlanRequest& request, const StripCounts& counts, Plan& plan);

}  // namespace rackside
