// SPDX-License-Identifier: GPL-3.0-or-later
// What the rack holds, in board feet, weight and money, with each board's estimated grade; and what
// the plan makes of it.
#include "app/sheets/table.h"
#include "core/trade/missing_wood.h"
#include "core/trade/nhla_grade.h"
#include "core/trade/rack_totals.h"
#include "core/trade/tally.h"

namespace rackside::sheets {
namespace {

QString number(double value, int decimals) {
  return QString::number(value, 'f', decimals);
}

QString quarters(double nominalIn) {
  return nominalIn > 0 ? QString::fromStdString(nominalName(nominalIn)) : QString("?");
}

// "5.00 (5.87)": by the rule, and exact.
QString byRule(double rule, double exact, int decimals) {
  return number(rule, decimals) + " (" + number(exact, 2) + ")";
}

QString gradeWord(const Rack& rack, const Board& board, const LineTally& tally) {
  GradeOptions options;
  options.surfaceMeasureFt2 = tally.surfaceMeasureFt2;
  const auto grade = gradeBoard(board, options, rack.shop.ownSpecies);
  if (!grade) return {};
  return QString::fromUtf8(name(grade->grade).data(), int(name(grade->grade).size())) +
         (grade->bothFacesSeen ? "" : ", one face") + (grade->proven ? "" : ", or better");
}

Table boardTable(const PackInput& in) {
  Table t;
  t.title = "Tally of the rack";
  t.subtitle =
      "Surface measure in ft² and board feet by the rule, the exact figure in brackets. Grades are "
      "a program's estimate, not an inspector's certificate. Exact half feet go up and down in "
      "turn.";
  t.columns = {{"Board", 1.5},
               {"Species", 1.2},
               {"Thick", 0.7},
               {"Length", 1.2, true},
               {"Width", 1.1, true},
               {"Surface", 1.2, true},
               {"Board feet", 1.5, true},
               {"Weight kg", 1.0, true},
               {"Price", 0.9, true},
               {"Grade", 2.9}};
  const auto lines = tallyLines(in.rack);
  const std::vector<LineTally> tallies = tallyOf(lines, in.rack.shop);
  for (size_t i = 0; i < lines.size(); ++i) {
    const TallyLine& line = lines[i];
    const LineTally& tally = tallies[i];
    t.rows.push_back({QString::fromStdString(line.name), QString::fromStdString(line.species),
                      quarters(tally.nominalIn), in.length(line.lengthMm, false),
                      in.length(line.widthMm, false),
                      byRule(tally.surfaceMeasureFt2, tally.surfaceMeasureExactFt2, 0),
                      tally.nominalIn > 0 ? byRule(tally.boardFeet, tally.boardFeetExact, 2)
                                          : QString("no thickness"),
                      tally.weightKnown ? number(tally.weightKg, 1) : QString("?"),
                      tally.price > 0 ? number(tally.price, 2) : QString(),
                      gradeWord(in.rack, *in.rack.findBoard(*line.board), tally)});
  }
  return t;
}

Table totalsTable(const PackInput& in) {
  Table t;
  t.title = "Totals by species and thickness";
  t.columns = {{"Species", 2},
               {"Thick", 1},
               {"Boards", 1, true},
               {"Surface ft²", 1, true},
               {"Board feet", 1.5, true},
               {"Volume m³", 1, true},
               {"Weight kg", 1, true},
               {"Price", 1, true}};
  for (const TallyTotals& g : totals(tallyLines(in.rack), in.rack.shop))
    t.rows.push_back({QString::fromStdString(g.species), quarters(g.nominalIn),
                      QString::number(g.pieces), QString::number(g.surfaceMeasureFt2),
                      byRule(g.boardFeet, g.boardFeetExact, 2), number(g.volumeM3, 3),
                      g.weightKnown ? number(g.weightKg, 0) : QString("?"),
                      g.price > 0 ? number(g.price, 2) : QString()});
  if (!in.rack.plan) return t;
  for (const MissingWood& m : missingWood(in.rack))
    t.foot += QString::fromStdString(missingWoodText(m)) + ". ";
  const Yield yield = yieldOf(in.rack, *in.rack.plan);
  t.subtitle = QString(
                   "Of the boards cut into, %1 % ends in the parts: waste is %2 % of what was "
                   "bought, or %3 % on top of what is needed.")
                   .arg(number(100 * yield.yieldShare(), 1), number(100 * yield.wasteShare(), 1),
                        number(100 * yield.markUpOnNeeded(), 1));
  return t;
}

Table costTable(const PackInput& in) {
  Table t;
  t.title = "What the wood of each part costs";
  t.subtitle = "A board's price is shared among its pieces by their area: the parts pay for waste.";
  t.columns = {{"Part", 4}, {"Copies", 1, true}, {"Wood", 1, true}};
  for (const auto& [id, cost] : costOfParts(in.rack, *in.rack.plan)) {
    const Part* part = in.rack.findPart(id);
    if (cost > 0)
      t.rows.push_back({QString::fromStdString(part ? part->name : id.text),
                        part ? QString::number(part->copies) : QString(), number(cost, 2)});
  }
  return t;
}

}  // namespace

std::vector<Page> tallyPages(const std::shared_ptr<const PackInput>& input) {
  std::vector<Table> tables{boardTable(*input), totalsTable(*input)};
  if (input->rack.plan) tables.push_back(costTable(*input));
  return tablePages(input, std::move(tables));
}

}  // namespace rackside::sheets
