// SPDX-License-Identifier: GPL-3.0-or-later
// Three ways to find a chessboard corner, on rendered cards at 0.8 mm a pixel: OpenCV's
// cornerSubPix (window a third of a code's module), a quadratic through the smoothed grey levels,
// and the fit of two blurred edges that the program uses. Prints the RMS error of each. Usage:
// saddles_benchmark [PICTURES]
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <opencv2/imgproc.hpp>

#include "tests/support/card_scene.h"
#include "vision/cards/saddle_fit.h"

using namespace rackside;
using namespace rackside::test;

namespace {

cv::Point2d project(const cv::Matx33d& h, Point mm) {
  const cv::Vec3d p = h * cv::Vec3d(mm.x, mm.y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

cv::Point2d byCornerSubPix(const cv::Mat& grey, cv::Point2d guess) {
  std::vector<cv::Point2f> corner = {guess};
  cv::cornerSubPix(grey, corner, {2, 2}, {-1, -1},
                   {cv::TermCriteria::EPS | cv::TermCriteria::COUNT, 50, 1e-3});
  return corner[0];
}

// The stationary point of a + bx + cy + dx² + exy + fy² through a window of 7 × 7 px, moved three
// times.
cv::Point2d byQuadratic(const cv::Mat1f& smooth, cv::Point2d at) {
  constexpr int reach = 3;
  for (int step = 0; step < 3; ++step) {
    const cv::Point middle(cvRound(at.x), cvRound(at.y));
    cv::Mat1d a(0, 6), b(0, 1);
    for (int dy = -reach; dy <= reach; ++dy)
      for (int dx = -reach; dx <= reach; ++dx) {
        const double x = dx, y = dy;
        a.push_back(cv::Mat(cv::Mat1d({1, 6}, {1, x, y, x * x, x * y, y * y})));
        b.push_back(double(smooth(middle.y + dy, middle.x + dx)));
      }
    cv::Mat1d k;
    cv::solve(a, b, k, cv::DECOMP_QR);
    const double det = 4 * k(3) * k(5) - k(4) * k(4);
    if (det >= 0) return at;
    const cv::Point2d move((k(4) * k(2) - 2 * k(5) * k(1)) / det,
                           (k(4) * k(1) - 2 * k(3) * k(2)) / det);
    if (cv::norm(move) > 2) return at;
    at = cv::Point2d(middle) + move;
  }
  return at;
}

struct Errors {
  double cornerSubPix = 0, quadratic = 0, edges = 0;
  int count = 0, lost = 0;
};

void addPicture(double tiltDeg, const Spoil& spoil, std::mt19937& random, Errors& errors) {
  std::uniform_real_distribution<double> unit(0, 1);
  PlaneCamera camera;
  camera.size = {420, 420};
  camera.focalPx = 3100;
  camera.tiltRad = tiltDeg * CV_PI / 180;
  camera.tiltTowardsRad = 6.28 * unit(random);
  camera.rollRad = 6.28 * unit(random);
  camera.target = {125 + unit(random), 32 + unit(random)};
  const cv::Matx33d h = camera.imageFromPlane();
  cv::Mat picture = groundPicture(Ground::wood, camera.size, random);
  paintCards(picture, h, {{1 + int(random() % 40), false, {}}}, spoil);
  spoilPicture(picture, spoil, random);
  cv::Mat smooth;
  picture.convertTo(smooth, CV_32F);
  cv::GaussianBlur(smooth, smooth, {}, 1);
  const CardModel card = cardModel(1);
  for (size_t i = 0; i < card.saddles.size(); ++i) {
    const Point mm = card.saddles[i];
    const cv::Point2d truth = project(h, mm);
    const cv::Point2d guess = truth + cv::Point2d(unit(random) - 0.5, unit(random) - 0.5);
    SaddleGuess start;
    start.px = guess;
    start.alongX = 0.5 * (project(h, {mm.x + 1, mm.y}) - project(h, {mm.x - 1, mm.y}));
    start.alongY = 0.5 * (project(h, {mm.x, mm.y + 1}) - project(h, {mm.x, mm.y - 1}));
    start.reachMm = 3;
    start.darkFirst = (i / 10 + 1 + i % 10 + 1) % 2 == 1;
    const auto fit = fitSaddle(picture, start);
    if (!fit) {
      ++errors.lost;
      continue;
    }
    const auto square = [&](cv::Point2d p) { return (p - truth).dot(p - truth); };
    errors.cornerSubPix += square(byCornerSubPix(picture, guess));
    errors.quadratic += square(byQuadratic(smooth, guess));
    errors.edges += square(fit->px);
    ++errors.count;
  }
}

}  // namespace

int main(int argc, char** argv) {
  const int pictures = argc > 1 ? std::atoi(argv[1]) : 40;
  std::printf("%-26s %8s %14s %12s %12s %5s\n", "rendered, RMS px", "corners", "cornerSubPix",
              "quadratic", "two edges", "lost");
  for (double blur : {0.7, 1.0, 1.5})
    for (double tilt : {0.0, 30.0}) {
      Spoil spoil;
      spoil.blurPx = blur;
      std::mt19937 random(5);
      Errors e;
      for (int i = 0; i < pictures; ++i) addPicture(tilt, spoil, random, e);
      const auto rms = [&](double squares) { return std::sqrt(squares / (2 * e.count)); };
      std::printf("blur %.1f px, tilt %2.0f deg     %8d %14.3f %12.3f %12.3f %5d\n", blur, tilt,
                  e.count, rms(e.cornerSubPix), rms(e.quadratic), rms(e.edges), e.lost);
    }
}
