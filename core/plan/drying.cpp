// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/drying.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/trade/moisture.h"

namespace rackside {
namespace {

constexpr double kReadingStepPercent = 0.5;

double readingPercent(const Board& board) {
  const double steps = board.moisture.back().percent / kReadingStepPercent;
  return std::min(kFibreSaturationPercent, std::ceil(steps - 1e-9) * kReadingStepPercent);
}

// The direction that the thickness shrinks in is the one that the width does not.
Sawn turnedAside(Sawn sawn) {
  if (sawn == Sawn::flat) return Sawn::quarter;
  return sawn == Sawn::quarter ? Sawn::flat : sawn;
}

std::string tenths(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", value);
  const std::string s = text;
  return s.ends_with(".0") ? s.substr(0, s.size() - 2) : s;
}

bool isMetered(const Board& board) {
  return !board.moisture.empty();
}
bool isWetter(const Board& board, const Shop& shop) {
  return isMetered(board) && readingPercent(board) > shop.shopMoisturePercent;
}

std::string remarkOn(const Board& board, const Shop& shop) {
  const double reading = board.moisture.back().percent;
  std::string text = "Board " + board.name + " was metered at " + tenths(reading) +
                     " %, wetter than the shop's " + tenths(shop.shopMoisturePercent) + " %: ";
  const Drying drying = dryingOf(board, shop);
  if (!drying.any())
    return text + "there are no figures for " +
           (board.species.empty() ? std::string("a wood that is not named") : board.species) +
           ", so nothing is added for its drying.";
  text += "its blanks are cut " + tenths(100 * drying.acrossShare) + " % wider, and " +
          tenths(100 * drying.thicknessShare) +
          " % of the thickness is kept for drying. Let them dry before milling.";
  if (reading > kGreatestMoisturePercent)
    text += " The published figures end at " + tenths(kGreatestMoisturePercent) +
            " %; above, the same is taken, from " + tenths(kFibreSaturationPercent) +
            " % down, where wood begins to shrink.";
  return text;
}

std::string listOf(const std::vector<std::string>& names) {
  constexpr size_t kMostNamed = 6;
  std::string text = names.size() > 1 ? "boards " : "board ";
  for (size_t i = 0; i < std::min(names.size(), kMostNamed); ++i)
    text += (i > 0 ? ", " : "") + names[i];
  if (names.size() > kMostNamed)
    text += " and " + std::to_string(names.size() - kMostNamed) + " others";
  return text;
}

}  // namespace

Drying dryingOf(const Board& board, const Shop& shop) {
  if (!isWetter(board, shop)) return {};
  const Species* species = speciesNamed(board.species, shop.ownSpecies);
  if (!species) return {};
  const auto across = widthCoefficient(*species, board.sawn);
  const auto thickness = widthCoefficient(*species, turnedAside(board.sawn));
  if (!across || !thickness) return {};
  const double points = readingPercent(board) - shop.shopMoisturePercent;
  return {points * *across, points * *thickness};
}

double driedThicknessMm(const Board& board, const Shop& shop) {
  return board.thicknessMm * (1 - dryingOf(board, shop).thicknessShare);
}

std::vector<double> dryingShares(const std::vector<const Board*>& boards,
                                 const std::string& species, const Shop& shop) {
  std::vector<double> shares{0};
  shares.reserve(boards.size() + 1);
  for (const Board* board : boards)
    if (woodServes(species, board->species, shop.ownSpecies))
      shares.push_back(dryingOf(*board, shop).acrossShare);
  std::sort(shares.begin(), shares.end());
  shares.erase(std::unique(shares.begin(), shares.end()), shares.end());
  return shares;
}

std::vector<std::string> dryingRemarks(const std::vector<const Board*>& boards, const Shop& shop) {
  std::vector<std::string> remarks, unmetered;
  for (const Board* board : boards) {
    if (!isMetered(*board))
      unmetered.push_back(board->name);
    else if (isWetter(*board, shop))
      remarks.push_back(remarkOn(*board, shop));
  }
  if (!unmetered.empty())
    remarks.push_back("The moisture of " + listOf(unmetered) +
                      " is not known: nothing is added for drying there.");
  return remarks;
}

}  // namespace rackside
