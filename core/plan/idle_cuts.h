// SPDX-License-Identifier: GPL-3.0-or-later
// Pieces and blanks taken out of a plan, and with them the cuts that free nothing any more.
#pragma once

#include <set>

#include "core/plan/plan.h"

namespace rackside {

// Takes these pieces out, blanks that hold none any more, and the cuts that are idle then.
void takeOut(const std::set<PieceId>& pieces, Plan& plan);

// Takes out the cuts that free no blank, and those that part waste from waste: what the one leaves
// to waste would come off with the next. What is left is numbered anew, board by board. Cuts that
// were made stay.
void takeOutIdleCuts(Plan& plan);

// After cuts were taken out by other hands: says anew what is waste beside each cut of these
// boards, and numbers their cuts from 1 on.
void settleCuts(Plan& plan, const std::set<BoardId>& boards);

}  // namespace rackside
