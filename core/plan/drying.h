// SPDX-License-Identifier: GPL-3.0-or-later
// Wood that is wetter than the shop shrinks before it is milled, so its blanks are cut larger.
// Millimetres, percent.
//
// Wood Handbook (FPL-GTR-282) eq. 13-2, ΔD = D·C·(M₂ − M₁), coefficients of its Table 13-5
// (core/wood/species.h): a board's width by its rings' direction, its thickness by the other one;
// the greater, tangential, where the direction is not known. Published for 6 to 14 %; above, the
// same straight line is taken up to 30 %, where wood begins to shrink (fibre saturation), which
// errs to the wide side. Along the grain wood hardly shrinks (0.1–0.2 % from green to dry): left
// out. (The checker reckons it for itself.)
#pragma once

#include <string>
#include <vector>

#include "core/job/shop.h"
#include "core/wood/board.h"

namespace rackside {

inline constexpr double kFibreSaturationPercent = 30;

// What a board loses from its latest reading to the shop's moisture, as shares of its size now.
// Nothing for one that is as dry, was not metered, or is of a wood without figures. A reading
// counts as the next half percent up: a hand meter is no truer (common practice, no source).
struct Drying {
  double acrossShare = 0;     // of a width
  double thicknessShare = 0;  // of a thickness
  bool any() const { return acrossShare > 0 || thicknessShare > 0; }
};
Drying dryingOf(const Board& board, const Shop& shop);

// What is left of the board's thickness once it is dry.
double driedThicknessMm(const Board& board, const Shop& shop);

// The different acrossShares of the boards whose species the part takes; 0 is always among them.
std::vector<double> dryingShares(const std::vector<const Board*>& boards,
                                 const std::string& species, const Shop& shop);

// What a plan has to say of the drying of these boards: a line for each that is wetter than the
// shop or of a wood without figures, one for all that were never metered.
std::vector<std::string> dryingRemarks(const std::vector<const Board*>& boards, const Shop& shop);

}  // namespace rackside
