// SPDX-License-Identifier: GPL-3.0-or-later
// A flat thing with known points that pins down scale and perspective: a printed card, a bank card,
// a sheet of paper, a coded tag, a chessboard.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/geometry/shapes.h"
#include "vision/cards/card_finder.h"

namespace rackside {

enum class CardsOn { board, bench };

// Target frame: mm, right-handed seen from the printed side, z towards the viewer.
struct Target {
  std::string name;  // tells targets apart: "card 3", "bank card"; shown to people
  int number = 0;    // of a printed card; 0 for anything else
  std::vector<Point> points;
  Point centre;  // what a taped distance runs to
  // True: its size is the printer's, so AdjustmentOptions::cardScale applies, shared by all prints.
  bool printed = false;
  // Of a thing made to a standard: how far its own length and height may be off, as a fraction (one
  // standard deviation), each by itself.
  double stretchSigmaX = 0;
  double stretchSigmaY = 0;
  // Height of the points above what it lies on; empty: AdjustmentOptions::cardThicknessMm.
  std::optional<double> thicknessMm;
  double thicknessSigmaMm = 0;
  // What it lies on; empty: AdjustmentOptions::cardsOn.
  std::optional<CardsOn> on;
};

// A target in one photograph. `points` name Target::points by index.
struct SeenTarget {
  Target target;
  std::vector<FoundSaddle> points;
};

Target targetOfCard(int number);  // 1..kLargestCardNumber
SeenTarget seenTarget(const FoundCard& card);

// The four outer corners, from the lower left, counter-clockwise. ISO/IEC 7810 ID-1 (85.60 × 53.98
// mm, 0.76 mm thick); ISO 216 A4 (210 × 297 mm); US Letter (215.9 × 279.4 mm), long side along x.
Target bankCardTarget();
Target a4Target();
Target letterTarget();

}  // namespace rackside
