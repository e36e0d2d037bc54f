// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_tally.h"

#include <map>
#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "core/trade/tally.h"
#include "core/wood/measure.h"

namespace rackside::command {
namespace {

struct TallyVerb {
  CommonOptions common;
};

struct TallyRow {
  std::string board, species;
  double lengthMm = 0, widthMm = 0, thicknessMm = 0, nominalIn = 0;
  int surfaceMeasureFt2 = 0;
  double exactFt2 = 0, boardFeet = 0, boardFeetExact = 0, cost = 0;
};

TallyRow rowOf(const Board& b) {
  TallyRow r;
  r.board = b.name;
  r.species = b.species;
  r.lengthMm = b.lengthMm.value;
  r.widthMm = tallyWidthMm(b.outline);
  r.thicknessMm = b.thicknessMm;
  r.surfaceMeasureFt2 = surfaceMeasure(r.widthMm, r.lengthMm);
  r.exactFt2 = surfaceMeasureExactFt2(b.outline);
  if (b.thicknessMm <= 0) return r;  // no thickness: no board feet
  r.nominalIn = nominalThicknessIn(b.thicknessMm);
  r.boardFeet = boardFeet(r.surfaceMeasureFt2, r.nominalIn);
  r.boardFeetExact = boardFeetExact(b.outline, b.thicknessMm);
  r.cost = r.boardFeet * b.pricePerBoardFoot;
  return r;
}

nlohmann::json rowJson(const TallyRow& r) {
  return {{"board", r.board},
          {"species", r.species},
          {"length_mm", rounded(r.lengthMm)},
          {"width_mm", rounded(r.widthMm)},
          {"thickness_mm", rounded(r.thicknessMm)},
          {"nominal_thickness_in", r.nominalIn},
          {"surface_measure_ft2", r.surfaceMeasureFt2},
          {"surface_measure_exact_ft2", rounded(r.exactFt2)},
          {"board_feet", rounded(r.boardFeet)},
          {"board_feet_exact", rounded(r.boardFeetExact)},
          {"cost", rounded(r.cost, 2)}};
}

// "5/4", or "?" where no thickness was given.
std::string quarters(double nominalIn) {
  return nominalIn > 0 ? nominalName(nominalIn) : "?";
}

std::string rowLine(const TallyRow& r, const LengthStyle& style) {
  return r.board + "  " + r.species + "  " + quarters(r.nominalIn) + "  " +
         formatLength(r.lengthMm, style, false) + " × " + formatLength(r.widthMm, style) +
         "  surface measure " + std::to_string(r.surfaceMeasureFt2) + " (" + fixed(r.exactFt2, 2) +
         ") ft²  " + fixed(r.boardFeet, 2) + " (" + fixed(r.boardFeetExact, 2) + ") bf" +
         (r.cost > 0 ? "  " + fixed(r.cost, 2) : std::string());
}

struct Totals {
  int boards = 0;
  double boardFeet = 0, boardFeetExact = 0, cost = 0;
  void add(const TallyRow& r) {
    ++boards;
    boardFeet += r.boardFeet;
    boardFeetExact += r.boardFeetExact;
    cost += r.cost;
  }
  nlohmann::json json() const {
    return {{"boards", boards},
            {"board_feet", rounded(boardFeet)},
            {"board_feet_exact", rounded(boardFeetExact)},
            {"cost", rounded(cost, 2)}};
  }
};

int run(const TallyVerb& v) {
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  if (rack->boards.empty())
    return inputAtFault({"The rack holds no boards: scan some first (rackside scan)."});
  auto rows = nlohmann::json::array();
  std::map<std::pair<std::string, double>, Totals> groups;  // by species and nominal thickness
  Totals all;
  const LengthStyle style = v.common.style(rack->shop.show);
  for (const Board& b : rack->boards) {
    const TallyRow r = rowOf(b);
    groups[{r.species, r.nominalIn}].add(r);
    all.add(r);
    rows.push_back(rowJson(r));
    if (!v.common.json) say(rowLine(r, style));
  }
  auto groupsJson = nlohmann::json::array();
  for (const auto& [key, totals] : groups) {
    nlohmann::json g = totals.json();
    g["species"] = key.first;
    g["nominal_thickness_in"] = key.second;
    groupsJson.push_back(g);
    if (!v.common.json)
      say("total " + key.first + " " + quarters(key.second) + ": " + std::to_string(totals.boards) +
          " boards, " + fixed(totals.boardFeet, 2) + " (" + fixed(totals.boardFeetExact, 2) +
          ") bf");
  }
  if (v.common.json) printJson({{"boards", rows}, {"groups", groupsJson}, {"total", all.json()}});
  return kDone;
}

}  // namespace

VerbRun setUpTally(CLI::App& app) {
  auto v = std::make_shared<TallyVerb>();
  addRack(app, v->common);
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
