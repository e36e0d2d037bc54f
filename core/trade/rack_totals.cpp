// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/rack_totals.h"

#include <cmath>
#include <set>

#include "core/trade/moisture.h"
#include "core/trade/tally.h"

namespace rackside {
namespace {

constexpr double kMm3PerM3 = 1e9;
constexpr double kMm2PerFt2 = 144 * kMmPerInch * kMmPerInch;
constexpr double kMm3PerBoardFoot = 144 * kMmPerInch * kMmPerInch * kMmPerInch;

double areaOf(const Board& board) {
  return std::abs(signedArea(board.outline.polygon()));
}

double priceOf(const Board& board) {
  const int sm = surfaceMeasure(tallyWidthMm(board.outline), board.lengthMm.value);
  return boardFeet(sm, nominalThicknessIn(board.thicknessMm, board.airDried)) *
         board.pricePerBoardFoot;
}

}  // namespace

std::vector<TallyLine> tallyLines(const Rack& rack) {
  std::vector<TallyLine> lines;
  for (const Board& b : rack.boards) {
    if (b.cutUp || b.state == BoardState::sold)
      continue;  // its offcuts are on the rack in its place
    TallyLine line;
    line.board = b.id;
    line.name = b.name;
    line.species = b.species;
    line.lengthMm = b.lengthMm.value;
    line.widthMm = tallyWidthMm(b.outline);
    line.thicknessMm = b.thicknessMm;
    line.thicknessSaid = b.thicknessSaid;
    line.airDried = b.airDried;
    line.areaMm2 = areaOf(b);
    line.pricePerBoardFoot = b.pricePerBoardFoot;
    line.moisturePercent = b.moisture.empty() ? 0 : b.moisture.back().percent;
    lines.push_back(line);
  }
  return lines;
}

namespace {

LineTally tallyOf(const TallyLine& line, const Shop& shop, HalfFeet& halves) {
  LineTally t;
  for (int i = 0; i < line.pieces; ++i)
    t.surfaceMeasureFt2 += surfaceMeasure(line.widthMm, line.lengthMm, halves);
  t.surfaceMeasureExactFt2 = line.pieces * line.areaMm2 / kMm2PerFt2;
  if (line.thicknessMm <= 0) return t;
  t.nominalIn = nominalThicknessIn(line.thicknessMm, line.airDried);
  t.boardFeet = boardFeet(t.surfaceMeasureFt2, t.nominalIn);
  const double volumeMm3 = line.pieces * line.areaMm2 * line.thicknessMm;
  t.boardFeetExact = volumeMm3 / kMm3PerBoardFoot;
  t.volumeM3 = volumeMm3 / kMm3PerM3;
  t.price = t.boardFeet * line.pricePerBoardFoot;
  const Species* species = speciesNamed(line.species, shop.ownSpecies);
  t.weightKnown = species && species->specificGravity12;
  const double moisture =
      line.moisturePercent > 0 ? line.moisturePercent : shop.shopMoisturePercent;
  if (t.weightKnown)
    t.weightKg = t.volumeM3 * densityKgPerM3(species->specificGravity12->value, moisture);
  return t;
}

}  // namespace

std::vector<LineTally> tallyOf(const std::vector<TallyLine>& lines, const Shop& shop) {
  HalfFeet halves;
  std::vector<LineTally> all;
  all.reserve(lines.size());
  for (const TallyLine& line : lines) all.push_back(tallyOf(line, shop, halves));
  return all;
}

std::vector<TallyTotals> totals(const std::vector<TallyLine>& lines, const Shop& shop) {
  const std::vector<LineTally> tallies = tallyOf(lines, shop);
  std::map<std::pair<std::string, double>, TallyTotals> groups;
  for (size_t i = 0; i < lines.size(); ++i) {
    const TallyLine& line = lines[i];
    const LineTally& one = tallies[i];
    TallyTotals& t = groups[{woodKey(line.species, shop.ownSpecies), one.nominalIn}];
    if (t.pieces == 0) t.species = line.species;
    t.nominalIn = one.nominalIn;
    t.pieces += line.pieces;
    t.surfaceMeasureFt2 += one.surfaceMeasureFt2;
    t.boardFeet += one.boardFeet;
    t.boardFeetExact += one.boardFeetExact;
    t.volumeM3 += one.volumeM3;
    t.price += one.price;
    t.weightKg += one.weightKg;
    t.weightKnown = t.weightKnown && one.weightKnown;
  }
  std::vector<TallyTotals> all;
  all.reserve(groups.size());
  for (const auto& [key, t] : groups) all.push_back(t);
  return all;
}

double markUpForWaste(double wasteShare) {
  if (!(wasteShare >= 0 && wasteShare < 1)) throw std::logic_error("waste is a share below 1");
  return 1 / (1 - wasteShare) - 1;
}

double wasteForMarkUp(double markUp) {
  if (!(markUp >= 0)) throw std::logic_error("a mark-up is 0 or more");
  return 1 - 1 / (1 + markUp);
}

Yield yieldOf(const Rack& rack, const Plan& plan) {
  Yield yield;
  std::set<BoardId> used;
  for (const Piece& piece : plan.pieces) {
    yield.neededMm2 += std::abs(signedArea(piece.outline));
    used.insert(piece.board);
  }
  for (const BoardId& id : used)
    if (const Board* board = rack.findBoard(id)) yield.boughtMm2 += areaOf(*board);
  return yield;
}

std::map<PartId, double> costOfParts(const Rack& rack, const Plan& plan) {
  std::map<BoardId, double> usedMm2;
  for (const Piece& piece : plan.pieces)
    usedMm2[piece.board] += std::abs(signedArea(piece.outline));
  std::map<PartId, double> cost;
  for (const Piece& piece : plan.pieces)
    if (const Board* board = rack.findBoard(piece.board); board && usedMm2[piece.board] > 0)
      cost[piece.part] +=
          priceOf(*board) * std::abs(signedArea(piece.outline)) / usedMm2[piece.board];
  return cost;
}

}  // namespace rackside
