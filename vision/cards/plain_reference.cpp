// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/plain_reference.h"

#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "vision/cards/dark_quads.h"
#include "vision/cards/sample.h"

namespace rackside {
namespace {

constexpr double kSearchLongSidePx = 1400;
constexpr double kLeastSideShare = 0.015;  // of the picture's long side
// How far, as a share of the longest side, the corners may lie from any view of the reference: a
// pixel in 170, for seeing them and for a lens known from EXIF only.
constexpr double kMostMisfit = 0.006;
constexpr double kSamePlaceShare = 0.1;  // of the longest side: one thing found twice

Target targetOf(PlainReference what) {
  switch (what) {
    case PlainReference::bankCard:
      return bankCardTarget();
    case PlainReference::a4:
      return a4Target();
    case PlainReference::letter:
      return letterTarget();
  }
  throw std::logic_error("unknown plain reference");
}

double leastSigmaPx(PlainReference what) {
  return what == PlainReference::bankCard ? 0.5 : 0.7;
}

double longestSide(const Quad& quad) {
  double longest = 0;
  for (size_t i = 0; i < 4; ++i) longest = std::max(longest, cv::norm(quad[(i + 1) % 4] - quad[i]));
  return longest;
}

struct Fit {
  Quad inOrder;       // as Target::points
  double misfit = 0;  // mean distance of the corners from the best view ÷ longest side
};

// The best of the ways to lay the reference on the quadrilateral. Target points run
// counter-clockwise seen from above, so clockwise corners in the picture (y down) are taken
// backwards; of a bare rectangle two of the four beginnings look alike, and either is right.
Fit bestFit(const Quad& clockwise, const Target& target, const Lens& lens) {
  const cv::Matx33d k(lens.focalPx, 0, lens.cx, 0, lens.focalPx, lens.cy, 0, 0, 1);
  const cv::Vec4d distortion(lens.k1, lens.k2, 0, 0);
  std::vector<cv::Point3d> mm;
  for (const Point& p : target.points)
    mm.emplace_back(p.x - target.centre.x, p.y - target.centre.y, 0);
  Fit best;
  best.misfit = 1e9;
  for (size_t first = 0; first < 2; ++first) {
    Fit fit;
    for (size_t i = 0; i < 4; ++i) fit.inOrder[i] = clockwise[(first + 4 - i) % 4];
    const std::vector<cv::Point2d> px(fit.inOrder.begin(), fit.inOrder.end());
    cv::Vec3d turn, shift;
    std::vector<cv::Point2d> seen;
    if (!cv::solvePnP(mm, px, k, distortion, turn, shift, false, cv::SOLVEPNP_IPPE)) continue;
    cv::solvePnPRefineLM(mm, px, k, distortion, turn, shift);
    cv::projectPoints(mm, turn, shift, k, distortion, seen);
    double sum = 0;
    for (size_t i = 0; i < 4; ++i) sum += cv::norm(seen[i] - px[i]) / 4;
    fit.misfit = sum / longestSide(clockwise);
    if (fit.misfit < best.misfit) best = fit;
  }
  return best;
}

SeenTarget seenFrom(const Fit& fit, PlainReference what, const Target& target) {
  SeenTarget seen;
  seen.target = target;
  for (size_t i = 0; i < 4; ++i)
    seen.points.push_back({int(i), fit.inOrder[i], leastSigmaPx(what)});
  return seen;
}

// Sides that are darker or lighter than what surrounds them: the picture and its negative.
struct Tones {
  cv::Mat grey, negative;
  explicit Tones(const cv::Mat& picture) : grey(picture) { cv::bitwise_not(picture, negative); }
  std::optional<Quad> refined(const Quad& rough, double reachPx) const {
    for (const cv::Mat* tone : {&negative, &grey}) {
      Quad quad = rough;
      if (refineQuad(*tone, reachPx, quad)) return quad;
    }
    return std::nullopt;
  }
};

void addQuads(const cv::Mat& mask, double leastSidePx, std::vector<Quad>& quads) {
  std::vector<std::vector<cv::Point>> contours;
  cv::findContours(mask, contours, cv::RETR_LIST, cv::CHAIN_APPROX_SIMPLE);
  for (const auto& contour : contours) {
    std::vector<cv::Point> corners;
    cv::approxPolyDP(contour, corners, 0.03 * cv::arcLength(contour, true), true);
    if (corners.size() != 4 || !cv::isContourConvex(corners)) continue;
    if (cv::contourArea(corners, true) < 0) std::reverse(corners.begin(), corners.end());
    Quad quad;
    bool large = true;
    for (size_t i = 0; i < 4; ++i) {
      quad[i] = corners[i];
      large = large && cv::norm(corners[(i + 1) % 4] - corners[i]) >= leastSidePx;
    }
    if (large) quads.push_back(quad);
  }
}

// Quadrilaterals of the reduced picture: of its edges, and of its light and dark areas at several
// levels.
std::vector<Quad> candidates(const cv::Mat& grey) {
  const double reduction = std::max(1.0, std::max(grey.cols, grey.rows) / kSearchLongSidePx);
  cv::Mat small, smooth, mask;
  cv::resize(grey, small, {}, 1 / reduction, 1 / reduction, cv::INTER_AREA);
  cv::medianBlur(small, smooth, 5);
  const double leastSide = kLeastSideShare * std::max(small.cols, small.rows);
  std::vector<Quad> quads;
  for (int level = 40; level < 240; level += 20) {
    cv::threshold(smooth, mask, level, 255, cv::THRESH_BINARY);
    addQuads(mask, leastSide, quads);
  }
  for (double strength : {20.0, 60.0}) {
    cv::Canny(smooth, mask, strength, 3 * strength);
    cv::dilate(mask, mask, cv::getStructuringElement(cv::MORPH_RECT, {3, 3}));
    addQuads(mask, leastSide, quads);
  }
  const double x = double(grey.cols) / small.cols, y = double(grey.rows) / small.rows;
  for (Quad& quad : quads)
    for (cv::Point2d& p : quad) p = {(p.x + 0.5) * x - 0.5, (p.y + 0.5) * y - 0.5};
  return quads;
}

bool samePlace(const Quad& a, const Quad& b) {
  const cv::Point2d gap = 0.25 * (a[0] + a[1] + a[2] + a[3] - b[0] - b[1] - b[2] - b[3]);
  return cv::norm(gap) < kSamePlaceShare * longestSide(a);
}

}  // namespace

Result<SeenTarget> findPlainReference(const cv::Mat& grey, PlainReference what, const Lens& lens) {
  const Target target = targetOf(what);
  const Tones tones(grey);
  const double reachPx = std::max(3.0, 3.0 * std::max(grey.cols, grey.rows) / kSearchLongSidePx);
  std::vector<Fit> fits;
  for (const Quad& rough : candidates(grey)) {
    const auto quad = tones.refined(rough, reachPx);
    if (!quad) continue;
    const Fit fit = bestFit(*quad, target, lens);
    if (fit.misfit > kMostMisfit) continue;
    const auto held = std::find_if(fits.begin(), fits.end(),
                                   [&](const Fit& f) { return samePlace(f.inOrder, fit.inOrder); });
    if (held == fits.end())
      fits.push_back(fit);
    else if (fit.misfit < held->misfit)
      *held = fit;
  }
  if (fits.empty())
    return Error{"no " + target.name +
                 " was found; lay it flat with all four corners in view on a ground of another "
                 "tone, or give its four corners"};
  if (fits.size() > 1)
    return Error{"several things in the picture have the shape of a " + target.name +
                 "; give its four corners"};
  return seenFrom(fits.front(), what, target);
}

Result<SeenTarget> plainReferenceAt(const cv::Mat& grey, PlainReference what, const Lens& lens,
                                    const std::array<cv::Point2d, 4>& cornersPx, double reachPx) {
  const Target target = targetOf(what);
  Quad rough = cornersPx;
  const std::vector<cv::Point2f> outline(rough.begin(), rough.end());
  if (!cv::isContourConvex(outline))
    return Error{"the four corners do not go round a " + target.name + "; give them in order"};
  if (cv::contourArea(outline, true) < 0) std::swap(rough[1], rough[3]);
  const auto quad = Tones(grey).refined(rough, reachPx);
  if (!quad)
    return Error{"the sides of the " + target.name +
                 " cannot be seen between these corners; give them closer to the true ones"};
  const Fit fit = bestFit(*quad, target, lens);
  if (fit.misfit > kMostMisfit)
    return Error{"these corners do not have the shape of a " + target.name +
                 "; check which reference it is"};
  return seenFrom(fit, what, target);
}

}  // namespace rackside
