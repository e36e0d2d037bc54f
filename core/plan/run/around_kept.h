// SPDX-License-Identifier: GPL-3.0-or-later
// What stays where it is, out of the search's sight. What has been sawn stays sawn: pieces that are
// free are kept, so is all that still stands in a piece of wood that is half cut; what no longer
// stands, after a defect was found or a cut went wrong, is planned anew, each piece of wood on the
// bench as a board of its own. To mend a plan, sections of boards that no saw has touched are kept
// in the same way.
#pragma once

#include "core/plan/bench.h"
#include "core/plan/run/reduction.h"

namespace rackside {

class AroundKept : public Reduction {
 public:
  // With `onlyWhatIsLost` copies that had no place before are not looked for again.
  AroundKept(const Reduced& above, Kept kept, bool onlyWhatIsLost);
  void raise(Plan& plan) const override;

  const Plan& kept() const { return bench_.kept(); }

 private:
  using CopiesOf = std::map<PartId, std::vector<int>>;
  bool isSought(const PartId& part, int copy, bool onlyWhatIsLost) const;
  const OpenPiece* openOf(const BoardId& id) const;
  void openBoards();
  void currentOfRest();
  Cut onBoard(Cut cut, std::map<BoardId, int>& last) const;

  const Reduced& above_;
  Bench bench_;
  CopiesOf sought_;
  Plan current_;
};

}  // namespace rackside
