// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/bench_strip.h"

#include <algorithm>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "vision/face/line_directions.h"

namespace rackside {
namespace {

constexpr double kMmPerPx = 4;
constexpr double kReachAcrossMm = 700;  // the board lies no farther from the cards
constexpr double kRingMm = 30;          // ground about the cards
constexpr double kNarrowestMm = 40, kWidestMm = 620;
constexpr double kWindowMm = 200;  // lines are looked for over such lengths

struct Rows {
  std::vector<double> line;     // how strongly a line runs along the axis at the row's lower border
  std::vector<double> strange;  // how far the row's colour is from the ground's, 0..1
};

struct Ground {
  cv::Vec3d mean;
  cv::Matx33d inverse;
};

Ground groundAbout(const CoarseFace& face, const cv::Mat& lab) {
  cv::Mat cards = (face.usable == 0) & face.seen, ring;
  const int r = int(kRingMm / kMmPerPx);
  cv::dilate(cards, ring, cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * r + 1, 2 * r + 1}));
  ring &= face.usable;
  cv::Mat samples, covar, mean;
  std::vector<cv::Vec3f> list;
  for (int y = 0; y < lab.rows; ++y)
    for (int x = 0; x < lab.cols; ++x)
      if (ring.at<uchar>(y, x)) list.push_back(lab.at<cv::Vec3b>(y, x));
  if (list.size() < 30) return {{128, 128, 128}, cv::Matx33d::eye() * 1e-3};
  samples = cv::Mat(int(list.size()), 3, CV_32F, list.data());
  cv::calcCovarMatrix(samples, covar, mean, cv::COVAR_NORMAL | cv::COVAR_ROWS | cv::COVAR_SCALE,
                      CV_64F);
  cv::Matx33d c;
  for (int i = 0; i < 9; ++i) c.val[i] = covar.at<double>(i / 3, i % 3) + (i % 4 == 0 ? 9 : 0);
  return {{mean.at<double>(0), mean.at<double>(1), mean.at<double>(2)}, c.inv()};
}

// Window by window along the axis, so that a step that changes sign along the board still counts.
Rows readRows(const CoarseFace& face, const cv::Mat& lab, const Ground& ground, int from, int to) {
  const int window = int(kWindowMm / kMmPerPx), n = lab.rows;
  Rows rows{std::vector<double>(size_t(n), 0.0), std::vector<double>(size_t(n), 0.0)};
  int windows = 0;
  for (int x0 = from; x0 + window / 2 <= to; x0 += window, ++windows) {
    std::vector<cv::Vec3d> mean(static_cast<size_t>(n));
    std::vector<double> count(size_t(n), 0.0);
    for (int y = 0; y < n; ++y) {
      double strange = 0;
      for (int x = x0; x < std::min(lab.cols, x0 + window); ++x) {
        if (!face.usable.at<uchar>(y, x)) continue;
        const cv::Vec3d c = lab.at<cv::Vec3b>(y, x), d = c - ground.mean;
        mean[size_t(y)] += c;
        count[size_t(y)] += 1;
        strange += std::min(1.0, std::max(0.0, d.dot(ground.inverse * d) - 3) / 9);
      }
      if (count[size_t(y)] > 0) {
        mean[size_t(y)] /= count[size_t(y)];
        rows.strange[size_t(y)] += strange / count[size_t(y)];
      }
    }
    for (int y = 2; y + 1 < n; ++y) {
      const size_t a = size_t(y - 2), b = size_t(y + 1);
      if (count[a] < window / 3.0 || count[b] < window / 3.0) continue;
      rows.line[size_t(y)] += std::min(40.0, cv::norm(mean[b] - mean[a]));
    }
  }
  for (double& v : rows.strange) v /= std::max(1, windows);
  for (double& v : rows.line) v /= std::max(1, windows);
  return rows;
}

struct Strip {
  int from = 0, to = 0;
  double score = -1e9;
};

double meanOver(const std::vector<double>& sums, int from, int to) {
  from = std::clamp(from, 0, int(sums.size()) - 1);
  to = std::clamp(to, 0, int(sums.size()) - 1);
  return to > from ? (sums[size_t(to)] - sums[size_t(from)]) / (to - from) : 0;
}

Strip bestStrip(const Rows& rows, const std::vector<int>& cardRows) {
  const int n = int(rows.line.size());
  std::vector<double> sums(size_t(n) + 1, 0.0), sorted = rows.line;
  for (int y = 0; y < n; ++y) sums[size_t(y) + 1] = sums[size_t(y)] + rows.strange[size_t(y)];
  std::nth_element(sorted.begin(), sorted.begin() + n * 3 / 4, sorted.end());
  const double usual = std::max(1.0, sorted[size_t(n * 3 / 4)]);
  const auto strength = [&](int y) { return std::min(3.0, rows.line[size_t(y)] / usual); };
  Strip best;
  const int side = int(60 / kMmPerPx);
  for (int a = 2; a < n; ++a)
    for (int b = a + int(kNarrowestMm / kMmPerPx); b < std::min(n, a + int(kWidestMm / kMmPerPx));
         ++b) {
      double nearest = 1e9;
      bool over = false;
      for (int c : cardRows) {
        over |= c > a + 2 && c < b - 2;
        nearest = std::min({nearest, std::abs(double(c - a)), std::abs(double(c - b))});
      }
      if (over) continue;
      const double inside = meanOver(sums, a, b);
      const double outside = (meanOver(sums, a - side, a) + meanOver(sums, b, b + side)) / 2;
      const double score =
          strength(a) + strength(b) + 5 * (inside - outside) - 0.002 * kMmPerPx * nearest;
      if (score > best.score) best = {a, b, score};
    }
  return best;
}

double directionOf(const FaceViews& views, const CoarseFace& face) {
  const auto middles = cardMiddles(views);
  const auto [a, b] = farthestPair(middles);
  const bool wide = norm(b - a) > 400;
  const double expected = wide ? std::atan2((b - a).y, (b - a).x) : views.cards.front().angleRad;
  cv::Mat clear;
  cv::erode(face.usable, clear, cv::Mat::ones(7, 7, CV_8U));
  return peakDirection(lineDirections(face, clear), expected, wide ? 0.12 : 0.2, 0.85);
}

}  // namespace

Result<AxisGuess> guessBesideCards(FaceViews& views, const CoarseFace& level) {
  AxisGuess guess;
  guess.planeFromAxis = {views.cards.front().middle, directionOf(views, level)};
  Rect box = seenBox(views, guess.planeFromAxis, 3500);
  const double c = std::cos(guess.planeFromAxis.angleRad),
               s = std::sin(guess.planeFromAxis.angleRad);
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  const auto inAxis = [&](Point p) {
    const Point d = p - guess.planeFromAxis.origin;
    return Point{c * d.x + s * d.y, -s * d.x + c * d.y};
  };
  std::vector<double> cardY;
  for (const PlacedCard& card : views.cards) {
    const Point m = inAxis(card.middle);
    x0 = std::min(x0, m.x), x1 = std::max(x1, m.x), y0 = std::min(y0, m.y), y1 = std::max(y1, m.y);
    cardY.push_back(m.y);
  }
  if (x1 - x0 < 300) x0 -= 150, x1 += 150;
  box.y0 = std::max(box.y0, y0 - kReachAcrossMm);
  box.y1 = std::min(box.y1, y1 + kReachAcrossMm);
  CoarseFace face = coarseFace(views, rasterOver(box, guess.planeFromAxis, kMmPerPx, true));
  cv::Mat lab;
  cv::cvtColor(face.bgr, lab, cv::COLOR_BGR2Lab);
  std::vector<int> cardRows;
  for (double y : cardY) cardRows.push_back(int((y - box.y0) / kMmPerPx));
  const Rows rows = readRows(face, lab, groundAbout(face, lab), int((x0 - box.x0) / kMmPerPx),
                             int((x1 - box.x0) / kMmPerPx));
  const Strip strip = bestStrip(rows, cardRows);
  if (strip.score < 1.5)
    return Error{
        "No board stands out beside the cards. Lay the cards close beside the board, on the "
        "surface "
        "it lies on, or lay them on the board and say so (cards on board)."};
  const double y = box.y0 + (strip.from + strip.to) / 2.0 * kMmPerPx;
  const double inset = std::min(0.2 * (x1 - x0), 250.0);
  guess.middle = {{x0 + inset, y}, {x1 - inset, y}};
  return guess;
}

}  // namespace rackside
