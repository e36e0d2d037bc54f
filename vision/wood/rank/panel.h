// SPDX-License-Identifier: GPL-3.0-or-later
// A panel before it is glued up: which strips, in which order and which way round, so that the
// seams show least.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/job/shop.h"
#include "vision/wood/rank/best_place.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

// How a strip's edge looks, in stretches along it.
struct StripEdge {
  static constexpr int kStretches = 8;
  std::array<double, kStretches> lightness{}, warmth{}, slopeRad{};
  bool sapwood = false;  // to be kept to the panel's outer edges
};

// A strip with one of its faces up, its left end to the left.
struct StripFace {
  Placement place;
  StripEdge near, far;      // along the edges that are near and far with this face up
  bool colourKnown = true;  // the face is not too grey for warmth to count
};

// One strip as cut, the better face up.
struct PanelStrip : StripFace {
  std::optional<StripFace> other;  // where it was photographed and the part may show it
};

// A strip as it lies in the panel. Turned: end for end, in the plane of the panel. Over: turned
// over about its length, the other face up.
struct LaidStrip {
  int strip = 0;  // index into Panel::strips
  bool turned = false, over = false;
  bool operator==(const LaidStrip&) const = default;
};

struct Seam {
  double colourStep = 0;  // ln of lightness and warmth together, rms along it
  double slopeRad = 0;    // angle at which the grain meets, mean
  bool sapwood = false;   // lies against it, inside the panel
  double cost() const;    // 0: not to be seen; 1: plain to see
};

struct PanelOrder {
  std::vector<LaidStrip> strips;  // from the near edge of the panel to the far one
  std::vector<Seam> seams;        // between them
  double cost = 0;                // mean of the seams', and as much again of the worst
};

struct Panel {
  Part strip;  // finished size of one strip
  std::vector<PanelStrip> strips;
  std::vector<PanelOrder> orders;  // best first
};

// A strip of a finished size (no outline) that lies at `place`, read off the face.
StripFace stripAt(const FaceFigure& figure, Placement place, const Part& strip, bool colour);

// The size of the strips that a panel of this part is glued up from: as few as its rules allow, all
// of one width. Fails when the part's rules allow none.
Result<std::pair<Part, int>> stripsFor(const Part& part);

// The strips best fulfil the wish and match each other; a board may give several, side by side or
// end to end. Fails when the rack does not hold enough of them.
Result<Panel> panelOf(const std::vector<Board>& boards, const Part& part, const Shop& shop,
                      const Wish& wish, const FigureSource& figures, RunControl& control);

// The seams of strips laid in an order of the maker's own. A strip without a known other face is
// never over.
PanelOrder judgedOrder(const Panel& panel, const std::vector<LaidStrip>& strips);
// The best few orders of all.
std::vector<PanelOrder> bestOrders(const Panel& panel, size_t most);

std::string words(const Seam& seam);

}  // namespace rackside
