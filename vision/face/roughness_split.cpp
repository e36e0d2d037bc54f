// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/roughness_split.h"

#include <algorithm>
#include <numeric>

#include "vision/face/roughness.h"

namespace rackside {
namespace {

constexpr double kAlongMm = 90;  // over which changes are averaged
// What is certainly face lies so far inward of the ribbon's line, what is certainly ground so far
// outward of its wall.
constexpr double kFaceFromMm = 10, kBeyondMm = 5;
constexpr double kMostAMm = 1.5;        // no place says more than that, so odd grain does no harm
constexpr double kFree = 4, kMost = 4;  // of a shortfall: not counted; where it no longer grows
constexpr double kTold = 10;            // better by that than no border at all,
constexpr double kNarrowMm = 4;         // and in one place

RoughnessModel learn(const RibbonCells& c, const cv::Mat& changes) {
  std::vector<cv::Vec3f> face, beyond;
  for (int x = 0; x < changes.cols; ++x)
    for (int y = 0; y < changes.rows; ++y) {
      if (c.weight.at<float>(y, x) <= 0) continue;
      const double off = (y - c.middle) * c.acrossMm;
      if (off < -kFaceFromMm) face.push_back(changes.at<cv::Vec3f>(y, x));
      if (off > c.wallMm[size_t(x)] + kBeyondMm) beyond.push_back(changes.at<cv::Vec3f>(y, x));
    }
  return {face, beyond};
}

std::vector<double> evidenceOf(const RibbonCells& c, const cv::Mat& changes, int x,
                               const RoughnessModel& model) {
  std::vector<double> evidence(size_t(changes.rows), 0.0);
  for (int y = 0; y < changes.rows; ++y)
    if (c.weight.at<float>(y, x) > 0)
      evidence[size_t(y)] =
          c.acrossMm * std::clamp(model.evidence(changes.at<cv::Vec3f>(y, x)), -kMostAMm, kMostAMm);
  return evidence;
}

}  // namespace

RoughnessSplit splitByRoughness(const RibbonCells& c) {
  RoughnessSplit split{cv::Mat::zeros(c.colour.size(), CV_32F),
                       std::vector<bool>(size_t(c.colour.cols))};
  const cv::Mat changes = averagedAlong(c.changes, c.weight, ribbonCells(kAlongMm));
  const RoughnessModel model = learn(c, changes);
  if (!model.knows()) return split;
  for (int x = 0; x < changes.cols; ++x) {
    const std::vector<double> evidence = evidenceOf(c, changes, x, model);
    const int wall = int(std::lround(c.wallMm[size_t(x)] / c.acrossMm));
    const std::vector<double> parted = partings(evidence, std::vector<int>(evidence.size(), wall));
    const double best = *std::max_element(parted.begin(), parted.end());
    for (int y = 0; y < changes.rows; ++y)
      split.shortfall.at<float>(y, x) =
          float(std::clamp(best - kFree - parted[size_t(y)], 0.0, kMost));
    const double nowhere =
        std::max(0.0, 2 * std::accumulate(evidence.begin(), evidence.end(),
                                          0.0));  // all of it ground, or all face
    const auto likely = [&](double v) { return best - v <= kFree; };
    const auto first = std::find_if(parted.begin(), parted.end(), likely);
    const auto last = std::find_if(parted.rbegin(), parted.rend(), likely).base();
    split.told[size_t(x)] =
        best - nowhere > kTold && double(last - first) * c.acrossMm <= kNarrowMm;
  }
  return split;
}

}  // namespace rackside
