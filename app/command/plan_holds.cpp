// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/plan_holds.h"

#include "app/command/console.h"
#include "core/document/plan_state.h"

namespace rackside::command {

Status planHolds(const Rack& rack, const Board* board) {
  const PlanState state = planState(rack);
  if (!board && !state.holds()) return Error{brokenWords(state)};
  if (board)
    if (const PlanState::Broken* broken = state.brokenOn(board->id))
      return Error{brokenWords({{*broken}, {}})};
  if (!state.changed.empty()) message("note: " + changedWords(state));
  return success();
}

}  // namespace rackside::command
