// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/pit_rim.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kRingMm = 6, kLeastRingPx = 4;  // wood round about, by which the dark is judged
constexpr double kDark = 0.35;                   // of the wood's light: no shade of knot is darker
constexpr double kDarkShare = 0.2;               // the share of the outline that is taken as dark
constexpr int kFiner = 4;                        // so many times finer is the rim followed
constexpr double kLeastShare = 0.35, kMostShare = 1.15;  // of the area of `about`
constexpr double kTolerancePx = 0.15;

// Light, linear, 0..1 (sRGB, IEC 61966-2-1; weights of Rec. ITU-R BT.709).
cv::Mat1f linearLight(const cv::Mat& bgr) {
  static const std::array<float, 256> linear = [] {
    std::array<float, 256> table{};
    for (size_t i = 0; i < table.size(); ++i) {
      const float v = static_cast<float>(i) / 255;
      table[i] = v <= 0.04045F ? v / 12.92F : std::pow((v + 0.055F) / 1.055F, 2.4F);
    }
    return table;
  }();
  cv::Mat1f out(bgr.size());
  for (int y = 0; y < bgr.rows; ++y) {
    const auto* from = bgr.ptr<cv::Vec3b>(y);
    for (int x = 0; x < bgr.cols; ++x)
      out(y, x) = 0.0722F * linear[from[x][0]] + 0.7152F * linear[from[x][1]] +
                  0.2126F * linear[from[x][2]];
  }
  return out;
}

cv::Mat1b filled(const Polygon& shape, cv::Rect box) {
  cv::Mat1b mask(box.size(), uchar(0));
  std::vector<cv::Point> corners;
  corners.reserve(shape.size());
  for (const Point p : shape)
    corners.emplace_back(cvRound((p.x - box.x) * 256), cvRound((p.y - box.y) * 256));
  cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{corners}, 255, cv::LINE_8, 8);
  return mask;
}

float quantileOf(const cv::Mat1f& values, const cv::Mat1b& mask, double share) {
  std::vector<float> taken;
  for (int y = 0; y < values.rows; ++y)
    for (int x = 0; x < values.cols; ++x)
      if (mask(y, x)) taken.push_back(values(y, x));
  if (taken.empty()) return 0;
  const auto at = taken.begin() + static_cast<std::ptrdiff_t>(share * double(taken.size() - 1));
  std::nth_element(taken.begin(), at, taken.end());
  return *at;
}

// The dark region that shares most with `about`; empty when none does.
cv::Mat1b regionAt(const cv::Mat1b& dark, const cv::Mat1b& about) {
  cv::Mat1i labels;
  const int count = cv::connectedComponents(dark, labels, 4, CV_32S);
  std::vector<int> shared(static_cast<size_t>(count));
  for (int y = 0; y < dark.rows; ++y)
    for (int x = 0; x < dark.cols; ++x)
      if (dark(y, x) && about(y, x)) ++shared[static_cast<size_t>(labels(y, x))];
  const auto best = std::max_element(shared.begin(), shared.end());
  if (*best == 0) return {};
  return labels == static_cast<int>(best - shared.begin());
}

Polygon outlineOf(const cv::Mat1b& region, cv::Point2d origin) {
  std::vector<std::vector<cv::Point>> lines;
  cv::findContours(region, lines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  const auto& longest = *std::max_element(lines.begin(), lines.end(), [](auto& a, auto& b) {
    return cv::contourArea(a) < cv::contourArea(b);
  });
  // The line through the outermost samples lies half a sample inside the rim.
  std::vector<cv::Point2f> exact(longest.begin(), longest.end()), few;
  cv::approxPolyDP(exact, few, kTolerancePx * kFiner, true);
  Polygon out;
  out.reserve(few.size());
  for (const cv::Point2f p : few)
    out.push_back({origin.x + (p.x + 0.5) / kFiner - 0.5, origin.y + (p.y + 0.5) / kFiner - 0.5});
  if (signedArea(out) < 0) std::reverse(out.begin(), out.end());
  const Polygons grown = offset({out}, 0.5 / kFiner);
  return grown.size() == 1 ? grown.front() : Polygon{};
}

}  // namespace

std::optional<Polygon> pitRim(const cv::Mat& bgr, double mmPerPx, const Polygon& about) {
  const int ring = cvCeil(std::max(kRingMm / mmPerPx, kLeastRingPx));
  const Rect b = bounds(about);
  const cv::Rect box =
      cv::Rect(cvFloor(b.x0) - ring, cvFloor(b.y0) - ring, cvCeil(b.width()) + 2 * ring + 1,
               cvCeil(b.height()) + 2 * ring + 1) &
      cv::Rect({0, 0}, bgr.size());
  if (box.width < 5 || box.height < 5) return std::nullopt;
  const cv::Mat1f light = linearLight(bgr(box));
  const cv::Mat1b inside = filled(about, box);
  cv::Mat1b near, far;
  cv::dilate(inside, near, cv::getStructuringElement(cv::MORPH_ELLIPSE, {3, 3}));
  cv::dilate(inside, far,
             cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * ring + 1, 2 * ring + 1}));
  const float wood = quantileOf(light, far & ~near, 0.5);
  const float dark = quantileOf(light, inside, kDarkShare / 2);
  if (wood <= 0 || dark > kDark * wood) return std::nullopt;
  cv::Mat1f fine;
  cv::resize(light, fine, {}, kFiner, kFiner, cv::INTER_CUBIC);
  cv::Mat1b mask;
  cv::resize(inside, mask, fine.size(), 0, 0, cv::INTER_NEAREST);
  const cv::Mat1b region = regionAt(fine < 0.5F * (wood + dark), mask);
  if (region.empty()) return std::nullopt;
  Polygon rim = outlineOf(region, box.tl());
  const double share = rim.size() < 3 ? 0 : area({rim}) / std::max(area({about}), 1e-9);
  if (share < kLeastShare || share > kMostShare || !isSimple(rim)) return std::nullopt;
  return rim;
}

}  // namespace rackside
