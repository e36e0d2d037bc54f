// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/plan_aim.h"

#include <QObject>
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "app/window/look/text.h"
#include "core/trade/rack_totals.h"
#include "vision/wood/rank/rack_pictures.h"

namespace rackside {

namespace {

constexpr auto kKey = "plan_aim";

const char* word(PlanAim aim) {
  switch (aim) {
    case PlanAim::looks:
      return "looks";
    case PlanAim::wood:
      return "wood";
    case PlanAim::cuts:
      return "cuts";
    case PlanAim::balanced:
      break;
  }
  return "balanced";
}

double lookWeight(const Plan& plan) {
  for (const ScoreTerm& term : plan.score)
    if (term.name == "looks") return term.weight;
  return 0;
}

// From a piece's worth, which is value · (1 + weight · look).
void findWorstLook(const Rack& rack, const Plan& plan, PlanFigures& figures) {
  const double weight = lookWeight(plan);
  if (weight <= 0) return;
  for (const Piece& piece : plan.pieces) {
    const Part* part = rack.findPart(piece.part);
    if (!part || part->look == Look::any || piece.kind != PieceKind::part) continue;
    const double value = part->value > 0 ? part->value : part->lengthMm * part->widthMm;
    const double look = std::clamp((piece.worth / value - 1) / weight, 0.0, 1.0);
    if (figures.worstLook && *figures.worstLook <= look) continue;
    figures.worstLook = look;
    figures.worstPart = qt(part->name);
  }
}

}  // namespace

QString label(PlanAim aim) {
  switch (aim) {
    case PlanAim::looks:
      return QObject::tr("Best looks");
    case PlanAim::wood:
      return QObject::tr("Least wood");
    case PlanAim::cuts:
      return QObject::tr("Fewest cuts");
    case PlanAim::balanced:
      break;
  }
  return QObject::tr("Balanced");
}

QString reason(PlanAim aim) {
  switch (aim) {
    case PlanAim::looks:
      return QObject::tr(
          "Each part where the wood suits it best, even if another board is opened.");
    case PlanAim::wood:
      return QObject::tr("All that fits, from as little wood as can be.");
    case PlanAim::cuts:
      return QObject::tr("Of several good plans, the one with the fewest cuts.");
    case PlanAim::balanced:
      break;
  }
  return QObject::tr("As many parts as fit, with an eye to looks.");
}

PlanAim planAim(const Shop& shop) {
  const auto found = shop.extra->find(kKey);
  if (found != shop.extra->end() && found->is_string())
    for (const PlanAim aim : kPlanAims)
      if (*found == word(aim)) return aim;
  return PlanAim::balanced;
}

Shop withPlanAim(Shop shop, PlanAim aim) {
  (*shop.extra)[kKey] = word(aim);
  return shop;
}

void aimAt(PlanAim aim, RackPlanOptions& options) {
  constexpr double kLooksAboveAll =
      1;  // the most there is: a perfect place counts twice a plain one
  PlanOptions& planning = options.planning;
  if (aim == PlanAim::looks)
    planning.weights.look = std::max(planning.weights.look, kLooksAboveAll);
  if (aim == PlanAim::wood) planning.goal = PlanGoal::leastStock;
  if (aim == PlanAim::cuts && !planning.onlyWhatIsLost) options.choice = {4, 0.1, 0.05};
}

Plan bestFor(PlanAim aim, std::vector<Plan> plans) {
  auto best = plans.begin();
  if (aim == PlanAim::cuts)
    for (auto plan = plans.begin(); plan != plans.end(); ++plan)
      if (std::pair(plan->unplaced.size(), plan->cuts.size()) <
          std::pair(best->unplaced.size(), best->cuts.size()))
        best = plan;
  return std::move(*best);
}

std::vector<ComparedPlan> plansByAim(const Rack& rack, const std::filesystem::path& folder,
                                     double limitSeconds, RunControl& control) {
  const RackPictures pictures(folder);
  std::vector<ComparedPlan> compared;
  for (const PlanAim aim : kPlanAims) {
    if (control.stopRequested()) break;
    RackPlanOptions options = planOptionsFor(rack);
    options.planning.limitSeconds = std::max(0.5, limitSeconds / kPlanAims.size());
    aimAt(aim, options);
    auto plans = planRack(rack, options, &pictures, control);
    if (!plans || plans->empty()) continue;
    ComparedPlan made{aim, bestFor(aim, std::move(plans).value()), {}};
    made.figures = figuresOf(rack, made.plan);
    compared.push_back(std::move(made));
  }
  return compared;
}

PlanFigures figuresOf(const Rack& rack, const Plan& plan) {
  PlanFigures figures;
  for (const Part& part : rack.parts) figures.wanted += part.copies;
  figures.placed = figures.wanted - static_cast<int>(plan.unplaced.size());
  std::set<BoardId> boards;
  for (const Piece& piece : plan.pieces) boards.insert(piece.board);
  figures.boards = static_cast<int>(boards.size());
  figures.cuts = static_cast<int>(plan.cuts.size());
  figures.yieldShare = yieldOf(rack, plan).yieldShare();
  for (const auto& [part, cost] : costOfParts(rack, plan)) figures.cost += cost;
  findWorstLook(rack, plan, figures);
  return figures;
}

}  // namespace rackside
