// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/crayon.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/base/name_table.h"
#include "vision/wood/crayon/pigment.h"
#include "vision/wood/crayon/stroke_shape.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 4> kColours = {"white", "yellow", "red", "blue"};
constexpr std::array<std::string_view, 4> kKinds = {"ring", "cross", "line", "tick"};

constexpr double kReadMmPerPx = 1;  // strokes are 6 mm wide and more
constexpr float kSurely = 0.45F;    // of the pigment's full colour, somewhere on every stroke
constexpr float kPerhaps = 0.25F;
constexpr double kGapMm = 3.5;  // wax skips over the hollows of the grain
constexpr double kJoinMm = 9;   // pieces so near one another are one scrawl
constexpr double kLeastMm2 = 120;
// Lumber crayons and sticks of chalk are 8 to 13 mm thick (common practice, no source).
constexpr double kLeastWidthMm = 3.5, kMostWidthMm = 16;
constexpr double kCoverMm = 2;

cv::Mat disc(double radiusPx) {
  const int r = std::max(1, cvRound(radiusPx));
  return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * r + 1, 2 * r + 1});
}

// Where the colour lies, gaps of the wax filled in; what is nowhere surely coloured is dropped.
cv::Mat coloured(const cv::Mat& share) {
  cv::Mat soft, labels;
  cv::GaussianBlur(share, soft, {}, 1.2);
  cv::Mat mask = soft > kPerhaps;
  cv::morphologyEx(mask, mask, cv::MORPH_CLOSE, disc(kGapMm / kReadMmPerPx));
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
      if (i > 0 && (all[i] < 12 || sure[i] < 0.15 * all[i])) mask.at<uint8_t>(y, x) = 0;
    }
  return mask;
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

std::vector<Scrawl> scrawlsOf(const cv::Mat& mask) {
  cv::Mat near, labels, stats, middles;
  cv::dilate(mask, near, disc(kJoinMm / 2 / kReadMmPerPx));
  const int count = cv::connectedComponentsWithStats(near, labels, stats, middles, 8);
  std::vector<Scrawl> out;
  for (int i = 1; i < count; ++i) {
    Scrawl s;
    s.box = {stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
             stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT)};
    s.mask = (labels(s.box) == i) & mask(s.box);
    s.mmPerPx = kReadMmPerPx;
    s.widthMm = widthOf(s.mask) * kReadMmPerPx;
    if (cv::countNonZero(s.mask) * kReadMmPerPx * kReadMmPerPx < kLeastMm2) continue;
    if (s.widthMm < kLeastWidthMm || s.widthMm > kMostWidthMm) continue;
    out.push_back(std::move(s));
  }
  return out;
}

// Most of a stroke lies on the wood, away from its border: sapwood and a planed edge do not.
bool hugsTheBorder(const Scrawl& s, const cv::Mat& toBorderPx) {
  const cv::Mat near = (toBorderPx(s.box) < 4 / kReadMmPerPx) & s.mask;
  return cv::countNonZero(near) > 0.2 * cv::countNonZero(s.mask);
}

}  // namespace

std::string_view name(CrayonColour colour) {
  return nameIn(kColours, colour);
}
std::optional<CrayonColour> crayonColourFromName(std::string_view name) {
  return valueIn<CrayonColour>(kColours, name);
}
std::string_view name(StrokeKind kind) {
  return nameIn(kKinds, kind);
}

CrayonReading readCrayon(const FaceToRead& face, CrayonColour colour) {
  const double scale = face.mmPerPx / kReadMmPerPx;
  const cv::Size size(std::max(1, cvRound(face.bgr.cols * scale)),
                      std::max(1, cvRound(face.bgr.rows * scale)));
  cv::Mat bgr, wood, toBorder, framed;
  cv::resize(face.bgr, bgr, size, 0, 0, scale < 1 ? cv::INTER_AREA : cv::INTER_LINEAR);
  cv::resize(face.wood, wood, size, 0, 0, cv::INTER_NEAREST);
  const cv::Mat mask = coloured(pigmentShare(bgr, wood, colour));
  cv::distanceTransform(wood, toBorder, cv::DIST_L2, 3);
  CrayonReading out;
  cv::Mat covered = cv::Mat::zeros(size, CV_8U);
  const double s = kReadMmPerPx / face.mmPerPx, shift = (s - 1) / 2;
  for (const Scrawl& scrawl : scrawlsOf(mask)) {
    if (hugsTheBorder(scrawl, toBorder)) continue;
    covered(scrawl.box) |= scrawl.mask;
    auto stroke = strokeOf(scrawl);
    if (!stroke) continue;
    stroke->shape = carried(stroke->shape, {s, 0, shift, 0, s, shift});
    out.strokes.push_back(std::move(*stroke));
  }
  cv::dilate(covered, covered, disc(kCoverMm / kReadMmPerPx));
  cv::resize(covered, out.covered, face.bgr.size(), 0, 0, cv::INTER_NEAREST);
  return out;
}

}  // namespace rackside
