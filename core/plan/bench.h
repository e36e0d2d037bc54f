// SPDX-License-Identifier: GPL-3.0-or-later
// The wood of boards that have been cut into, piece by piece: what is kept of the plan on it, and
// what is open to a new one. Boards that no saw has touched can be looked at in the same way,
// section by section. Millimetres, board frame.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <vector>

#include "core/plan/cut_tree.h"
#include "core/plan/planner.h"

namespace rackside {

// A piece of wood on the bench that a plan may use: a board in its parent's frame.
struct OpenPiece {
  Board board;
  BoardId parent;
  CutId cut;  // that left it …
  bool left;  // … on this side
};

// What is kept: whatIsCut, of boards that have been cut into; sections, those of other boards as
// well that stand whole; blanks, of sections that do not stand whole all that does.
enum class Kept { whatIsCut, sections, blanks };

class Bench {
 public:
  // With `onlyWhatIsLost` wood is open only when a piece that has lost its place might lie on it.
  Bench(const PlanRequest& request, Kept kept, bool onlyWhatIsLost);

  // Cuts that stay, and all that stands on the wood they leave.
  const Plan& kept() const { return kept_; }
  const std::vector<OpenPiece>& open() const { return open_; }
  // Is the board looked at piece by piece? All others are left to the planner whole.
  bool isTouched(const BoardId& board) const { return touched_.count(board) > 0; }
  const std::map<PartId, std::set<int>>& keptCopies() const { return copies_; }
  // Copies that were planned on this wood and no longer stand.
  const std::map<PartId, std::set<int>>& lostCopies() const { return lost_; }

 private:
  // The cuts across a board between which its sections stand; are they all of what is planned on
  // it?
  struct Sections {
    std::vector<Cut> cuts;
    bool all = false;
  };
  void keepSections();
  Sections sectionsThatStand(const Board& board) const;
  void sort(const Board& board);
  Plan onRegion(const Board& board, const CutTree& fixed, const CutTree::Key& key) const;
  bool stands(const Board& board, const Plan& here, const std::vector<Cut>& fixed) const;
  std::optional<Plan> standingOf(const Board& board, const Plan& here,
                                 const std::vector<Cut>& fixed) const;
  void keep(const Plan& here);
  void addOpen(const Board& board, const CutTree& fixed, const CutTree::Key& key);
  bool mightHoldLost(const OpenPiece& piece) const;

  const PlanRequest& request_;
  const Kept mode_;
  Plan fixed_;  // nothing but the cuts that stay whatever stands on the wood they leave
  Plan kept_;
  std::vector<OpenPiece> open_;
  std::set<BoardId> touched_, whole_;
  std::map<PartId, std::set<int>> copies_, lost_;
};

}  // namespace rackside
