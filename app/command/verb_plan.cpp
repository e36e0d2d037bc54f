// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_plan.h"

#include <memory>
#include <optional>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/decimal_option.h"
#include "app/command/interrupt.h"
#include "app/command/option_parser.h"
#include "app/command/plan_report.h"
#include "app/command/rack_access.h"
#include "app/command/rack_names.h"
#include "app/command/telling_pictures.h"
#include "core/document/plan_rack.h"
#include "core/document/plan_state.h"
#include "core/storage/rack_files.h"

namespace rackside::command {
namespace {

struct PlanVerb {
  CommonOptions common;
  RackPlanOptions asked;
  std::vector<std::string> pins;       // piece ids, or "part:copy"
  std::vector<std::string> forbidden;  // boards by name, tag or id
  int take = 1;                        // which of the plans is stored
  bool leastStock = false;
  std::optional<double> lookWeight, stockWeight, offcutWeight;
  bool dryRun = false;  // print only, store nothing
  bool plain = false;   // leave the looks of the wood out
};

std::string lengthAndWidth(const Piece& piece, const LengthStyle& style) {
  return formatLength(piece.lengthMm, style) + " × " + formatLength(piece.widthMm, style);
}

// "Door stile:2", the same with the part's id, or a piece's id.
Result<PieceId> pieceNamed(const std::string& text, const Rack& rack) {
  if (!rack.plan)
    return Error{"There is no plan to pin pieces of yet: run plan without --pin first."};
  std::vector<const Piece*> found;
  for (const Piece& p : rack.plan->pieces) {
    const std::string copy = ":" + std::to_string(p.copy);
    if (p.id.text == text || p.part.text + copy == text) return p.id;
    if (partName(rack, p.part) + copy == text) found.push_back(&p);
  }
  if (found.empty())
    return Error{"The plan has no piece \"" + text +
                 "\": give --pin a part and its copy, such as \"Door stile:2\"."};
  if (found.size() == 1) return found[0]->id;
  std::string which;
  for (const Piece* p : found)
    which += "\n  " +
             (p->kind == PieceKind::panelStrip ? p->id.text + "  strip " + std::to_string(p->strip)
                                               : p->part.text + ":" + std::to_string(p->copy)) +
             "  " + lengthAndWidth(*p, rack.shop.show) + " on board " + boardName(rack, p->board);
  return Error{"The plan has " + std::to_string(found.size()) + " pieces \"" + text +
               "\": say which, by the first word of its line." + which};
}

// What the maker asks for, of this rack.
Result<RackPlanOptions> optionsFrom(const PlanVerb& v, const Rack& rack) {
  RackPlanOptions options = v.asked;
  options.planning.weights = planOptionsFor(rack).planning.weights;
  PlanWeights& weights = options.planning.weights;
  if (v.lookWeight) weights.look = *v.lookWeight;
  if (v.stockWeight) weights.stock = *v.stockWeight;
  if (v.offcutWeight) weights.offcut = *v.offcutWeight;
  for (const std::string& pin : v.pins) {
    auto id = pieceNamed(pin, rack);
    if (!id) return id.error();
    options.pinned.push_back(*id);
  }
  for (const std::string& name : v.forbidden) {
    auto board = findBoard(rack, name);
    if (!board) return board.error();
    options.forbidden.push_back((*board)->id);
  }
  return options;
}

// The plan that is taken in full, the others beside it.
void print(const PlanVerb& v, const Rack& rack, const std::vector<Plan>& plans) {
  const Plan& plan = plans[static_cast<size_t>(v.take) - 1];
  if (v.common.json) {
    nlohmann::json j = planJson(rack, plan);
    j["alternatives"] = nlohmann::json::array();
    for (const Plan& other : plans)
      if (&other != &plan) j["alternatives"].push_back(alternativeJson(rack, plan, other));
    printJson(j);
    return;
  }
  for (const std::string& line : planLines(rack, plan, v.common.style(rack.shop.show))) say(line);
  for (size_t i = 0; i < plans.size(); ++i)
    if (&plans[i] != &plan)
      say("Plan " + std::to_string(i + 1) + " instead: " + alternativeLine(rack, plan, plans[i]));
  if (static_cast<int>(plans.size()) < v.asked.choice.most)
    say("No other plan was found that is worth nearly as much and has " +
        fixed(100 * v.asked.choice.leastElsewhere, 0) + " % of the pieces on other boards.");
}

// A damaged board that the stored plan cuts would be planned away unseen.
Status nothingIsLost(const OpenedRack& opened) {
  if (!opened.rack.plan) return success();
  for (const DamagedFile& file : opened.damaged)
    for (const Cut& cut : opened.rack.plan->cuts)
      if (file.place == boardPlace(cut.board))
        return Error{file.message +
                     " The stored plan cuts this board: mend it first, or planning " +
                     "again would lose what is planned there."};
  return success();
}

// Stores the plan in the rack as it is by now; refuses when the plan there is another than the one
// this began with, for cuts may have been ticked.
Status store(const PlanVerb& v, const RackSnapshot& begun, Plan plan) {
  auto opened = openToChange(v.common);
  if (!opened) return opened.error();
  Rack& rack = opened.value().rack;
  const auto bytesOf = [](const RackSnapshot& s) {
    const auto found = s.bytes.find(kPlanFile);
    return found == s.bytes.end() ? std::string() : found->second;
  };
  if (bytesOf(opened->snapshot) != bytesOf(begun))
    return Error{
        "The stored plan was changed by another program while this one was made: a cut was ticked, "
        "perhaps. Nothing was stored; plan again."};
  rack.plan = std::move(plan);
  if (const Status s = storeRack(opened.value(), v.common.rack); !s) return s;
  if (const PlanState state = planState(rack); !state.holds())
    message("warning: the rack was changed while this was planned. " + brokenWords(state));
  return success();
}

int run(PlanVerb& v) {
  if (v.leastStock) v.asked.planning.goal = PlanGoal::leastStock;
  if (const Status s = v.asked.planning.validate(); !s) return usageAtFault(s.error().message);
  if (const Status s = v.asked.choice.validate(); !s) return usageAtFault(s.error().message);
  if (v.take < 1 || v.take > v.asked.choice.most)
    return usageAtFault("--take must be from 1 to the number of --alternatives.");
  auto opened = openToRead(v.common);
  if (!opened) return inputAtFault(opened.error());
  if (const Status safe = nothingIsLost(*opened); !safe) return inputAtFault(safe.error());
  const Rack* rack = &opened->rack;
  const auto options = optionsFrom(v, *rack);
  if (!options) return inputAtFault(options.error());
  if (const Status s = options->planning.validate(); !s) return usageAtFault(s.error().message);
  RunControl control;
  showProgress(control, "Planning");
  const StopOnInterrupt interrupt(control);
  const RackPictures pictures = tellingPictures(v.common.rack);
  auto plans = planRack(*rack, *options, v.plain ? nullptr : &pictures, control);
  if (!plans) return inputAtFault(plans.error());
  const size_t taken = static_cast<size_t>(v.take) - 1;
  if (taken >= plans->size())
    return inputAtFault(Error{"Only " + std::to_string(plans->size()) +
                              " plans differ enough within the loss allowed: take one of those."});
  if (!v.dryRun)
    if (const Status s = store(v, opened->snapshot, (*plans)[taken]); !s)
      return inputAtFault(s.error());
  print(v, *rack, *plans);
  return kDone;
}

}  // namespace

VerbRun setUpPlan(CLI::App& app) {
  auto v = std::make_shared<PlanVerb>();
  addRack(app, v->common);
  app.add_option("--seconds", v->asked.planning.limitSeconds, "Longest time to search")
      ->transform(decimalNumber());
  app.add_option("--seed", v->asked.planning.seed, "One seed gives one plan");
  auto* pin =
      app.add_option("--pin", v->pins, "Keep this piece where it is, such as \"Door stile:2\"");
  app.add_flag("--afresh", v->asked.afresh,
               "Forget the plan at hand but for what is cut; else what still stands stays")
      ->excludes(pin);
  app.add_flag("--without-looks", v->plain, "Do not read the wood's looks off the pictures");
  app.add_option("--forbid", v->forbidden, "Leave this board alone (name, tag number or id)");
  app.add_flag("--least-stock", v->leastStock,
               "Place all parts that can be placed, then use the least wood");
  app.add_option("--look-weight", v->lookWeight,
                 "How much a wished look adds to a part's worth, 0 to 1; else as in shop.json")
      ->transform(decimalNumber());
  app.add_option("--stock-weight", v->stockWeight,
                 "Value lost for each unit of price of the boards cut into; else as in shop.json")
      ->transform(decimalNumber());
  app.add_option("--offcut-weight", v->offcutWeight,
                 "The same given back for useful offcuts; else as in shop.json")
      ->transform(decimalNumber());
  app.add_option("--alternatives", v->asked.choice.most,
                 "So many plans that really differ, the best among them")
      ->capture_default_str();
  app.add_option("--take", v->take, "Store this one of them, 1 being the best")
      ->capture_default_str();
  app.add_flag("--dry-run", v->dryRun, "Print the plan, store nothing");
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
