// SPDX-License-Identifier: GPL-3.0-or-later
// What the checker asks of each kind of mark: its own table, written apart from the planner's
// (core/wood/mark_kinds.inc), so that a slip in one shows against the other.
#pragma once

#include "core/job/part.h"
#include "core/wood/mark.h"

namespace rackside::checking {

struct KindRule {
  MarkKind kind;
  bool runsOn;      // along the grain past its tips, unseen
  bool spoilsBody;  // wherever it shows it is there on the other face too
  bool stopsTheSaw;
};
const KindRule& ruleOf(MarkKind kind);

// May a face that allows so much hold the mark?
bool holds(const FaceAllows& allows, const Mark& mark);

}  // namespace rackside::checking
