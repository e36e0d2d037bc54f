// SPDX-License-Identifier: GPL-3.0-or-later
// Panels glued up from strips. Millimetres.
//
// A panel of n strips is planned as n parts of one width, w = (W + 2 g (n − 1)) / n: jointing takes
// the glue-line allowance g off each glued edge, the two outer edges keep theirs, and n w − 2 g (n
// − 1) = W is the panel's finished width. (Plain arithmetic.)
#pragma once

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

// A part as it is planned: as itself, or as the strips of one way to make it.
struct PartWay {
  Part strip;           // with an id of its own when there is more than one; its share of the value
  PartId part;          // that it is of
  int strips = 1;       // of a copy
  std::string species;  // of the board, when any would do but all strips of a panel must be alike
};
std::vector<PartWay> waysOf(const Part& part, const std::vector<int>& counts,
                            const std::vector<Board>& boards, const Shop& shop);

// Turns a plan made of such strips into one of parts and panels, as many as are whole, each of one
// species and as far as can be of one board, or of boards alike in ring direction and tone. Strips
// lie as they lay in the board, those with sapwood at the panel's edges with it outwards, turned
// end for end where that takes it. Strips of no whole panel are taken out, with their cuts.
void intoPanels(const PlanRequest& request, const std::vector<PartWay>& ways, Plan& plan);

}  // namespace rackside
