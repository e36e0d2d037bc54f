// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/curve_border.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr int kCoarse = 4;        // rows and columns of a cell in the first search
constexpr int kBestOfCoarse = 6;  // taken on into the second

// By column (a row of the result, for reading along): dearness, no more than `most`.
cv::Mat dearnesses(const cv::Mat& cost, float most) {
  cv::Mat out = cost.t();
  for (int x = 0; x < out.rows; ++x) {
    float* row = out.ptr<float>(x);
    const float least = *std::min_element(row, row + out.cols);
    for (int y = 0; y < out.cols; ++y) row[y] = std::min(most, row[y] - least);
  }
  return out;
}

struct Search {
  const cv::Mat& dear;  // transposed
  float most = 0;
  int everyColumn = 1;

  double mean(const CurveBorder& curve) const {
    double sum = 0;
    int n = 0;
    for (int x = 0; x < dear.rows; x += everyColumn, ++n) {
      const int y = int(std::lround(curve.row(x, dear.rows)));
      sum += y < 0 || y >= dear.cols ? most : dear.at<float>(x, y);
    }
    return sum / n;
  }
};

// Cells of kCoarse rows, the least of each and its neighbours.
cv::Mat coarse(const cv::Mat& dear) {
  cv::Mat least, out(dear.rows, dear.cols / kCoarse + 1, CV_32F);
  cv::erode(dear, least, cv::Mat::ones(1, kCoarse + 1, CV_8U));
  for (int x = 0; x < out.rows; ++x)
    for (int y = 0; y < out.cols; ++y)
      out.at<float>(x, y) = least.at<float>(x, std::min(dear.cols - 1, y * kCoarse));
  return out;
}

// The best tilt and bend for every middle place, in rows of `dear`.
std::vector<CurveBorder> firstGuesses(const cv::Mat& dear, const CurveOptions& o) {
  const cv::Mat cells = coarse(dear);
  const Search search{cells, o.mostAColumn, kCoarse};
  std::vector<CurveBorder> guesses;
  const int tilt = int(o.mostTilt / kCoarse), bend = int(o.mostBend / kCoarse);
  for (int a = -bend; a < cells.cols + bend; ++a) {
    CurveBorder best;
    best.dearness = 1e9;
    for (int b = -tilt; b <= tilt; ++b)
      for (int c = -bend; c <= bend; ++c) {
        CurveBorder curve{double(a), double(b), double(c), 0, 0};
        curve.dearness = search.mean(curve) + o.bendCost * std::abs(c) * kCoarse;
        if (curve.dearness < best.dearness) best = curve;
      }
    best.a *= kCoarse, best.b *= kCoarse, best.c *= kCoarse;
    guesses.push_back(best);
  }
  std::sort(guesses.begin(), guesses.end(),
            [](const auto& p, const auto& q) { return p.dearness < q.dearness; });
  return guesses;
}

double meanDistance(const CurveBorder& p, const CurveBorder& q) {
  double sum = 0;
  constexpr int n = 16;
  for (int i = 0; i <= n; ++i) sum += std::abs(p.row(i, n + 1) - q.row(i, n + 1));
  return sum / (n + 1);
}

// Down the slope of dearness as far as `allowed` lets it.
template <class Allowed>
CurveBorder improved(CurveBorder curve, const Search& search, const CurveOptions& o,
                     Allowed allowed) {
  const auto dearness = [&](const CurveBorder& c) {
    return search.mean(c) + o.bendCost * std::abs(c.c);
  };
  curve.dearness = dearness(curve);
  for (double step = kCoarse / 2.0; step >= 0.25;) {
    CurveBorder best = curve;
    for (int a = -1; a <= 1; ++a)
      for (int b = -1; b <= 1; ++b)
        for (int c = -1; c <= 1; ++c) {
          CurveBorder t{curve.a + a * step, curve.b + b * step, curve.c + c * step, 0, 0};
          if (std::abs(t.c) > o.mostBend || !allowed(t)) continue;
          t.dearness = dearness(t);
          if (t.dearness < best.dearness) best = t;
        }
    if (best.dearness >= curve.dearness) step /= 2;
    curve = best;
  }
  return curve;
}

template <class Allowed>
CurveBorder bestOf(const std::vector<CurveBorder>& guesses, const Search& search,
                   const CurveOptions& o, Allowed allowed) {
  CurveBorder best;
  best.dearness = o.mostAColumn;
  int tried = 0;
  for (const CurveBorder& guess : guesses) {
    if (!allowed(guess)) continue;
    if (++tried > kBestOfCoarse) break;
    if (const CurveBorder c = improved(guess, search, o, allowed); c.dearness < best.dearness)
      best = c;
  }
  return best;
}

}  // namespace

CurveBorder cheapestCurve(const cv::Mat& cost, const CurveOptions& options) {
  const cv::Mat dear = dearnesses(cost, options.mostAColumn);
  const Search search{dear, options.mostAColumn, 1};
  const std::vector<CurveBorder> guesses = firstGuesses(dear, options);
  CurveBorder best = bestOf(guesses, search, options, [](const CurveBorder&) { return true; });
  best.rival = bestOf(guesses, search, options, [&](const CurveBorder& c) {
                 return meanDistance(c, best) > options.samePlace;
               }).dearness;
  return best;
}

cv::Mat leaningTo(const CurveBorder& curve, cv::Size size, double perRow2, double most) {
  cv::Mat lean(size, CV_32F);
  for (int x = 0; x < size.width; ++x) {
    const double row = curve.row(x, size.width);
    for (int y = 0; y < size.height; ++y)
      lean.at<float>(y, x) = float(std::min(most, perRow2 * (y - row) * (y - row)));
  }
  return lean;
}

}  // namespace rackside
