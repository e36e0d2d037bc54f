// SPDX-License-Identifier: GPL-3.0-or-later
// What a rack holds and what a plan makes of it, in board feet, money and weight.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside {

// One board, or a number of like ones, as a tally counts it.
struct TallyLine {
  std::optional<BoardId> board;  // none: of a list
  std::string name;
  std::string species;
  int pieces = 1;
  double lengthMm = 0;
  double widthMm = 0;  // as the rule takes it
  double thicknessMm = 0;
  std::string thicknessSaid;  // "8/4"
  bool airDried = false;
  double areaMm2 = 0;  // of one, exact
  double pricePerBoardFoot = 0;
  double moisturePercent = 0;  // 0: the shop's
};
// Of the boards on the rack, in its order; those that are cut up or sold have left it.
std::vector<TallyLine> tallyLines(const Rack& rack);

// What one line comes to, all its pieces together.
struct LineTally {
  double nominalIn = 0;  // 0: no thickness is known, and then no board feet either
  int surfaceMeasureFt2 = 0;
  double surfaceMeasureExactFt2 = 0;
  double boardFeet = 0;
  double boardFeetExact = 0;
  double volumeM3 = 0;  // exact
  double price = 0;
  double weightKg = 0;       // at the line's moisture, or the shop's
  bool weightKnown = false;  // false: no thickness, or a wood without known density
};
// Line by line in their order: exact half feet of surface measure go up and down in turn. Of the
// shop its moisture and its own woods are asked.
std::vector<LineTally> tallyOf(const std::vector<TallyLine>& lines, const Shop& shop);

struct TallyTotals {
  std::string species;
  double nominalIn = 0;
  int pieces = 0;
  int surfaceMeasureFt2 = 0;  // the pieces' own, summed
  double boardFeet = 0;       // summed surface measure × nominal thickness
  double boardFeetExact = 0;
  double volumeM3 = 0;
  double price = 0;
  double weightKg = 0;  // 0 where a wood has no published density
  bool weightKnown = true;
};
// By species, whatever names it goes by, and nominal thickness. A bundle is reckoned as the rule
// has it: the surface measures of the pieces are summed, then multiplied by the thickness
// (goodwoodcorp.com, HardwoodGrading).
std::vector<TallyTotals> totals(const std::vector<TallyLine>& lines, const Shop& shop);

// One line a board: name, species, pieces, length, width, thickness in mm, surface measure, board
// feet by rule and exact, price.
std::string tallyToCsv(const std::vector<TallyLine>& lines);
// Reads name, species, pieces (qty …), length, width, thickness (8/4 too), price (a board foot);
// passes over what tallyToCsv() worked out, and place and note. A heading that is not known is
// refused. An error names row and column.
Result<std::vector<TallyLine>> tallyFromCsv(std::string_view csv, UnitSystem bareUnit);

// Waste said both ways: the share of what was bought that is not in the parts, and what has to be
// bought on top of what is needed.
struct Yield {
  double boughtMm2 = 0;
  double neededMm2 = 0;
  double yieldShare() const { return boughtMm2 > 0 ? neededMm2 / boughtMm2 : 0; }
  double wasteShare() const { return boughtMm2 > 0 ? 1 - yieldShare() : 0; }
  double markUpOnNeeded() const { return neededMm2 > 0 ? boughtMm2 / neededMm2 - 1 : 0; }
};
double markUpForWaste(double wasteShare);  // 0.3 → 0.4286
double wasteForMarkUp(double markUp);      // 0.5 → 0.3333

// Of the boards that a plan cuts into.
Yield yieldOf(const Rack& rack, const Plan& plan);

// What the wood of each part costs: a board's price shared among its pieces by their area, so that
// waste is paid for by the parts.
std::map<PartId, double> costOfParts(const Rack& rack, const Plan& plan);

}  // namespace rackside
