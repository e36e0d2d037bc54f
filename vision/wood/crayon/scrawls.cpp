// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/scrawls.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr float kSurely = 0.45F;  // of the pigment's full colour, somewhere on every stroke
constexpr float kPerhaps = 0.25F;
// Strokes of chalk and crayon showed 0.44 and more, glare and pale wood 0.25 and less (brush model
// on photographs of sawn pine).
constexpr double kSureShare = 0.3;
constexpr double kGapMm = 3.5;  // wax skips over the hollows of the grain
constexpr double kJoinMm = 11;  // pieces so near one another are one scrawl
constexpr double kLeastMm2 = 120;
// Lumber crayons and sticks of chalk are 8 to 13 mm thick (common practice, no source); where two
// strokes cross, a circle of 1.4 times their width lies on them.
constexpr double kLeastWidthMm = 3.5, kMostWidthMm = 17, kPatchMm = 25;
constexpr double kBorderMm = 4;

cv::Mat disc(double radiusPx) {
  const int r = std::max(1, cvRound(radiusPx));
  return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * r + 1, 2 * r + 1});
}

// The mask without the patches that a disc of kPatchMm fits on.
cv::Mat withoutPatches(const cv::Mat& mask, double mmPerPx) {
  cv::Mat depth, away;
  cv::distanceTransform(mask, depth, cv::DIST_L2, 5);
  const double reach = kPatchMm / 2 / mmPerPx;
  const cv::Mat core = depth > reach;
  if (cv::countNonZero(core) == 0) return mask;
  cv::distanceTransform(core == 0, away, cv::DIST_L2, 5);
  return mask & (away > reach + kGapMm / mmPerPx);
}

// Twice the depth of the stroke along its ridge, the median.
double widthOf(const cv::Mat& mask) {
  cv::Mat framed, depth, top;
  cv::copyMakeBorder(mask, framed, 1, 1, 1, 1, cv::BORDER_CONSTANT, 0);
  cv::distanceTransform(framed, depth, cv::DIST_L2, 3);
  cv::dilate(depth, top, disc(2));
  std::vector<float> ridge;
  for (int y = 0; y < depth.rows; ++y)
    for (int x = 0; x < depth.cols; ++x)
      if (depth.at<float>(y, x) > 0 && depth.at<float>(y, x) >= top.at<float>(y, x))
        ridge.push_back(depth.at<float>(y, x));
  if (ridge.empty()) return 0;
  std::nth_element(ridge.begin(), ridge.begin() + static_cast<long>(ridge.size() / 2), ridge.end());
  return 2.0 * ridge[ridge.size() / 2];
}

bool hugsTheBorder(const Scrawl& s, const cv::Mat& toBorderPx) {
  const cv::Mat near = (toBorderPx(s.box) < kBorderMm / s.mmPerPx) & s.mask;
  return cv::countNonZero(near) > 0.2 * cv::countNonZero(s.mask);
}

// Drops what is nowhere surely coloured: pale wood, the soft rim of a glare.
void dropTheDoubtful(cv::Mat& mask, const cv::Mat& soft) {
  cv::Mat labels;
  const int count = cv::connectedComponents(mask, labels, 8);
  std::vector<int> sure(static_cast<size_t>(count)), all(static_cast<size_t>(count));
  for (int y = 0; y < mask.rows; ++y)
    for (int x = 0; x < mask.cols; ++x) {
      const auto i = static_cast<size_t>(labels.at<int>(y, x));
      ++all[i];
      sure[i] += soft.at<float>(y, x) > kSurely;
    }
  for (int y = 0; y < mask.rows; ++y)
    for (int x = 0; x < mask.cols; ++x) {
      const auto i = static_cast<size_t>(labels.at<int>(y, x));
      if (i > 0 && (all[i] < 12 || sure[i] < kSureShare * all[i])) mask.at<uint8_t>(y, x) = 0;
    }
}

bool isAStroke(const Scrawl& s, const cv::Mat& toBorderPx) {
  const int px = cv::countNonZero(s.mask);
  return px * s.mmPerPx * s.mmPerPx >= kLeastMm2 && s.widthMm >= kLeastWidthMm &&
         s.widthMm <= kMostWidthMm && !hugsTheBorder(s, toBorderPx);
}

}  // namespace

std::vector<Scrawl> scrawlsOf(const cv::Mat& share, const cv::Mat& wood, double mmPerPx) {
  cv::Mat soft, toBorder, near, labels, stats, middles;
  cv::GaussianBlur(share, soft, {}, 1.2);
  cv::Mat mask = soft > kPerhaps;
  cv::morphologyEx(mask, mask, cv::MORPH_CLOSE, disc(kGapMm / mmPerPx));
  mask = withoutPatches(mask, mmPerPx);
  dropTheDoubtful(mask, soft);
  cv::distanceTransform(wood, toBorder, cv::DIST_L2, 3);
  cv::dilate(mask, near, disc(kJoinMm / 2 / mmPerPx));
  const int count = cv::connectedComponentsWithStats(near, labels, stats, middles, 8);
  std::vector<Scrawl> out;
  for (int i = 1; i < count; ++i) {
    Scrawl s;
    s.box = {stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
             stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT)};
    s.mask = (labels(s.box) == i) & mask(s.box);
    s.mmPerPx = mmPerPx;
    s.widthMm = widthOf(s.mask) * mmPerPx;
    if (isAStroke(s, toBorder)) out.push_back(std::move(s));
  }
  return out;
}

}  // namespace rackside
