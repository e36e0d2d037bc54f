// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/reductions.h"

#include "core/plan/made_cuts.h"
#include "core/plan/run/around_kept.h"
#include "core/plan/run/in_strips.h"

namespace rackside {

Reductions::Reductions(const PlanRequest& request, const PlanOptions& options, Kept kept,
                       const std::vector<Gang>& dissolved)
    : top_{request, {}, {}} {
  if (InStrips::serves(request)) chain_.push_back(std::make_unique<InStrips>(lowest()));
  const bool isCut = request.current && hasMadeCuts(*request.current);
  if (isCut || (request.current && kept != Kept::whatIsCut))
    chain_.push_back(std::make_unique<AroundKept>(lowest(), kept, isCut && options.onlyWhatIsLost));
  auto gangs = std::make_unique<InGangs>(lowest(), options.weights, dissolved);
  if (!gangs->any()) return;
  gangs_ = gangs.get();
  chain_.push_back(std::move(gangs));
}

void Reductions::raise(Plan& plan) const {
  for (auto reduction = chain_.rbegin(); reduction != chain_.rend(); ++reduction)
    (*reduction)->raise(plan);
}

std::vector<std::string> Reductions::limits() const {
  std::vector<std::string> all;
  for (const auto& reduction : chain_)
    if (std::string limit = reduction->limits(); !limit.empty()) all.push_back(std::move(limit));
  return all;
}

std::vector<Gang> Reductions::gangsMissingIn(const Plan& plan) const {
  return gangs_ ? gangs_->missingIn(plan) : std::vector<Gang>{};
}

}  // namespace rackside
