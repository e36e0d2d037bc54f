// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_plan.h"

#include <memory>
#include <optional>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/plan_looks.h"
#include "app/command/plan_report.h"
#include "core/plan/made_cuts.h"
#include "core/plan/planner.h"
#include "core/plan/remedies.h"
#include "core/plan/score.h"
#include "core/plan/spare_stock.h"
#include "core/storage/rack_folder.h"

namespace rackside::command {
namespace {

struct PlanVerb {
  CommonOptions common;
  PlanOptions options;
  std::vector<std::string> pins;       // piece ids, or "part:copy"
  std::vector<std::string> forbidden;  // boards by name, tag or id
  PlanChoice choice;
  int take = 1;  // which of the plans is stored
  bool leastStock = false;
  std::optional<double> lookWeight, stockWeight, offcutWeight;
  bool dryRun = false;  // print only, store nothing
  bool plain = false;   // leave the looks of the wood out
};

// "Door stile:2" or a piece's id.
Result<PieceId> pieceNamed(const std::string& text, const Rack& rack) {
  if (!rack.plan)
    return Error{"There is no plan to pin pieces of yet: run plan without --pin first."};
  for (const Piece& p : rack.plan->pieces) {
    const Part* part = rack.findPart(p.part);
    const std::string byName = part ? part->name + ":" + std::to_string(p.copy) : std::string();
    if (p.id.text == text || byName == text) return p.id;
  }
  return Error{"The plan has no piece \"" + text +
               "\": give --pin a part and its copy, such as \"Door stile:2\"."};
}

// `current` keeps what is cut, when something is.
Result<PlanRequest> requestFrom(const PlanVerb& v, const Rack& rack, Plan& current) {
  if (rack.boards.empty())
    return Error{"The rack holds no boards: scan some first (rackside scan)."};
  if (rack.parts.empty())
    return Error{"The rack has no parts list: import one first (rackside parts import)."};
  PlanRequest request;
  request.boards = rack.boards;
  request.parts = rack.parts;
  request.shop = rack.shop;
  for (const std::string& pin : v.pins) {
    auto id = pieceNamed(pin, rack);
    if (!id) return id.error();
    request.pinned.push_back(*id);
  }
  for (const std::string& name : v.forbidden) {
    auto board = findBoard(rack, name);
    if (!board) return board.error();
    request.forbidden.push_back((*board)->id);
  }
  if (rack.plan && hasMadeCuts(*rack.plan)) {
    current = v.pins.empty() ? onlyWhatIsCut(*rack.plan) : *rack.plan;
    request.current = &current;
  } else if (!v.pins.empty()) {
    request.current = &*rack.plan;
  }
  return request;
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
      say("Plan " + std::to_string(i + 1) + " instead: " + alternativeLine(plan, plans[i]));
}

int run(PlanVerb& v) {
  if (v.leastStock) v.options.goal = PlanGoal::leastStock;
  if (const Status s = v.options.validate(); !s) return usageAtFault(s.error().message);
  if (const Status s = v.choice.validate(); !s) return usageAtFault(s.error().message);
  if (v.take < 1 || v.take > v.choice.most)
    return usageAtFault("--take must be from 1 to the number of --alternatives.");
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  v.options.weights = weightsOf(rack->shop);
  if (v.lookWeight) v.options.weights.look = *v.lookWeight;
  if (v.stockWeight) v.options.weights.stock = *v.stockWeight;
  if (v.offcutWeight) v.options.weights.offcut = *v.offcutWeight;
  if (const Status s = v.options.validate(); !s) return usageAtFault(s.error().message);
  Plan current;
  auto request = requestFrom(v, *rack, current);
  if (!request) return inputAtFault(request.error());
  if (!v.plain) addLooks(v.common.rack, request.value());
  RunControl control(v.options.limitSeconds);
  auto plans = makePlans(*request, v.options, v.choice, control);
  if (!plans) return inputAtFault(plans.error());
  if (!v.plain)
    for (Plan& plan : plans.value()) orderPanels(v.common.rack, *request, plan);
  const size_t taken = static_cast<size_t>(v.take) - 1;
  if (taken >= plans->size())
    return inputAtFault(Error{"Only " + std::to_string(plans->size()) +
                              " plans differ enough within the loss allowed: take one of those."});
  Plan& kept = plans.value()[taken];
  addRemedies(*request, kept);
  kept.spares = spareStock(*request, kept);
  if (!v.dryRun)
    if (const Status s = savePlan((*plans)[taken], v.common.rack); !s)
      return inputAtFault(s.error());
  print(v, *rack, *plans);
  return kDone;
}

}  // namespace

VerbRun setUpPlan(CLI::App& app) {
  auto v = std::make_shared<PlanVerb>();
  addRack(app, v->common);
  app.add_option("--seconds", v->options.limitSeconds, "Longest time to search");
  app.add_option("--seed", v->options.seed, "One seed gives one plan");
  app.add_option("--pin", v->pins, "Keep this piece where it is, such as \"Door stile:2\"");
  app.add_flag("--without-looks", v->plain, "Do not read the wood's looks off the pictures");
  app.add_option("--forbid", v->forbidden, "Leave this board alone (name, tag number or id)");
  app.add_flag("--least-stock", v->leastStock,
               "Place all parts that can be placed, then use the least wood");
  app.add_option("--look-weight", v->lookWeight,
                 "How much a wished look adds to a part's worth, 0 to 1; else as in shop.json");
  app.add_option("--stock-weight", v->stockWeight,
                 "Value lost for each unit of price of the boards cut into; else as in shop.json");
  app.add_option("--offcut-weight", v->offcutWeight,
                 "The same given back for useful offcuts; else as in shop.json");
  app.add_option("--alternatives", v->choice.most,
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
