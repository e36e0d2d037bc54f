// SPDX-License-Identifier: GPL-3.0-or-later
// What the photographs of one scan show of cards and tags, ready for the adjustment.
#pragma once

#include "vision/scan/scan.h"

namespace rackside {

// Of a print bar laid against a good rule: half a millimetre over 250 mm would be coarse, a tenth
// needs care (common practice, no source).
inline constexpr double kMeasuredPrintSigma = 0.0004;

struct Sights {
  std::vector<size_t> used;           // photographs that show a card, by index
  std::vector<Sight> sights;          // of the used ones
  std::vector<FoundMarkers> markers;  // of the used ones
  std::optional<int> tag;
  std::vector<std::string> warnings;
};

// Photographs are searched side by side. Fails with what to do: no card in any of them, the only
// card cut off by the border, two different tags.
Result<Sights> findSights(const std::vector<Photo>& photos, const ScanOptions& options);

// A calibrated lens for a picture of the same proportions, scaled to its size; empty when it does
// not fit.
std::optional<Lens> lensForSize(const Lens& lens, cv::Size size);

}  // namespace rackside
