// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/crayon_brush.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace rackside::test {
namespace {

using Random = std::mt19937_64;
using Path = std::vector<cv::Point2d>;

double real(Random& random, double from, double to) {
  return std::uniform_real_distribution<double>(from, to)(random);
}

// A smooth wander: a few sines with random phases.
class Wander {
 public:
  Wander(Random& random, double size, double wavelength) {
    for (double& p : phase_) p = real(random, 0, 2 * CV_PI);
    size_ = size, wavelength_ = wavelength;
  }
  double at(double s) const {
    const double t = 2 * CV_PI * s / wavelength_;
    return size_ *
           (std::sin(t + phase_[0]) + 0.5 * std::sin(2.3 * t + phase_[1]) +
            0.25 * std::sin(5.1 * t + phase_[2])) /
           1.3;
  }

 private:
  double phase_[3] = {}, size_ = 0, wavelength_ = 1;
};

cv::Point2d turned(cv::Point2d p, double angle) {
  return {p.x * std::cos(angle) - p.y * std::sin(angle),
          p.x * std::sin(angle) + p.y * std::cos(angle)};
}

Path straight(cv::Point2d from, cv::Point2d to, double wobbleMm, Random& random,
              double mostBow = 0.04) {
  const cv::Point2d way = to - from;
  const double length = cv::norm(way);
  const cv::Point2d side(-way.y / length, way.x / length);
  const Wander wander(random, wobbleMm, std::max(40.0, length * real(random, 0.5, 1.1)));
  const double bow = real(random, -mostBow, mostBow) * length;
  Path path;
  for (double s = 0; s <= length; s += 0.5) {
    const double t = s / length;
    path.push_back(from + t * way + (wander.at(s) + bow * 4 * t * (1 - t)) * side);
  }
  return path;
}

// The end of a ring overshoots the beginning or stops a little short, and never meets it squarely.
Path ringPath(const BrushStroke& b, Random& random) {
  const double flat = real(random, 0.6, 1), tilt = real(random, 0, CV_PI),
               start = real(random, 0, 2 * CV_PI), extra = real(random, -4, 25) / (b.sizeMm / 2),
               drift = real(random, -0.06, 0.06);
  const Wander wander(random, 0.03 * b.sizeMm, b.sizeMm);
  Path path;
  for (double a = 0; a <= 2 * CV_PI + extra; a += 0.5 / b.sizeMm) {
    const double r = b.sizeMm / 2 * (1 + drift * a / (2 * CV_PI)) + wander.at(a * b.sizeMm / 2);
    const cv::Point2d p(r * std::cos(start + a), flat * r * std::sin(start + a));
    path.push_back(b.middleMm + turned(p, tilt));
  }
  return path;
}

std::vector<Path> pathsOf(const BrushStroke& b, Random& random) {
  const double half = b.sizeMm / 2;
  switch (b.kind) {
    case BrushStroke::Kind::ring:
      return {ringPath(b, random)};
    case BrushStroke::Kind::line:
      return {straight(b.middleMm - cv::Point2d(half, real(random, -6, 6)),
                       b.middleMm + cv::Point2d(half, real(random, -6, 6)), 3, random, 0.012)};
    case BrushStroke::Kind::cross: {
      const double first = real(random, 0, CV_PI), second = first + real(random, 1.05, 2.1);
      std::vector<Path> paths;
      for (const double angle : {first, second}) {
        const cv::Point2d way = turned({half, 0}, angle),
                          slip(real(random, -0.1, 0.1) * half, real(random, -0.1, 0.1) * half);
        paths.push_back(straight(b.middleMm - real(random, 0.85, 1.1) * way + slip,
                                 b.middleMm + real(random, 0.85, 1.1) * way + slip, 1.5, random));
      }
      return paths;
    }
    case BrushStroke::Kind::tick: {
      // A short leg down to the bend and a long one up, as seen from any side of the board.
      const double way = real(random, 0, 2 * CV_PI), open = real(random, 0.8, 1.7),
                   shortLeg = b.sizeMm * real(random, 0.4, 0.6);
      Path path = straight(b.middleMm + turned({shortLeg, 0}, way), b.middleMm, 1, random);
      const Path up =
          straight(b.middleMm, b.middleMm + turned({b.sizeMm, 0}, way + open), 2, random);
      path.insert(path.end(), up.begin(), up.end());
      return {path};
    }
  }
  return {};
}

// sRGB of the stick, a little different from stick to stick and shop to shop.
cv::Vec3d stickColour(BrushColour colour, Random& random) {
  cv::Vec3d bgr;
  switch (colour) {
    case BrushColour::white:
      bgr = {228, 236, 238};
      break;
    case BrushColour::yellow:
      bgr = {50, 205, 240};
      break;
    case BrushColour::red:
      bgr = {48, 48, 196};
      break;
    case BrushColour::blue:
      bgr = {176, 92, 38};
      break;
  }
  for (int k = 0; k < 3; ++k) bgr[k] = std::clamp(bgr[k] + real(random, -14, 14), 0.0, 255.0);
  return bgr;
}

// Hollows of the surface, long along the grain: 0 deep, 1 high.
cv::Mat surface(cv::Size size, double mmPerPx, Random& random) {
  cv::Mat fine(size, CV_32F), broad(size, CV_32F);
  cv::RNG rng(random());
  rng.fill(fine, cv::RNG::NORMAL, 0, 1);
  rng.fill(broad, cv::RNG::NORMAL, 0, 1);
  cv::GaussianBlur(fine, fine, {}, 2.5 / mmPerPx, 0.5 / mmPerPx);
  cv::GaussianBlur(broad, broad, {}, 5 / mmPerPx, 2 / mmPerPx);
  cv::Scalar mean, spread;
  cv::meanStdDev(fine, mean, spread);
  fine /= spread[0];
  cv::meanStdDev(broad, mean, spread);
  broad /= spread[0];
  return 0.8 * fine + 0.6 * broad;
}

// How hard the stick presses at each pixel, 0..1: the stamps of its end along the path.
cv::Mat pressure(const Path& path, cv::Size size, double mmPerPx, double widthMm, Random& random) {
  cv::Mat out = cv::Mat::zeros(size, CV_32F);
  const Wander width(random, 0.22 * widthMm, 90), press(random, 0.25, 70);
  for (size_t i = 0; i < path.size(); ++i) {
    const double s = 0.5 * double(i), half = std::clamp(widthMm + width.at(s), 6.0, 15.0) / 2;
    const auto strength = static_cast<float>(std::clamp(0.8 + press.at(s), 0.35, 1.0));
    const int r = cvCeil(half / mmPerPx) + 1;
    const cv::Point2d at = path[i] / mmPerPx;
    for (int y = cvRound(at.y) - r; y <= cvRound(at.y) + r; ++y)
      for (int x = cvRound(at.x) - r; x <= cvRound(at.x) + r; ++x) {
        if (x < 0 || y < 0 || x >= size.width || y >= size.height) continue;
        const double d = std::hypot(x - at.x, y - at.y) * mmPerPx;
        const auto edge = static_cast<float>(std::clamp((half - d) / 1.0, 0.0, 1.0));
        float& p = out.at<float>(y, x);
        p = std::max(p, strength * edge);
      }
  }
  return out;
}

}  // namespace

void drawCrayon(cv::Mat& bgr, double mmPerPx, const BrushStroke& stroke, BrushColour colour,
                Random& random) {
  const cv::Vec3d stick = stickColour(colour, random);
  const double widthMm = real(random, 7, 13);
  const cv::Mat high = surface(bgr.size(), mmPerPx, random);
  for (const Path& path : pathsOf(stroke, random)) {
    const cv::Mat pressed = pressure(path, bgr.size(), mmPerPx, widthMm, random);
    for (int y = 0; y < bgr.rows; ++y)
      for (int x = 0; x < bgr.cols; ++x) {
        const float p = pressed.at<float>(y, x);
        if (p <= 0) continue;
        // Wax stays on what stands out; pressed hard it gets into the hollows too.
        const double wax = std::clamp(1.9 * p - 0.75 + 0.32 * high.at<float>(y, x), 0.0, 0.95);
        cv::Vec3b& pixel = bgr.at<cv::Vec3b>(y, x);
        // The wood's own light and shade shows through a little.
        const double shade = 0.85 + 0.15 * (pixel[0] + pixel[1] + pixel[2]) / 420.0;
        for (int k = 0; k < 3; ++k)
          pixel[k] = cv::saturate_cast<uint8_t>((1 - wax) * pixel[k] +
                                                wax * std::min(255.0, shade * stick[k]));
      }
  }
}

}  // namespace rackside::test
