// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/judge_regions.h"

#include <algorithm>
#include <array>

namespace rackside {
namespace {

// Two regions that share more than this of the smaller one are one thing in the wood.
constexpr double kSharedPart = 0.3;

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
  for (JudgedRegion& j : judged) {
    const bool taken = std::any_of(kept.begin(), kept.end(), [&](const JudgedRegion& k) {
      return overlapPx(j.region, k.region) >
             kSharedPart * std::min(j.region.areaPx, k.region.areaPx);
    });
    if (!taken) kept.push_back(std::move(j));
  }
  return kept;
}

}  // namespace rackside
