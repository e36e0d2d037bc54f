// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/plan_state.h"

namespace rackside {

PlanState planState(const Rack& rack) {
  if (!rack.plan) return {};
  PlanRequest request;
  request.boards = rack.boards;
  request.parts = rack.parts;
  request.shop = rack.shop;
  return planState(request, *rack.plan);
}

std::string brokenWords(const PlanState& state) {
  const size_t more = state.broken.size() - 1;
  return "The plan no longer holds: " + state.broken.front().why +
         (more > 0
              ? ", and on " + std::to_string(more) + (more == 1 ? " more board" : " more boards")
              : "") +
         ". Plan again (rackside plan); cuts that were made are kept.";
}

std::string changedWords(const PlanState& state) {
  std::string what;
  for (size_t i = 0; i < state.changed.size(); ++i)
    what += (i == 0 ? "" : i + 1 < state.changed.size() ? ", " : " and ") + state.changed[i];
  return "Since the plan was made, " + what + (state.changed.size() == 1 ? " was" : " were") +
         " changed; all that is planned can still be cut, but planning again may do better.";
}

}  // namespace rackside
