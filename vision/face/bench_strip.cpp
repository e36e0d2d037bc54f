// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/bench_strip.h"

#include <algorithm>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "vision/face/board_frame.h"
#include "vision/face/line_directions.h"

namespace rackside {
namespace {

constexpr double kMmPerPx = 4;
constexpr double kReachAcrossMm = 700;  // the board lies no farther from the cards
constexpr double kRingMm = 30;          // ground about the cards
constexpr double kNarrowestMm = 40, kWidestMm = 620;
constexpr int kSlants = 14;  // directions tried to either side of the cards' own
constexpr double kSlantStepDeg = 0.5;
// From a card's middle to the board's side (of cards to both sides, the farther): free within, then
// so much a millimetre.
constexpr double kBesideMm = 90, kFarPerMm = 0.02;
constexpr double kShadowMm = 24, kBandMm = 40;  // what a strip is compared with
constexpr double kFullContrast = 12, kLightSay = 0.25, kContrastSay = 5;  // Lab, 8-bit
// A gap or a shadow makes a narrow strip with strong lines; boards are seldom so narrow.
constexpr double kUsualWidthMm = 120, kWideSay = 4;
constexpr double kBetweenCards = 3;  // cards to both sides were laid about the board
constexpr double kWindowMm = 200;    // lines are looked for over such lengths

struct Rows {
  std::vector<double> line;     // how strongly a line runs along the axis at the row's lower border
  std::vector<double> strange;  // how far the row's colour is from the ground's, 0..1
  std::vector<cv::Vec4d> sums;  // of colour and 1, from the first row to before each
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
  Rows rows{std::vector<double>(size_t(n), 0.0), std::vector<double>(size_t(n), 0.0), {}};
  rows.sums.assign(size_t(n) + 1, cv::Vec4d());
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
        rows.sums[size_t(y) + 1] += cv::Vec4d(c[0], c[1], c[2], 1);
        count[size_t(y)] += 1;
        strange += std::min(1.0, std::max(0.0, d.dot(ground.inverse * d) - 3) / 9);
      }
      if (count[size_t(y)] > 0) {
        mean[size_t(y)] /= count[size_t(y)];
        rows.strange[size_t(y)] += strange / count[size_t(y)];
      }
    }
    for (int y = 2; y + 1 < n; ++y) {
      const size_t here = size_t(y), a = here - 2, b = here + 1;
      if (count[a] < window / 3.0 || count[b] < window / 3.0) continue;
      rows.line[here] += std::min(40.0, cv::norm(mean[b] - mean[a]));
    }
  }
  for (size_t y = 1; y < rows.sums.size(); ++y) rows.sums[y] += rows.sums[y - 1];
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

cv::Vec3d colourOver(const Rows& rows, int from, int to) {
  from = std::clamp(from, 0, int(rows.sums.size()) - 1);
  to = std::clamp(to, from, int(rows.sums.size()) - 1);
  const cv::Vec4d s = rows.sums[size_t(to)] - rows.sums[size_t(from)];
  const double n = std::max(1.0, s[3]);
  return {s[0] / n, s[1] / n, s[2] / n};
}

// 0..1: how far the strip's colour is from that of what lies to either side, past its shadow.
double contrast(const Rows& rows, int a, int b) {
  const int clear = int(kShadowMm / kMmPerPx), band = int(kBandMm / kMmPerPx);
  const cv::Vec3d inside = colourOver(rows, a + 1, b - 1);
  double least = kFullContrast;
  for (const cv::Vec3d& outside : {colourOver(rows, a - clear - band, a - clear),
                                   colourOver(rows, b + clear, b + clear + band)}) {
    const cv::Vec3d d = outside - inside;
    least = std::min(least, std::sqrt(kLightSay * d[0] * d[0] + d[1] * d[1] + d[2] * d[2]));
  }
  return least / kFullContrast;
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
      double nearest = 1e9, below = 1e9, above = 1e9;
      bool over = false;
      for (int c : cardRows) {
        over |= c > a + 2 && c < b - 2;
        if (c <= a + 2) below = std::min(below, double(a - c));
        if (c >= b - 2) above = std::min(above, double(c - b));
        nearest = std::min({nearest, std::abs(double(c - a)), std::abs(double(c - b))});
      }
      if (over) continue;
      const double inside = meanOver(sums, a, b);
      // A board lies on the ground, so to either side of it is ground.
      const double outside = std::max(meanOver(sums, a - side, a), meanOver(sums, b, b + side));
      const bool between = below < 1e9 && above < 1e9;
      if (between) nearest = std::max(below, above);
      const double score = strength(a) + strength(b) + 5 * (inside - outside) +
                           kContrastSay * contrast(rows, a, b) -
                           kFarPerMm * std::max(0.0, nearest * kMmPerPx - kBesideMm) +
                           (between ? kBetweenCards : 0) +
                           kWideSay * std::min(1.0, (b - a) * kMmPerPx / kUsualWidthMm);
      if (score > best.score) best = {a, b, score};
    }
  return best;
}

// The way the cards lie, as one lays them along the board: the median of their turns.
double cardsDirection(const FaceViews& views) {
  std::vector<double> turns;
  const double first = views.cards.front().angleRad;
  for (const PlacedCard& card : views.cards) turns.push_back(wrapHalfTurn(card.angleRad - first));
  std::nth_element(turns.begin(), turns.begin() + std::ptrdiff_t(turns.size() / 2), turns.end());
  return wrapHalfTurn(first + turns[turns.size() / 2]);
}

struct Window {  // of the coarse picture, in its pixels
  int from = 0, to = 0;
};

// The picture's rows made to run at `slope` against its x axis, turned about column `about`.
CoarseFace sheared(const CoarseFace& face, double slope, double about) {
  CoarseFace out;
  const cv::Matx23d m{1, 0, 0, slope, 1, -slope * about};
  const auto turn = [&](const cv::Mat& in, cv::Mat& to) {
    cv::warpAffine(in, to, m, in.size(), cv::INTER_NEAREST | cv::WARP_INVERSE_MAP);
  };
  turn(face.bgr, out.bgr), turn(face.usable, out.usable), turn(face.seen, out.seen);
  return out;
}

struct SlantedStrip {
  Strip strip;
  double slope = 0;
};

// The best strip over all directions near that of the cards.
SlantedStrip bestSlant(const CoarseFace& face, Window window, const std::vector<Point>& cardsPx) {
  SlantedStrip best;
  cv::Mat lab;
  cv::cvtColor(face.bgr, lab, cv::COLOR_BGR2Lab);
  const Ground ground = groundAbout(face, lab);
  const double about = (window.from + window.to) / 2.0;
  for (int i = -kSlants; i <= kSlants; ++i) {
    const double slope = std::tan(i * kSlantStepDeg * std::numbers::pi / 180);
    const CoarseFace slanted = sheared(face, slope, about);
    cv::cvtColor(slanted.bgr, lab, cv::COLOR_BGR2Lab);
    std::vector<int> cardRows;
    cardRows.reserve(cardsPx.size());
    for (const Point& c : cardsPx) cardRows.push_back(int(c.y - slope * (c.x - about)));
    const Strip strip = bestStrip(readRows(slanted, lab, ground, window.from, window.to), cardRows);
    if (strip.score > best.strip.score) best = {strip, slope};
  }
  return best;
}

}  // namespace

Result<AxisGuess> guessBesideCards(FaceViews& views) {
  AxisGuess guess;
  guess.planeFromAxis = {views.cards.front().middle, cardsDirection(views)};
  const Pose toAxis = inverse(guess.planeFromAxis);
  std::vector<Point> cards;
  for (const PlacedCard& card : views.cards) cards.push_back(rackside::apply(toAxis, card.middle));
  Rect about = bounds(cards);
  if (about.width() < 300) about.x0 -= 150, about.x1 += 150;
  Rect box = seenBox(views, guess.planeFromAxis, 3500);
  box.y0 = std::max(box.y0, about.y0 - kReachAcrossMm);
  box.y1 = std::min(box.y1, about.y1 + kReachAcrossMm);
  const CoarseFace face = coarseFace(views, rasterOver(box, guess.planeFromAxis, kMmPerPx, true));
  std::vector<Point> cardsPx;
  cardsPx.reserve(cards.size());
  for (const Point& c : cards)
    cardsPx.push_back({(c.x - box.x0) / kMmPerPx, (c.y - box.y0) / kMmPerPx});
  const Window window{int((about.x0 - box.x0) / kMmPerPx), int((about.x1 - box.x0) / kMmPerPx)};
  const SlantedStrip best = bestSlant(face, window, cardsPx);
  if (best.strip.score < 1.5)
    return Error{
        "No board stands out beside the cards. Lay the cards close beside the board, on the "
        "surface it lies on, or lay them on the board and say so (cards on board)."};
  const double middle = (about.x0 + about.x1) / 2;
  const double y = box.y0 + (best.strip.from + best.strip.to) / 2.0 * kMmPerPx;
  const double inset = std::min(0.2 * about.width(), 250.0);
  const double reach = about.width() / 2 - inset, turn = std::atan(best.slope);
  const Point at = rackside::apply(guess.planeFromAxis, {middle, y});
  guess.planeFromAxis = {at, guess.planeFromAxis.angleRad + turn};
  guess.middle = {{-reach, 0}, {reach, 0}};
  return guess;
}

}  // namespace rackside
