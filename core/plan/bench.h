// SPDX-License-Identifier: GPL-3.0-or-later
// The wood of boards that have been cut into, piece by piece: what is kept of the plan on it, and
// what is open to a new one. Millimetres, board frame.
#pragma once

#include <map>
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

class Bench {
 public:
  // With `onlyWhatIsLost` wood that nothing was planned on is open only when a lost piece might lie
  // on it.
  Bench(const PlanRequest& request, bool onlyWhatIsLost);

  // Cuts that were made, and all that stands on the wood they left.
  const Plan& kept() const { return kept_; }
  const std::vector<OpenPiece>& open() const { return open_; }
  bool isCutInto(const BoardId& board) const { return cutInto_.count(board) > 0; }
  const std::map<PartId, std::set<int>>& keptCopies() const { return copies_; }
  // Copies that were planned on this wood and no longer stand.
  const std::map<PartId, std::set<int>>& lostCopies() const { return lost_; }

 private:
  void sort(const Board& board);
  Plan onRegion(const Board& board, const CutTree& madeTree, const CutTree::Key& key) const;
  bool stands(const Board& board, const Plan& here) const;
  void keep(const Plan& here);
  void addOpen(const Board& board, const CutTree& madeTree, const CutTree::Key& key);
  bool mightHoldLost(const OpenPiece& piece) const;

  const PlanRequest& request_;
  Plan made_;  // nothing but the cuts that were made
  Plan kept_;
  std::vector<OpenPiece> open_;
  std::set<BoardId> cutInto_;
  std::map<PartId, std::set<int>> copies_, lost_;
};

}  // namespace rackside
