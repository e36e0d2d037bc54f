// SPDX-License-Identifier: GPL-3.0-or-later
// How well proposed marks agree with labelled photographs.
#pragma once

#include <vector>

#include "tests/support/labelled_wood.h"
#include "vision/wood/propose/propose.h"

namespace rackside::test {

struct ProposeTally {
  int pictures = 0, cleanPictures = 0;  // clean: nothing labelled
  std::vector<int> labelled = std::vector<int>(kRegionKinds), found = labelled,
                   foundAsItself = labelled;               // by label
  std::vector<int> proposed = labelled, right = labelled;  // by proposed kind
  int falseOnClean = 0;
  double crackPx = 0, crackFoundPx = 0;
  std::vector<std::pair<double, bool>>
      told;  // how sure each proposal was, and whether it was right

  int falseOnes() const;
  void add(const ProposeTally& other);
};

// A knot or hole is found when a knot or hole of any sort is proposed for it; the other kinds, and
// "as itself", want the very kind. A proposal that counts for any label is not a false one.
// Proposals in pixels of `picture`, which is at full size. A proposal counts for a label when IoU ≥
// 0.3, or its middle lies in it and its area is within a factor of 3. A proposed crack is right
// when half of its length lies within 5 px of a labelled crack (or it counts for another label).
ProposeTally scoreProposals(const std::vector<ProposedMark>& proposed, const LabelledWood& picture);
void printProposeTally(const ProposeTally& tally);
// How often proposals were right by how sure they said they were.
void printReliability(const ProposeTally& tally);

}  // namespace rackside::test
