// SPDX-License-Identifier: GPL-3.0-or-later
// Does a stored plan still hold? A plan carries a fingerprint of the boards, parts and shop it was
// made from, which tells that something was changed since; the checker tells whether that matters.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/plan/planner.h"

namespace rackside {

// Fingerprints of all that a plan rests on: names, notes, places and suggestions nobody took are
// left out.
struct PlanBasis {
  std::string parts, shop;
  std::map<std::string, std::string> boards;  // by id
};
PlanBasis basisOf(const std::vector<Board>& boards, const std::vector<Part>& parts,
                  const Shop& shop);

// The basis rides along with the plan as a key that only these two read ("made_from"), so that
// whoever makes, changes or stores plans passes it on.
void noteBasis(Plan& plan, const PlanBasis& basis);
// Empty for a plan of an earlier version of the program.
std::optional<PlanBasis> notedBasis(const Plan& plan);

struct PlanState {
  struct Broken {
    BoardId board;
    std::string why;  // in words, naming the board
  };
  std::vector<Broken> broken;        // why the plan can no longer be cut as it is
  std::vector<std::string> changed;  // "board 7", "the parts list": since it was made
  bool holds() const { return broken.empty(); }
  const Broken* brokenOn(const BoardId& board) const;
};

// Boards whose cutting is done are not asked. `request`: the boards, parts and shop as they are
// now.
PlanState planState(const PlanRequest& request, const Plan& plan);

}  // namespace rackside
