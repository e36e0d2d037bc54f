// SPDX-License-Identifier: GPL-3.0-or-later
// Fills one section with strips at places that a plan may use, within the copies still wanted.
#pragma once

#include "core/plan/layout.h"
#include "core/plan/search/strip_stack.h"

namespace rackside {

struct FilledSection {
  SectionLayout layout;
  double worth = 0;
  std::vector<int> parts;  // one entry a copy
};

class SectionFiller {
 public:
  SectionFiller(const BoardItems& board, StripPlaces& places, double ripKerfMm)
      : board_(&board), places_(&places), ripKerfMm_(ripKerfMm) {}

  // `left`: copies of each part that may still be used; `taken`: y' that strips keep a kerf away
  // from.
  // The section is `steps` long, and so are the longest strips: ItemsAlong::lengths[length].
  FilledSection fill(const ItemsAlong& along, int from, int steps, int length,
                     const StackOrder& order, const std::vector<int>& left,
                     const Intervals& taken = {}, int mostStarts = StripPlaces::kSomeStarts);

 private:
  bool mayAdd(int state, const StackItem& item, const std::vector<int>& left) const;

  const BoardItems* board_;
  StripPlaces* places_;
  double ripKerfMm_;
  StripStack stack_;
};

}  // namespace rackside
