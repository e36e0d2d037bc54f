// SPDX-License-Identifier: GPL-3.0-or-later
// Is the stored plan still one to cut by?
#pragma once

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside::command {

// Fails, in words, when boards, parts or shop were changed so that what is planned on `board`
// (null: on any board) cannot be cut as planned. Says on standard error when something was changed
// and the plan still holds. A rack without a plan passes.
Status planHolds(const Rack& rack, const Board* board = nullptr);

}  // namespace rackside::command
