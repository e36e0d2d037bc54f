// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/arris_path.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/face/border_path.h"
#include "vision/face/curve_border.h"
#include "vision/face/own_variation.h"
#include "vision/face/ribbon_cells.h"
#include "vision/face/roughness_split.h"

namespace rackside {
namespace {

constexpr double kCoherentMm = 42;  // along the side, over which a step keeps its colours
constexpr double kSharpMm = 1.5, kBroadMm = 4.5;  // bands compared to either side
constexpr double kWallSeenMm = 1.5;
constexpr double kInnerFromMm = 12, kInnerToMm = 4;  // wood, inward from the rough line
constexpr double kNoise = 0.5;                       // of a step, in steps of brightness
constexpr double kEvidence = 0.25;  // of a cell, as its neighbours are not independent
constexpr double kUsual = 0.5;      // significance that the wood's own lines have
constexpr float kNowhere = 6;       // a place that cannot be
constexpr double kWallSay = 1.1;
constexpr float kFarBrighter = 1.15F;
// Where ground or wall is dark, the arris is where it turns dark; an arris that cannot be seen is
// likelier on a wall that looks like the face.
constexpr float kDarker = 0.93f, kDarkerBonus = 0.3f, kUnseenArris = -0.8f;
// Bark and shadow lie outside: a rim far darker than the face farther in is not face.
constexpr double kRimMm = 1.5, kRimWithinMm = 5, kFaceFromMm = 36, kFaceToMm = 16;
constexpr float kDarkRim = 0.85f, kDarkest = 0.65f, kRimSay = 7;
constexpr float kBrighterThanFace = 1.12F;  // as the eye steps it
constexpr double kHueMm = 3;
constexpr float kHueSay = 1, kDarkLight = 0.005F;  // of linear light, below which hue is noise
constexpr float kRoughnessSay = 0.2F;              // of a cost, for a shortfall of one
constexpr double kStepCostPerMm = 0.8, kOtherPlaceMm = 2.5, kWindowMm = 100;
constexpr double kOffPerMm2 = 0.002;  // for straying from the rough line
// Towards the curve that most of a sawn side follows; a live edge follows none.
constexpr double kLeanPerMm2 = 0.02, kMostLean = 0.6;
constexpr double kMostOffMm = 12, kBendCostPerMm = 0.002, kOnCurveMm = 1.2;
constexpr float kMostAColumn = 1;
constexpr double kFollowsCurve = 2.0 / 3, kSawn = 0.15;

// The step of colour at every border between rows, over bands of the given width or, outward, no
// wider than the wall.
cv::Mat stepsOver(const RibbonCells& c, const RibbonSums& sums, double bandMm, bool withinWall) {
  cv::Mat steps = cv::Mat::zeros(c.colour.size(), CV_32FC3);
  const int band = std::max(1, int(std::lround(bandMm / c.acrossMm)));
  for (int x = 0; x < steps.cols; ++x) {
    const double wall = c.wallMm[size_t(x)];
    const int out =
        withinWall && wall >= kWallSeenMm ? std::clamp(int(wall / c.acrossMm), 1, band) : band;
    for (int y = band; y + out <= steps.rows; ++y)
      steps.at<cv::Vec3f>(y, x) = sums.mean(x, y, y + out) - sums.mean(x, y - band, y);
  }
  return steps;
}

cv::Mat significances(const RibbonCells& c, const cv::Mat& steps) {
  std::vector<cv::Vec3f> own;
  const int from = std::max(0, c.middle - int(kInnerFromMm / c.acrossMm)),
            to = c.middle - int(kInnerToMm / c.acrossMm);
  for (int x = 0; x < steps.cols; ++x)
    for (int y = from; y < to; ++y)
      if (c.weight.at<float>(y, x) > 0 && steps.at<cv::Vec3f>(y, x) != cv::Vec3f())
        own.push_back(steps.at<cv::Vec3f>(y, x));
  const cv::Matx33f inverse = inverseOwnVariation(own, kNoise);
  cv::Mat out(steps.size(), CV_32F);
  for (int x = 0; x < steps.cols; ++x)
    for (int y = 0; y < steps.rows; ++y)
      out.at<float>(y, x) = significance(steps.at<cv::Vec3f>(y, x), inverse) - float(kUsual);
  return out;
}

float brightness(const cv::Vec3f& v) {
  return v[0] + v[1] + v[2];
}

bool darkerOutward(const RibbonCells& c, const RibbonSums& sums, int x, int y) {
  const int band = std::max(1, int(std::lround(kSharpMm / c.acrossMm)));
  if (y < band || y + band > c.colour.rows) return false;
  const cv::Vec3f in = sums.mean(x, y - band, y), out = sums.mean(x, y, y + band);
  return brightness(out) < kDarker * brightness(in);
}

// Whether what would be the wall is far brighter than the face, as a sliver of sapwood is and a
// wall is not.
bool farBrighterOutward(const RibbonCells& c, const RibbonSums& sums, int x, int y, int foot) {
  const int band = std::max(1, int(std::lround(kBroadMm / c.acrossMm)));
  if (y < band || foot <= y) return false;
  return brightness(sums.mean(x, y, foot)) > kFarBrighter * brightness(sums.mean(x, y - band, y));
}

// How bright the face is farther in than any bark, by column; a card there is no face.
std::vector<float> faceBrightness(const RibbonCells& c, const RibbonSums& sums) {
  const int from = std::max(0, c.middle - int(kFaceFromMm / c.acrossMm)),
            to = c.middle - int(kFaceToMm / c.acrossMm);
  std::vector<float> face(size_t(c.colour.cols), 0.0F);
  if (to <= from || face.empty()) return face;
  for (int x = 0; x < c.colour.cols; ++x) face[size_t(x)] = brightness(sums.mean(x, from, to));
  std::vector<float> sorted = face;
  const auto middle = sorted.begin() + std::ptrdiff_t(sorted.size() / 2);
  std::nth_element(sorted.begin(), middle, sorted.end());
  for (float& f : face) f = std::min(f, kBrighterThanFace * *middle);
  return face;
}

// From 0, nearly as bright as the face, to 1, as dark as bark.
float darkness(float light, float face) {
  return std::clamp((kDarkRim - light / face) / (kDarkRim - kDarkest), 0.0f, 1.0f);
}

// 0 where what would be the wall is as bright as the face, as a sawn wall may be and bark is not.
float barkShows(const RibbonSums& sums, float face, int x, int y, int foot) {
  return face <= 0 ? 1 : darkness(brightness(sums.mean(x, y, foot)), face);
}

// 0 where the wood inside a border is about as bright as the face farther in, 1 where there is a
// strip as dark as bark.
float darkRim(const RibbonCells& c, const RibbonSums& sums, float face, int x, int y) {
  const int band = std::max(1, int(std::lround(kRimMm / c.acrossMm))),
            rim = int(std::lround(kRimWithinMm / c.acrossMm));
  if (y - rim < c.middle - int(kFaceToMm / c.acrossMm) || face <= 0) return 0;
  float darkest = face;
  for (int k = y - rim; k + band <= y; ++k)
    darkest = std::min(darkest, brightness(sums.mean(x, k, k + band)));
  return darkness(darkest, face);
}

// Shade leaves the ratios of red, green and blue light almost alone: they change where the wood
// does, at the foot of the wall. 100 times their logarithms.
RibbonCells hueOf(const RibbonCells& c) {
  RibbonCells hue = c;
  const auto linear = [](float v) { return (v / 100) * (v / 100) * (v / 100) + kDarkLight; };
  for (int y = 0; y < hue.colour.rows; ++y)
    for (int x = 0; x < hue.colour.cols; ++x) {
      cv::Vec3f& v = hue.colour.at<cv::Vec3f>(y, x);
      const float green = std::log(linear(v[1]));
      v = {100 * (std::log(linear(v[0])) - green), 0, 100 * (std::log(linear(v[2])) - green)};
    }
  return hue;
}

cv::Mat hueSteps(const RibbonCells& c) {
  const RibbonCells hue = hueOf(c);
  return significances(hue, stepsOver(hue, RibbonSums(hue, kCoherentMm), kHueMm, false));
}

cv::Mat costsOf(const RibbonCells& c, const RoughnessSplit& rough, bool straightWall) {
  const RibbonSums sums(c, kCoherentMm);
  const cv::Mat sharp = significances(c, stepsOver(c, sums, kSharpMm, true));
  const cv::Mat broad = significances(c, stepsOver(c, sums, kBroadMm, true));
  const cv::Mat beyond = significances(c, stepsOver(c, sums, kSharpMm, false));
  const cv::Mat hue = hueSteps(c);
  const std::vector<float> face = faceBrightness(c, sums);
  cv::Mat cost(c.colour.size(), CV_32F);
  for (int x = 0; x < cost.cols; ++x) {
    const double wall = c.wallMm[size_t(x)];
    for (int y = 0; y < cost.rows; ++y) {
      const double off = (y - c.middle) * c.acrossMm;
      float& here = cost.at<float>(y, x);
      here = float(kOffPerMm2 * off * off);
      if (c.weight.at<float>(y, x) <= 0) continue;
      float evidence = 0.5f * (sharp.at<float>(y, x) + broad.at<float>(y, x));
      if (evidence > 0 && darkerOutward(c, sums, x, y)) evidence *= 1 + kDarkerBonus;
      if (wall >= kWallSeenMm) evidence = std::max(evidence, kUnseenArris);
      const int foot = y + int(std::lround(wall / c.acrossMm));
      if (wall >= kWallSeenMm && foot < cost.rows && !farBrighterOutward(c, sums, x, y, foot))
        evidence += float(kWallSay) *
                    (straightWall ? 1 : barkShows(sums, face[size_t(x)], x, y, foot)) *
                    std::max(0.0f, beyond.at<float>(foot, x));
      if (straightWall && foot < cost.rows)
        evidence += kHueSay * std::max(0.0F, hue.at<float>(foot, x));
      if (straightWall) here += kRoughnessSay * rough.shortfall.at<float>(y, x);
      here -= float(kEvidence) * (evidence - kRimSay * darkRim(c, sums, face[size_t(x)], x, y));
    }
  }
  return cost;
}

// How much dearer the path is, over a window, when moved by the wall's width to either side:
// whether arris and foot of the wall may have been taken for one another.
std::vector<double> wallMargins(const RibbonCells& c, const cv::Mat& cost,
                                const std::vector<int>& rows, int window) {
  cv::Mat inward(1, cost.cols, CV_32F, cv::Scalar(0)), outward = inward.clone();
  for (int x = 0; x < cost.cols; ++x) {
    const int wall = std::max(1, int(std::lround(c.wallMm[size_t(x)] / c.acrossMm)));
    const int y = rows[size_t(x)];
    const float ours = cost.at<float>(y, x);
    const auto worse = [&](int at) {
      float least = kNowhere;
      for (int k = std::max(0, at - 1); k <= std::min(cost.rows - 1, at + 1); ++k)
        least = std::min(least, cost.at<float>(k, x) - ours);
      return least;
    };
    inward.at<float>(0, x) = worse(y - wall);
    outward.at<float>(0, x) = worse(y + wall);
  }
  for (cv::Mat* m : {&inward, &outward})
    cv::boxFilter(*m, *m, CV_32F, {window | 1, 1}, {-1, -1}, false, cv::BORDER_REPLICATE);
  const cv::Mat least = cv::min(inward, outward);
  std::vector<double> margins;
  margins.reserve(size_t(cost.cols));
  for (int x = 0; x < cost.cols; ++x) margins.push_back(least.at<float>(0, x));
  return margins;
}

CurveBorder curveOf(const RibbonCells& c, const cv::Mat& cost) {
  CurveOptions options;
  options.mostTilt = options.mostBend = kMostOffMm / c.acrossMm;
  options.bendCost = kBendCostPerMm * c.acrossMm;
  options.mostAColumn = kMostAColumn;
  options.samePlace = kOtherPlaceMm / c.acrossMm;
  return cheapestCurve(cost, options);
}

double shareOnCurve(const std::vector<int>& rows, const CurveBorder& curve, double nearRows) {
  int near = 0;
  const int n = int(rows.size());
  for (int x = 0; x < n; ++x) near += std::abs(rows[size_t(x)] - curve.row(x, n)) < nearRows;
  return double(near) / n;
}

BorderPathOptions pathOptions(const RibbonCells& cells) {
  BorderPathOptions options;
  options.stepCost = kStepCostPerMm * cells.acrossMm;
  options.samePlace = int(std::lround(kOtherPlaceMm / cells.acrossMm));
  options.farthest = cells.colour.rows;
  options.window = int(std::lround(kWindowMm / kRibbonRowsPerCell / kRibbonRowMm));
  return options;
}

}  // namespace

ArrisPath arrisPath(const EdgeRibbon& ribbon, bool maybeSawn, bool straightWall) {
  const RibbonCells cells = cellsOf(ribbon);
  const RoughnessSplit rough = splitByRoughness(cells);
  const cv::Mat cost = costsOf(cells, rough, straightWall);
  const BorderPathOptions options = pathOptions(cells);
  BorderPath path = cheapestBorder(cost, options);
  ArrisPath arris;
  CurveBorder curve;
  if (maybeSawn) {
    curve = curveOf(cells, cost);
    arris.onCurve = shareOnCurve(path.row, curve, kOnCurveMm / cells.acrossMm);
  }
  const bool follows = arris.onCurve > kFollowsCurve;
  if (follows && curve.dearness < kSawn)
    path = cheapestBorder(
        cost, options,
        leaningTo(curve, cost.size(), kLeanPerMm2 * cells.acrossMm * cells.acrossMm, kMostLean));
  const std::vector<double> walls = wallMargins(cells, cost, path.row, options.window);
  const int n = int(path.row.size());
  for (size_t i = 0; i < ribbon.rows.size(); ++i) {
    const double x = std::clamp((double(i) - 0.5 * (kRibbonRowsPerCell - 1)) / kRibbonRowsPerCell,
                                0.0, double(n - 1));
    const size_t a = size_t(x), b = std::min(a + 1, size_t(n - 1));
    const double t = x - double(a);
    const auto offset = [&](double row) {
      return (row - cells.middle) * cells.acrossMm - 0.5 * ribbon.stepMm;
    };
    arris.offsetMm.push_back(offset((1 - t) * path.row[a] + t * path.row[b]));
    arris.margin.push_back(std::min(path.margin[a], path.margin[b]));
    arris.wallMargin.push_back(std::min(walls[a], walls[b]));
    const int nearest = int(std::lround(x));
    arris.toldByRoughness.push_back(straightWall &&
                                    rough.tells(nearest, path.row[size_t(nearest)]));
    if (follows) arris.curveMm.push_back(offset(curve.row(nearest, n)));
  }
  return arris;
}

}  // namespace rackside
