// SPDX-License-Identifier: GPL-3.0-or-later
// The program `rackside`: a table of verbs.
#include <algorithm>
#include <exception>
#include <iostream>
#include <string_view>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/verb_board.h"
#include "app/command/verb_card.h"
#include "app/command/verb_check.h"
#include "app/command/verb_cut.h"
#include "app/command/verb_face.h"
#include "app/command/verb_fill.h"
#include "app/command/verb_joint.h"
#include "app/command/verb_lens.h"
#include "app/command/verb_mark.h"
#include "app/command/verb_parts.h"
#include "app/command/verb_plan.h"
#include "app/command/verb_rank.h"
#include "app/command/verb_scan.h"
#include "app/command/verb_season.h"
#include "app/command/verb_serve.h"
#include "app/command/verb_sheets.h"
#include "app/command/verb_species.h"
#include "app/command/verb_tally.h"
#include "app/serve/measure_worker.h"

namespace rackside::command {
namespace {

constexpr Verb kVerbs[] = {
    {"card", "Make printable reference cards, board tags and the crayon card", setUpCard},
    {"lens", "Work out a phone's lens from photographs", setUpLens},
    {"scan", "Measure boards from photographs", setUpScan},
    {"board", "Enter a board by tape; list, remove, or say what a board stands by for", setUpBoard},
    {"serve", "A page for phones at the rack: photograph, measure, mark, tick", setUpServe},
    {"mark", "Add, list, remove and load the marks of a board", setUpMark},
    {"parts", "Import, check and list the parts wanted", setUpParts},
    {"face", "What a face tells: saw marks, grain, arches, sapwood", setUpFace},
    {"rank", "Which board shows best for a part, with pictures", setUpRank},
    {"plan", "Place the parts on the boards", setUpPlan},
    {"cut", "Cut day: tick cuts, report a defect or a miscut, put offcuts back", setUpCut},
    {"fill", "How much of which filler the plan's parts need once milled", setUpFill},
    {"joint", "Will a mortise break through, how deep for a loose tenon", setUpJoint},
    {"check", "Is anything of a rack damaged? Mend it", setUpCheck},
    {"tally", "Board feet, surface measure and cost of the rack", setUpTally},
    {"season", "How the wide parts move with the air of the shop and the home", setUpSeason},
    {"species", "What is known of a wood, and where each figure comes from", setUpSpecies},
    {"sheets", "Write the sheets for the bench", setUpSheets},
};

bool isVerb(std::string_view word) {
  return std::any_of(std::begin(kVerbs), std::end(kVerbs),
                     [word](const Verb& v) { return word == v.name; });
}

std::string noSuchVerb(const std::string& word) {
  std::string known;
  for (const Verb& v : kVerbs) known += (known.empty() ? "" : ", ") + std::string(v.name);
  return "There is no verb \"" + word + "\". Verbs are: " + known + ".";
}

// A result that could not be written, to a full disk for one, is none.
int withResultWritten(int code) {
  std::cout.flush();
  if (std::cout) return code;
  message("rackside: the result could not be written: is the disk full?");
  return code == kDone ? kInputAtFault : code;
}

int runProgram(int argc, char** argv) {
  CLI::App app{"Rackside: from photographs of rough boards to a cut list", "rackside"};
  app.require_subcommand(1);
  app.set_version_flag("--version", std::string("rackside ") + RACKSIDE_VERSION);
  if (argc > 1 && argv[1][0] != '-' && !isVerb(argv[1])) return usageAtFault(noSuchVerb(argv[1]));
  VerbRun chosen;
  for (const Verb& verb : kVerbs) {
    CLI::App* sub = app.add_subcommand(verb.name, verb.summary);
    VerbRun run = verb.setUp(*sub);
    sub->callback([run, &chosen] { chosen = run; });
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? kDone : kUsage;
  }
  try {
    return chosen();
  } catch (const BadLength& e) {
    return usageAtFault(e.what());
  }
}

}  // namespace
}  // namespace rackside::command

int main(int argc, char** argv) {
  if (rackside::serve::isWorker(argc, argv)) return rackside::serve::workerMain();
  try {
    return rackside::command::withResultWritten(rackside::command::runProgram(argc, argv));
  } catch (const std::exception& e) {
    rackside::command::inputAtFault({std::string("the work stopped on an unexpected fault (") +
                                     e.what() +
                                     "). Files on disk are whole; please report what you ran."});
    constexpr int kInternalFault = 3;  // of the program, not of what it was given
    return kInternalFault;
  }
}
