// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/judge_regions.h"

#include <algorithm>
#include <array>

namespace rackside {
namespace {

// Two regions that share more than this of the smaller one are one thing in the wood.
constexpr double kSharedPart = 0.3;

// From this share of it a region is inside another.
constexpr double kInside = 0.8;
// Crumbs that fill so much of a region are that region.
constexpr double kFilled = 0.4;
// A whole may be so much less sure than its crumbs.
constexpr double kWholeConfidence = 0.75;

bool areLines(const JudgedRegion& a) {
  return a.kind == RegionKind::crack;
}

// One pocket of bark often falls into pieces that are each very sure. The smallest whole that holds
// several of them, and that is a mark in its own right, takes their place.
void gatherCrumbs(std::vector<JudgedRegion>& kept, const std::vector<JudgedRegion>& all) {
  for (const JudgedRegion& whole : all) {
    if (areLines(whole)) continue;
    std::vector<size_t> inside;
    double areaPx = 0, surest = 0;
    for (size_t i = 0; i < kept.size(); ++i) {
      const JudgedRegion& k = kept[i];
      if (areLines(k) || k.region.areaPx >= whole.region.areaPx ||
          overlapPx(k.region, whole.region) < kInside * k.region.areaPx)
        continue;
      inside.push_back(i);
      areaPx += k.region.areaPx;
      surest = std::max(surest, k.confidence);
    }
    if (inside.size() < 2 || areaPx < kFilled * whole.region.areaPx ||
        whole.confidence < kWholeConfidence * surest)
      continue;
    for (auto it = inside.rbegin(); it != inside.rend(); ++it)
      kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(*it));
    kept.push_back(whole);
  }
}

}  // namespace

std::vector<JudgedRegion> judgeRegions(const BoostedTrees& judge, std::vector<Region> regions,
                                       double leastConfidence) {
  std::vector<JudgedRegion> judged;
  for (Region& r : regions) {
    std::array<float, kRegionKinds> p{};
    judge.probabilities(r.features.data(), p.data());
    if (1 - p[0] < leastConfidence) continue;
    const auto best = std::max_element(p.begin() + 1, p.end());
    judged.push_back({std::move(r), static_cast<RegionKind>(best - p.begin()), 1.0 - p[0]});
  }
  std::stable_sort(judged.begin(), judged.end(), [](const JudgedRegion& a, const JudgedRegion& b) {
    return a.confidence > b.confidence;
  });
  std::vector<JudgedRegion> kept;
  for (const JudgedRegion& j : judged) {
    const bool taken = std::any_of(kept.begin(), kept.end(), [&](const JudgedRegion& k) {
      return overlapPx(j.region, k.region) >
             kSharedPart * std::min(j.region.areaPx, k.region.areaPx);
    });
    if (!taken) kept.push_back(j);
  }
  gatherCrumbs(kept, judged);
  return kept;
}

}  // namespace rackside
