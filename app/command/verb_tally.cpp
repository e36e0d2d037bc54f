// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_tally.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/tally_report.h"
#include "core/storage/atomic_file.h"

namespace rackside::command {
namespace {

struct TallyVerb {
  CommonOptions common;
  std::string from, csv;
  bool grade = false;
};

void addPlan(const Rack& rack, Tally& tally) {
  if (!rack.plan) return;
  tally.yield = yieldOf(rack, *rack.plan);
  tally.missing = missingWood(rack);
  for (const auto& [id, cost] : costOfParts(rack, *rack.plan)) {
    const Part* part = rack.findPart(id);
    tally.costs.emplace_back(part ? part->name : id.text, cost);
  }
}

void addGrades(const Rack& rack, Tally& tally) {
  const std::vector<LineTally> tallies = tallyOf(tally.lines, tally.shop);
  for (size_t i = 0; i < tallies.size(); ++i) {
    const Board* board = rack.findBoard(*tally.lines[i].board);
    GradeOptions options;
    options.surfaceMeasureFt2 = tallies[i].surfaceMeasureFt2;
    const auto grade = gradeBoard(*board, options, rack.shop.ownSpecies);
    if (!grade) message(grade.error().message);
    tally.grades.push_back(grade ? std::optional<BoardGrade>(*grade) : std::nullopt);
  }
}

Result<Tally> rackTally(const TallyVerb& v) {
  const auto rack = openRack(v.common);
  if (!rack) return rack.error();
  if (rack->boards.empty())
    return Error{"The rack holds no boards: scan some first (rackside scan)."};
  Tally tally;
  tally.lines = tallyLines(*rack);
  tally.shop = rack->shop;
  tally.style = v.common.style(rack->shop.show);
  addPlan(*rack, tally);
  if (v.grade) addGrades(*rack, tally);
  return tally;
}

// A list of boards that nobody photographed: a seller's, or one taken with a tape.
Result<Tally> listTally(const TallyVerb& v) {
  const auto text = readFile(v.from);
  if (!text) return text.error();
  auto lines = tallyFromCsv(*text, v.common.bareUnit());
  if (!lines) return Error{v.from + ": " + lines.error().message};
  if (lines->empty()) return Error{v.from + " holds no board: a line each, under the headings."};
  Tally tally;
  tally.lines = std::move(lines.value());
  tally.style = v.common.style({});
  return tally;
}

int run(const TallyVerb& v) {
  if (v.from.empty() == v.common.rack.empty())
    return usageAtFault("tally wants a rack (--rack) or a list (--from), one of the two.");
  if (v.grade && !v.from.empty())
    return usageAtFault("A list has no marks to grade by: --grade goes with --rack.");
  const auto tally = v.from.empty() ? rackTally(v) : listTally(v);
  if (!tally) return inputAtFault(tally.error());
  if (!v.csv.empty())
    if (const Status s = writeFileAtomically(v.csv, tallyToCsv(tally->lines)); !s)
      return inputAtFault(s.error());
  if (v.common.json) {
    printJson(tallyJson(*tally));
  } else {
    for (const std::string& line : tallyText(*tally)) say(line);
  }
  message("Exact half feet of surface measure go up and down in turn, the first up.");
  if (v.grade)
    message("Grades are an estimate by a program from the marks, not an inspector's certificate.");
  return kDone;
}

}  // namespace

VerbRun setUpTally(CLI::App& app) {
  auto v = std::make_shared<TallyVerb>();
  addRack(app, v->common);
  app.get_option("--rack")->required(false);
  app.add_option("--from", v->from,
                 "Tally a CSV list instead: name, species, pieces (qty), length, width, thickness "
                 "(8/4), price");
  app.add_option("--csv", v->csv, "File to write the tally to as CSV");
  app.add_flag("--grade", v->grade,
               "Estimate each board's grade (NHLA) from its marks; no inspector's certificate");
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
