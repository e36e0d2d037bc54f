// SPDX-License-Identifier: GPL-3.0-or-later
// The cuts still to be made, over all boards, the riskiest first: while there is most wood left to
// fall back on.
#pragma once

#include <vector>

#include "core/document/rack.h"

namespace rackside {

struct CutTurn {
  const Cut* cut = nullptr;
  // The piece it is made for now: the dearest that cannot be had without it.
  const Piece* piece = nullptr;  // null for a cut that frees nothing
  const Spare* spare = nullptr;  // of that piece when it shows
};

// Every cut that is not made, each after the cuts that free its wood. Pieces that show come before
// those that do not; among them those without spare stock first, then by worth. Cuts on the way to
// a piece come with it, whatever else they free. Points into the rack's plan, which there has to
// be.
std::vector<CutTurn> cutsByRisk(const Rack& rack);

}  // namespace rackside
