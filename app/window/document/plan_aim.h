// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan should aim at, in one choice; kept with the shop.
#pragma once

#include <QString>
#include <array>
#include <filesystem>
#include <optional>

#include "core/document/plan_rack.h"
#include "core/document/rack.h"

namespace rackside {

enum class PlanAim { balanced, looks, wood, cuts };
inline constexpr std::array kPlanAims{PlanAim::balanced, PlanAim::looks, PlanAim::wood,
                                      PlanAim::cuts};

QString label(PlanAim aim);   // "Best looks"
QString reason(PlanAim aim);  // one sentence
PlanAim planAim(const Shop& shop);
Shop withPlanAim(Shop shop, PlanAim aim);

// The planner's own options for this aim, from those of the shop; and what it is to be chosen for
// when several plans come out.
void aimAt(PlanAim aim, RackPlanOptions& options);
Plan bestFor(PlanAim aim, std::vector<Plan> plans);

// What a plan comes to, in figures that a maker compares.
struct PlanFigures {
  int wanted = 0, placed = 0, boards = 0, cuts = 0;
  double yieldShare = 0;            // of the wood of the boards cut into
  double cost = 0;                  // of the wood; 0 where no board has a price
  std::optional<double> worstLook;  // 0 to 1, of the parts that want a look
  QString worstPart;
};
PlanFigures figuresOf(const Rack& rack, const Plan& plan);

struct ComparedPlan {
  PlanAim aim = PlanAim::balanced;
  Plan plan;
  PlanFigures figures;
};
// One plan by each aim that one can be made of, all within the time.
std::vector<ComparedPlan> plansByAim(const Rack& rack, const std::filesystem::path& folder,
                                     double limitSeconds, RunControl& control);

}  // namespace rackside
