// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/tally_report.h"

#include "app/command/console.h"
#include "core/trade/tally.h"

namespace rackside::command {
namespace {

// "5/4", or "?" where no thickness was given.
std::string quarters(double nominalIn) {
  return nominalIn > 0 ? nominalName(nominalIn) : "?";
}

std::string gradeWord(const BoardGrade& grade) {
  return std::string(name(grade.grade)) + (grade.bothFacesSeen ? "" : " by one face") +
         (grade.proven ? "" : " or better");
}

nlohmann::json lineJson(const Tally& tally, const LineTally& t, size_t i) {
  const TallyLine& line = tally.lines[i];
  nlohmann::json j{{"board", line.name},
                   {"species", line.species},
                   {"pieces", line.pieces},
                   {"length_mm", rounded(line.lengthMm)},
                   {"width_mm", rounded(line.widthMm)},
                   {"thickness_mm", rounded(line.thicknessMm)},
                   {"nominal_thickness_in", t.nominalIn},
                   {"surface_measure_ft2", t.surfaceMeasureFt2},
                   {"surface_measure_exact_ft2", rounded(t.surfaceMeasureExactFt2)},
                   {"board_feet", rounded(t.boardFeet)},
                   {"board_feet_exact", rounded(t.boardFeetExact)},
                   {"volume_m3", rounded(t.volumeM3, 5)},
                   {"cost", rounded(t.price, 2)}};
  if (t.weightKnown) j["weight_kg"] = rounded(t.weightKg, 2);
  if (i < tally.grades.size() && tally.grades[i]) {
    const BoardGrade& g = *tally.grades[i];
    j["grade_estimate"] = {{"grade", name(g.grade)},
                           {"both_faces_seen", g.bothFacesSeen},
                           {"proven", g.proven},
                           {"poor_face", name(g.poorFace)}};
  }
  return j;
}

std::string lineText(const Tally& tally, const LineTally& t, size_t i) {
  const TallyLine& line = tally.lines[i];
  std::string text = line.name + "  " + line.species + "  " + quarters(t.nominalIn) + "  ";
  if (line.pieces > 1) text += std::to_string(line.pieces) + " of ";
  text += formatLength(line.lengthMm, tally.style, false) + " × " +
          formatLength(line.widthMm, tally.style) + "  surface measure " +
          std::to_string(t.surfaceMeasureFt2) + " (" + fixed(t.surfaceMeasureExactFt2, 2) +
          ") ft²  " + fixed(t.boardFeet, 2) + " (" + fixed(t.boardFeetExact, 2) + ") bf  " +
          fixed(t.volumeM3, 4) + " m³";
  if (t.weightKnown) text += "  " + fixed(t.weightKg, 1) + " kg";
  if (t.price > 0) text += "  cost " + fixed(t.price, 2);
  if (i < tally.grades.size() && tally.grades[i]) text += "  " + gradeWord(*tally.grades[i]);
  return text;
}

nlohmann::json totalsJson(const TallyTotals& t) {
  nlohmann::json j{{"species", t.species},
                   {"nominal_thickness_in", t.nominalIn},
                   {"boards", t.pieces},
                   {"surface_measure_ft2", t.surfaceMeasureFt2},
                   {"board_feet", rounded(t.boardFeet)},
                   {"board_feet_exact", rounded(t.boardFeetExact)},
                   {"volume_m3", rounded(t.volumeM3, 5)},
                   {"cost", rounded(t.price, 2)}};
  if (t.weightKnown) j["weight_kg"] = rounded(t.weightKg, 2);
  return j;
}

TallyTotals sumOf(const std::vector<TallyTotals>& groups) {
  TallyTotals all;
  for (const TallyTotals& t : groups) {
    all.pieces += t.pieces;
    all.boardFeet += t.boardFeet;
    all.boardFeetExact += t.boardFeetExact;
    all.volumeM3 += t.volumeM3;
    all.price += t.price;
    all.weightKg += t.weightKg;
    all.weightKnown = all.weightKnown && t.weightKnown;
  }
  return all;
}

}  // namespace

nlohmann::json tallyJson(const Tally& tally) {
  auto boards = nlohmann::json::array(), groups = nlohmann::json::array();
  const std::vector<LineTally> tallies = tallyOf(tally.lines, tally.shop);
  for (size_t i = 0; i < tallies.size(); ++i) boards.push_back(lineJson(tally, tallies[i], i));
  const auto totalsByKind = totals(tally.lines, tally.shop);
  for (const TallyTotals& t : totalsByKind) groups.push_back(totalsJson(t));
  const TallyTotals sum = sumOf(totalsByKind);
  nlohmann::json j{{"boards", boards},
                   {"groups", groups},
                   {"total",
                    {{"boards", sum.pieces},
                     {"board_feet", rounded(sum.boardFeet)},
                     {"board_feet_exact", rounded(sum.boardFeetExact)},
                     {"volume_m3", rounded(sum.volumeM3, 5)},
                     {"cost", rounded(sum.price, 2)}}}};
  if (sum.weightKnown) j["total"]["weight_kg"] = rounded(sum.weightKg, 2);
  if (tally.yield) {
    j["plan"] = {{"bought_mm2", rounded(tally.yield->boughtMm2, 0)},
                 {"needed_mm2", rounded(tally.yield->neededMm2, 0)},
                 {"yield", rounded(tally.yield->yieldShare(), 4)},
                 {"waste_of_bought", rounded(tally.yield->wasteShare(), 4)},
                 {"mark_up_on_needed", rounded(tally.yield->markUpOnNeeded(), 4)},
                 {"cost_of_parts", nlohmann::json::array()}};
    for (const auto& [part, cost] : tally.costs)
      j["plan"]["cost_of_parts"].push_back({{"part", part}, {"cost", rounded(cost, 2)}});
  }
  for (const MissingWood& m : tally.missing)
    j["to_buy"].push_back({{"species", m.species},
                           {"nominal_thickness_in", m.nominalIn},
                           {"copies", m.copies},
                           {"board_feet", rounded(m.boardFeet, 1)},
                           {"yield", rounded(m.yieldShare, 3)},
                           {"yield_from", m.yieldFromPlan ? "the plan" : "usual"}});
  return j;
}

std::vector<std::string> tallyText(const Tally& tally) {
  std::vector<std::string> text;
  const auto say = [&text](const std::string& line) { text.push_back(line); };
  const std::vector<LineTally> tallies = tallyOf(tally.lines, tally.shop);
  for (size_t i = 0; i < tallies.size(); ++i) say(lineText(tally, tallies[i], i));
  for (const TallyTotals& t : totals(tally.lines, tally.shop))
    say("total " + t.species + " " + quarters(t.nominalIn) + ": " + std::to_string(t.pieces) +
        (t.pieces == 1 ? " board, " : " boards, ") + fixed(t.boardFeet, 2) + " (" +
        fixed(t.boardFeetExact, 2) + ") bf, " + fixed(t.volumeM3, 3) + " m³" +
        (t.weightKnown ? ", " + fixed(t.weightKg, 0) + " kg" : std::string()) +
        (t.price > 0 ? ", cost " + fixed(t.price, 2) : std::string()));
  if (tally.yield)
    say("plan: of the boards cut into " + fixed(100 * tally.yield->yieldShare(), 1) +
        " % ends in the parts; waste is " + fixed(100 * tally.yield->wasteShare(), 1) +
        " % of what was bought, or " + fixed(100 * tally.yield->markUpOnNeeded(), 1) +
        " % on top of what is needed");
  for (const auto& [part, cost] : tally.costs)
    if (cost > 0) say("wood of " + part + ": " + fixed(cost, 2));
  for (const MissingWood& m : tally.missing) say(missingWoodText(m));
  return text;
}

}  // namespace rackside::command
