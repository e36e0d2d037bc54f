// SPDX-License-Identifier: GPL-3.0-or-later
// Learning to propose marks from labelled photographs.
#pragma once

#include <functional>

#include "tests/support/labelled_wood.h"
#include "vision/wood/propose/judge_regions.h"

namespace rackside::test {

// Samples of pixels: one row of features and one PixelKind each.
struct PixelSamples {
  std::vector<uint8_t> rows, kinds;
  int width = 0;
  void append(const PixelSamples& other);
};
// At most so many pixels of each kind of mark, and of the clear, from one picture (half size).
PixelSamples samplePixels(const LabelledWood& half, const PixelFeatures& features, int ofEachMark,
                          int clear, uint64_t seed);
PixelModel trainPixels(const PixelSamples& samples, uint64_t seed);

struct RegionSamples {
  std::vector<uint8_t> rows, kinds;
};
void addRegions(const std::vector<Region>& regions, const LabelledWood& half, RegionSamples& out);
BoostedTrees trainJudge(const RegionSamples& samples, uint64_t seed);

// Whether a proposed region counts for a labelled one: IoU ≥ 0.3, or its middle lies in it and its
// area is within a factor of 3. Both in one frame.
bool countsFor(const cv::Rect& box, const cv::Mat& mask, const LabelRegion& label);

PixelKind pixelKindOf(int label);
RegionKind regionKindOf(int label);

}  // namespace rackside::test
