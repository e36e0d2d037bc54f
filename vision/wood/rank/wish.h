// SPDX-License-Identifier: GPL-3.0-or-later
// What a maker wants a part to look like, and how far a place on a face fulfils it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/job/part.h"
#include "vision/wood/figure_sums.h"

namespace rackside {

struct Wish {
  Look look = Look::straight;
  bool sapwoodEdge = false;  // a sapwood edge is wanted instead
  bool operator==(const Wish&) const = default;
};

// "straight", "arch-centred", "lively", "even-colour", "sapwood-edge".
std::optional<Wish> wishFromName(std::string_view name);
std::vector<std::string> wishNames();
std::string_view name(const Wish& wish);
// What the part's own columns ask for; a part that asks for nothing gets straight and quiet.
Wish wishOf(const Part& part);
// "straight and quiet", "the arch in the middle", …
std::string words(const Wish& wish);
// Even colour and sapwood are judged by colour, which grey hides.
bool needsColour(const Wish& wish);

// What lies under a part, in its own frame: x along it, y across from its near edge.
struct PlaceReading {
  FigureReading figure;
  double slopeRad = 0;  // mean direction of the fibres against the part's length
  // Arches inside the part: share of its length that shows an axis (weighted by how sure), mean
  // distance of the axis from the middle line (signed, + towards the far edge), and its rms.
  double archShare = 0, archOffMm = 0, archOffRmsMm = 0;
  // Sapwood share of the outer quarter along each edge, and of the middle half.
  double sapNear = 0, sapFar = 0, sapMiddle = 0;
  double widthMm = 0;
};

// 0 (nothing of it) … 1 (all that can be wished for).
double fulfilment(const Wish& wish, const PlaceReading& place);

// Why it is as good or bad as it is, in plain words, what matters most first.
std::vector<std::string> reasons(const Wish& wish, const PlaceReading& place);

}  // namespace rackside
