// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/saddle_fit.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "vision/cards/sample.h"

namespace rackside {
namespace {

constexpr int kParameters = 9;  // x, y, angle 1, angle 2, blur, middle, half contrast, slope x, y
enum Parameter { X, Y, ANGLE1, ANGLE2, BLUR, MIDDLE, HALF, SLOPE_X, SLOPE_Y };
// No edge is sharper than a pixel's own averaging, σ = 1/√12; of a drawing that is, the fit is
// asked no more.
constexpr double kLeastBlurPx = 0.25;
using Parameters = cv::Vec<double, kParameters>;
using Normal = cv::Matx<double, kParameters, kParameters>;

struct Pixel {
  double x, y, grey;
};

// Pixels whose card coordinates lie within reach of the guess.
std::vector<Pixel> windowOf(const cv::Mat& grey, const SaddleGuess& g) {
  const double det = g.alongX.x * g.alongY.y - g.alongX.y * g.alongY.x;
  std::vector<Pixel> pixels;
  if (std::abs(det) < 1e-9) return pixels;
  const double w = g.reachMm * (std::abs(g.alongX.x) + std::abs(g.alongY.x));
  const double h = g.reachMm * (std::abs(g.alongX.y) + std::abs(g.alongY.y));
  if (!insideBy(grey, g.px - cv::Point2d(w, h), 0) || !insideBy(grey, g.px + cv::Point2d(w, h), 0))
    return pixels;
  for (int r = cvCeil(g.px.y - h); r <= cvFloor(g.px.y + h); ++r)
    for (int c = cvCeil(g.px.x - w); c <= cvFloor(g.px.x + w); ++c) {
      const double dx = c - g.px.x, dy = r - g.px.y;
      const double u = (dx * g.alongY.y - dy * g.alongY.x) / det;
      const double v = (dy * g.alongX.x - dx * g.alongX.y) / det;
      if (std::abs(u) <= g.reachMm && std::abs(v) <= g.reachMm)
        pixels.push_back({double(c), double(r), double(grey.at<uchar>(r, c))});
    }
  return pixels;
}

// Value and derivatives of the model at a pixel.
double model(const Parameters& p, const cv::Point2d& centre, const Pixel& at, Parameters* slope) {
  const double dx = at.x - p[X], dy = at.y - p[Y];
  const double s1 = std::sin(p[ANGLE1]), c1 = std::cos(p[ANGLE1]);
  const double s2 = std::sin(p[ANGLE2]), c2 = std::cos(p[ANGLE2]);
  const double d1 = c1 * dy - s1 * dx, d2 = c2 * dy - s2 * dx;  // left of each direction (y down)
  const double k = 1 / (std::sqrt(2.0) * p[BLUR]);
  const double e1 = std::erf(k * d1), e2 = std::erf(k * d2);
  if (slope) {
    const double density = 2 / std::sqrt(CV_PI) * k;
    const double g1 = density * std::exp(-k * k * d1 * d1) * e2 * p[HALF];
    const double g2 = density * std::exp(-k * k * d2 * d2) * e1 * p[HALF];
    Parameters& d = *slope;
    d[X] = g1 * s1 + g2 * s2;
    d[Y] = -g1 * c1 - g2 * c2;
    d[ANGLE1] = g1 * (-s1 * dy - c1 * dx);
    d[ANGLE2] = g2 * (-s2 * dy - c2 * dx);
    d[BLUR] = -(g1 * d1 + g2 * d2) / p[BLUR];
    d[MIDDLE] = 1;
    d[HALF] = e1 * e2;
    d[SLOPE_X] = at.x - centre.x;
    d[SLOPE_Y] = at.y - centre.y;
  }
  return p[MIDDLE] + p[HALF] * e1 * e2 + p[SLOPE_X] * (at.x - centre.x) +
         p[SLOPE_Y] * (at.y - centre.y);
}

struct Fit {
  Parameters p;
  Normal normal;
  double sumOfSquares = 0;
};

double sumOfSquares(const Parameters& p, const cv::Point2d& centre,
                    const std::vector<Pixel>& pixels) {
  double sum = 0;
  for (const Pixel& pixel : pixels) {
    const double e = pixel.grey - model(p, centre, pixel, nullptr);
    sum += e * e;
  }
  return sum;
}

bool plausible(const Parameters& p, const Parameters& start, double reachPx) {
  return p[BLUR] < reachPx && std::abs(p[ANGLE1] - start[ANGLE1]) < 0.35 &&
         std::abs(p[ANGLE2] - start[ANGLE2]) < 0.35 &&
         std::hypot(p[X] - start[X], p[Y] - start[Y]) < reachPx;
}

// Levenberg–Marquardt; the steps are few because the guess is near.
Fit minimise(const Parameters& start, const cv::Point2d& centre, const std::vector<Pixel>& pixels) {
  Fit fit{start, {}, sumOfSquares(start, centre, pixels)};
  double damping = 1e-3;
  for (int step = 0; step < 25; ++step) {
    Normal normal;
    Parameters right, slope;
    for (const Pixel& pixel : pixels) {
      const double e = pixel.grey - model(fit.p, centre, pixel, &slope);
      normal += slope * slope.t();
      right += e * slope;
    }
    fit.normal = normal;
    bool better = false;
    double move = 0;
    for (int attempt = 0; attempt < 6 && !better; ++attempt) {
      Normal damped = normal;
      for (int i = 0; i < kParameters; ++i) damped(i, i) *= 1 + damping;
      const Parameters delta = damped.solve(right, cv::DECOMP_CHOLESKY);
      Parameters next = fit.p + delta;
      next[BLUR] = std::max(next[BLUR], kLeastBlurPx);
      const double sum = sumOfSquares(next, centre, pixels);
      better = sum <= fit.sumOfSquares;
      if (better) {
        move = std::hypot(delta[X], delta[Y]) + std::abs(delta[BLUR]);
        fit.p = next;
        fit.sumOfSquares = sum;
      }
      damping = better ? damping * 0.2 : damping * 8;
    }
    if (!better || move < 1e-4) break;
  }
  return fit;
}

Parameters startOf(const SaddleGuess& g, const std::vector<Pixel>& pixels) {
  double mean = 0, squares = 0;
  for (const Pixel& pixel : pixels) mean += pixel.grey / double(pixels.size());
  for (const Pixel& pixel : pixels) squares += std::pow(pixel.grey - mean, 2);
  Parameters p;
  p[X] = g.px.x;
  p[Y] = g.px.y;
  p[ANGLE1] = std::atan2(g.alongX.y, g.alongX.x);
  p[ANGLE2] = std::atan2(g.alongY.y, g.alongY.x);
  p[BLUR] = 0.9;
  p[MIDDLE] = mean;
  // A point towards +x and +y lies left of one direction and right of the other: d1·d2 < 0.
  p[HALF] = std::sqrt(squares / double(pixels.size())) * (g.darkFirst ? 1 : -1);
  return p;
}

}  // namespace

std::optional<SaddleFit> fitSaddle(const cv::Mat& grey, const SaddleGuess& guess) {
  const std::vector<Pixel> pixels = windowOf(grey, guess);
  if (pixels.size() < size_t{2} * kParameters) return std::nullopt;
  const double reachPx = guess.reachMm * std::min(cv::norm(guess.alongX), cv::norm(guess.alongY));
  const Parameters start = startOf(guess, pixels);
  const Fit fit = minimise(start, guess.px, pixels);
  if (!plausible(fit.p, start, reachPx) || fit.p[HALF] * start[HALF] <= 0) return std::nullopt;
  bool solved = false;
  const Normal covariance = fit.normal.inv(cv::DECOMP_CHOLESKY, &solved);
  if (!solved) return std::nullopt;
  const double freedom = double(pixels.size()) - kParameters;
  const double total = start[HALF] * start[HALF] * double(pixels.size());
  // No camera rounds better than to whole grey levels: 1/√12.
  const double variance = std::max(fit.sumOfSquares / freedom, 1.0 / 12);
  SaddleFit result;
  result.px = {fit.p[X], fit.p[Y]};
  result.sigmaPx = std::sqrt(variance * (covariance(X, X) + covariance(Y, Y)) / 2);
  result.blurPx = fit.p[BLUR];
  result.contrast = 2 * std::abs(fit.p[HALF]);
  result.explained = 1 - fit.sumOfSquares / std::max(total, 1e-9);
  return result;
}

}  // namespace rackside
