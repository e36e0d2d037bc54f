// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_cut.h"

#include <algorithm>
#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/cut_report.h"
#include "app/command/decimal_option.h"
#include "app/command/mark_options.h"
#include "app/command/option_parser.h"
#include "app/command/plan_holds.h"
#include "app/command/rack_edit.h"
#include "app/command/telling_pictures.h"
#include "core/document/cut_up.h"
#include "core/document/edits.h"
#include "core/document/plan_rack.h"
#include "core/plan/made_cuts.h"
#include "core/storage/json_forms.h"
#include "core/trade/safety_words.h"
#include "core/wood/mark_place.h"

namespace rackside::command {
namespace {

struct CutVerb {
  CommonOptions common;
  std::string board;
  std::vector<int> numbers;
  int number = 0;
  MarkOptions mark;
  std::string by;
  std::vector<std::string> sawn;  // x y x y
  double seconds = 0.3;
  bool plain = false, keepPlan = false;
  CLI::App* list = nullptr;
  CLI::App* made = nullptr;
  CLI::App* back = nullptr;
  CLI::App* defect = nullptr;
  CLI::App* miscut = nullptr;
  CLI::App* done = nullptr;
};

// What is planned once the board or its cuts have changed: all that still stands stays.
Result<Plan> planAgain(const CutVerb& v, Rack rack, const Board& changed, const Plan& current) {
  *rack.findBoard(changed.id) = changed;
  rack.plan = current;
  RackPlanOptions options = planOptionsFor(rack);
  options.planning.limitSeconds = v.seconds;
  options.planning.onlyWhatIsLost = true;
  RunControl control;
  const RackPictures pictures = tellingPictures(v.common.rack);
  auto plans = planRack(rack, options, v.plain ? nullptr : &pictures, control);
  if (!plans) return plans.error();
  return std::move(plans.value().front());
}

nlohmann::json afterJson(const Rack& rack, const Plan& before, nlohmann::json j) {
  const auto changes = changesBetween(before, *rack.plan);
  j["changes"] = changesJson(rack, changes);
  j["unplaced"] = nlohmann::json::array();
  for (const Unplaced& u : rack.plan->unplaced) {
    const Part* part = rack.findPart(u.part);
    j["unplaced"].push_back(
        {{"part", part ? part->name : u.part.text}, {"copy", u.copy}, {"why", u.why}});
  }
  j["seconds"] = rack.plan->seconds;
  return j;
}

// Stores the board as it is now and the plan made for it, and tells what is different.
int storeChange(const CutVerb& v, OpenedRack& open, const Board& changed, const Plan& marked,
                const std::string& said, const nlohmann::json& report) {
  const Plan before = *open.rack.plan;
  Result<Plan> plan = v.keepPlan ? Result<Plan>(marked) : planAgain(v, open.rack, changed, marked);
  if (!plan) return inputAtFault(plan.error());
  std::vector<std::unique_ptr<Edit>> edits;
  edits.push_back(changeBoard(changed));
  edits.push_back(setPlan(std::move(plan).value()));
  const Status stored = performAndStore(open, together("Cut day", std::move(edits)), v.common.rack);
  if (!stored) return inputAtFault(stored.error());
  if (v.common.json) {
    printJson(afterJson(open.rack, before, report));
    return kDone;
  }
  say(said);
  for (const std::string& line : changeLines(open.rack, changesBetween(before, *open.rack.plan)))
    say(line);
  return kDone;
}

Error noPlan() {
  return Error{"There is no plan to cut by: run rackside plan first."};
}

int runList(const CutVerb& v, const Rack& rack, const Board* board) {
  if (const Status holds = planHolds(rack, board); !holds) return inputAtFault(holds.error());
  if (v.common.json) {
    nlohmann::json list = cutListJson(rack, board);
    list["caution"] = sawingCaution();
    printJson(list);
  } else {
    for (const std::string& line : cutListLines(rack, board, v.common.style(rack.shop.show)))
      say(line);
  }
  message(sawingCaution());
  return kDone;
}

int runTick(const CutVerb& v, OpenedRack& open, const Board& board) {
  const bool make = v.made->parsed();
  if (make)
    if (const Status holds = planHolds(open.rack, &board); !holds)
      return inputAtFault(holds.error());
  auto plan = make ? withCutsMade(*open.rack.plan, board, v.numbers)
                   : withCutsTakenBack(*open.rack.plan, board, v.numbers);
  if (!plan) return inputAtFault(plan.error());
  const Status stored = performAndStore(open, setPlan(std::move(plan).value()), v.common.rack);
  if (!stored) return inputAtFault(stored.error());
  auto freed = nlohmann::json::array();
  std::string names;
  for (const Blank& blank : open.rack.plan->blanks)
    for (const Cut& cut : open.rack.plan->cuts)
      if (make && cut.id == blank.lastCut && cut.board == board.id &&
          std::count(v.numbers.begin(), v.numbers.end(), cut.order))
        for (const Piece& piece : open.rack.plan->pieces)
          if (piece.blank == blank.id) {
            const Part* part = open.rack.findPart(piece.part);
            const std::string who = part ? part->name : piece.part.text;
            freed.push_back({{"part", who}, {"copy", piece.copy}});
            names += (names.empty() ? "" : ", ") + who + " " + std::to_string(piece.copy);
            if (piece.kind == PieceKind::panelStrip)
              names += " strip " + std::to_string(piece.strip);
          }
  if (v.common.json) {
    printJson({{"board", board.name}, {make ? "made" : "taken_back", v.numbers}, {"freed", freed}});
  } else {
    say(make ? "Ticked." + (names.empty() ? "" : " Free now: " + names + ".") : "Taken back.");
  }
  return kDone;
}

int runDefect(const CutVerb& v, OpenedRack& open, const Board& board) {
  MarkOptions found = v.mark;
  if (found.through) found.face = "both";
  auto mark = markFrom(found, v.common);
  if (!mark) return inputAtFault(mark.error());
  if (const Status on = liesOn(board, *mark); !on) return inputAtFault(on.error());
  Board changed = board;
  changed.marks.push_back(*mark);
  if (mark->live) setAsideAlive(changed);
  return storeChange(v, open, changed, *open.rack.plan,
                     "Added " + found.kind + " " + mark->id.text + " to board " + board.name + ".",
                     {{"board", board.name}, {"mark", toJson(*mark)}});
}

Result<Miscut> miscutFrom(const CutVerb& v) {
  Miscut miscut;
  if (v.by.empty() == v.sawn.empty())
    return Error{
        "Say where the saw went, one way or the other: --by how far from the plan, or "
        "--line with two points."};
  if (!v.by.empty()) {
    const bool back = v.by.front() == '-';
    const auto mm = parseLengthMm(back ? v.by.substr(1) : v.by, v.common.bareUnit());
    if (!mm) return mm.error();
    miscut.byMm = back ? -*mm : *mm;
    return miscut;
  }
  std::vector<double> at;
  for (const std::string& text : v.sawn) {
    const auto mm = parseLengthMm(text, v.common.bareUnit());
    if (!mm) return mm.error();
    at.push_back(*mm);
  }
  miscut.line = Segment{{at[0], at[1]}, {at[2], at[3]}};
  return miscut;
}

int runMiscut(const CutVerb& v, OpenedRack& open, const Board& board) {
  const auto miscut = miscutFrom(v);
  if (!miscut) return inputAtFault(miscut.error());
  const auto plan = withMiscut(*open.rack.plan, board, v.number, *miscut);
  if (!plan) return inputAtFault(plan.error());
  return storeChange(v, open, board, *plan,
                     "Cut " + std::to_string(v.number) + " of board " + board.name +
                         " is ticked where the saw went.",
                     {{"board", board.name}, {"miscut", v.number}});
}

int runDone(const CutVerb& v, OpenedRack& open, const Board& board) {
  const size_t before = open.rack.boards.size();
  const std::string name = board.name;
  auto edit = finishCutting(open.rack, board.id);
  if (!edit) return inputAtFault(edit.error());
  const Status stored = performAndStore(open, std::move(edit).value(), v.common.rack);
  if (!stored) return inputAtFault(stored.error());
  auto offcuts = nlohmann::json::array();
  for (size_t i = before; i < open.rack.boards.size(); ++i) {
    const Board& b = open.rack.boards[i];
    const Rect box = bounds(b.outline.polygon());
    offcuts.push_back({{"id", b.id.text},
                       {"board", b.name},
                       {"length_mm", rounded(box.width())},
                       {"width_mm", rounded(box.height())},
                       {"marks", b.marks.size()}});
    const LengthStyle style = v.common.style(open.rack.shop.show);
    if (!v.common.json)
      say("Back on the rack: board " + b.name + ", " + formatLength(box.width(), style) + " × " +
          formatLength(box.height(), style) + ".");
  }
  if (v.common.json) printJson({{"board", name}, {"offcuts", offcuts}});
  if (!v.common.json) say("Board " + name + " is cut up.");
  return kDone;
}

int list(const CutVerb& v) {
  const auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  if (!rack->plan) return inputAtFault(noPlan());
  if (v.board.empty()) return runList(v, *rack, nullptr);
  const auto board = findBoard(*rack, v.board);
  return board ? runList(v, *rack, *board) : inputAtFault(board.error());
}

int run(const CutVerb& v) {
  if (v.list->parsed()) return list(v);
  auto opened = openToChange(v.common);
  if (!opened) return inputAtFault(opened.error());
  OpenedRack& open = opened.value();
  if (!open.rack.plan) return inputAtFault(noPlan());
  const Rack& sought = open.rack;
  auto found = findBoard(sought, v.board);
  if (!found) return inputAtFault(found.error());
  const Board board = **found;
  if (v.done->parsed()) return runDone(v, open, board);
  if (v.defect->parsed()) return runDefect(v, open, board);
  if (v.miscut->parsed()) return runMiscut(v, open, board);
  return runTick(v, open, board);
}

void addReplan(CLI::App& app, CutVerb& v) {
  app.add_option("--seconds", v.seconds, "Longest time to search for a new plan")
      ->transform(decimalNumber())
      ->check(CLI::PositiveNumber);
  app.add_flag("--without-looks", v.plain, "Do not read the wood's looks off the pictures");
  app.add_flag("--keep-plan", v.keepPlan, "Only note it down; plan again later");
}

}  // namespace

VerbRun setUpCut(CLI::App& app) {
  auto v = std::make_shared<CutVerb>();
  app.require_subcommand(1);
  v->list = app.add_subcommand("list", "The cuts to make, the riskiest first, and spare stock");
  v->list->add_option("BOARD", v->board, "Name or tag of the board; none: all");
  v->made = app.add_subcommand("made", "Tick cuts as made");
  v->back = app.add_subcommand("back", "Take back ticks made by mistake");
  v->defect =
      app.add_subcommand("defect", "A defect came to light: mark it and plan the rest anew");
  v->miscut = app.add_subcommand("miscut", "A cut went elsewhere: note it and plan the rest anew");
  v->done = app.add_subcommand("done", "Cutting is done: useful offcuts go back on the rack");
  for (CLI::App* sub : {v->made, v->back, v->defect, v->miscut, v->done})
    sub->add_option("BOARD", v->board, "Name or tag of the board")->required();
  for (CLI::App* sub : {v->made, v->back})
    sub->add_option("CUT", v->numbers, "Numbers of the cuts, as on the board's sheet")->required();
  addMarkOptions(*v->defect, v->mark);
  v->miscut->add_option("CUT", v->number, "Number of the cut, as on the board's sheet")->required();
  v->miscut->add_option(
      "--by", v->by,
      "How far beside the plan: towards the right end, or away from the near edge; "
      "with a minus the other way");
  v->miscut->add_option("--line", v->sawn, "x y x y of two points on the saw's line, kept side")
      ->expected(4);
  addReplan(*v->defect, *v);
  addReplan(*v->miscut, *v);
  for (CLI::App* sub : {v->list, v->made, v->back, v->defect, v->miscut, v->done}) {
    addRack(*sub, v->common);
    addUnits(*sub, v->common);
    addJson(*sub, v->common);
  }
  return [v] { return run(*v); };
}

}  // namespace rackside::command
