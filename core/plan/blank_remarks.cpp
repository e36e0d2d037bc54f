// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/blank_remarks.h"

#include <cmath>

#include "core/plan/drying.h"
#include "core/plan/milling.h"
#include "core/trade/tally.h"

namespace rackside {
namespace {

// Two quarters of an inch more than the next stock that would do, and it is dear.
constexpr double kDearIn = 0.5;

std::string wholeMm(double mm) {
  return std::to_string(std::lround(mm)) + " mm";
}

// What one piece of the blank's thickness needs of the stock when milled from both faces.
double roughNeedMm(const Blank& blank, const Board& board, const Shop& shop) {
  return blank.finishedThicknessMm + 2 * shop.minTakeOffMm +
         flatteningMm(warpOf(board), blank.roughLengthMm, blank.roughWidthMm);
}

void addDear(const Blank& blank, const Board& board, const Shop& shop,
             std::vector<std::string>& remarks) {
  const double need = roughNeedMm(blank, board, shop);
  const double have = nominalThicknessIn(board.thicknessMm);
  if (have - nominalThicknessIn(need) < kDearIn) return;
  std::string text = "dear: " + nominalName(have) + " stock, of which " +
                     wholeMm(board.thicknessMm - blank.finishedThicknessMm) +
                     " would be planed away";
  // Opened at the bandsaw, each half warps and is milled on both faces.
  if (driedThicknessMm(board, shop) >= 2 * need + shop.firstRipKerfMm)
    text += "; it is thick enough to resaw into two of this thickness";
  remarks.push_back(text);
}

}  // namespace

std::vector<std::string> remarksOn(const Blank& blank, const Board& board, const Part& part,
                                   const Shop& shop) {
  std::vector<std::string> remarks;
  if (blank.roughWidthMm > shop.jointerWidthMm)
    remarks.push_back(
        "wider than the jointer: flatten one face on a sled through the planer, then turn it; or "
        "rip it and glue it up again");
  addDear(blank, board, shop, remarks);
  const bool twice = part.showing != Showing::none || blank.roughWidthMm >= shop.widePartMm;
  if (!twice) return remarks;
  // Twice is what the milling sheets say: told here is where it cannot be.
  if (driedThicknessMm(board, shop) - roughNeedMm(blank, board, shop) < shop.restAllowanceMm)
    remarks.push_back("too thin to be milled twice: take little at a time, and from both faces");
  return remarks;
}

}  // namespace rackside
