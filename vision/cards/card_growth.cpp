// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/card_growth.h"

#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>

#include "vision/cards/sample.h"

namespace rackside {
namespace {

// The window's half side: the quiet module of 4 mm around a code, less the blur of what lies
// beyond.
constexpr double kReachMm = 3;
constexpr double kFarthestStepMm = 60;  // how far from a found saddle the next is sought
constexpr size_t kNeighbours = 8;
constexpr double kLeastExplained = 0.85;
constexpr double kLeastContrast = 15;  // grey levels

cv::Point2f narrow(cv::Point2d p) {
  return {static_cast<float>(p.x), static_cast<float>(p.y)};
}
cv::Point2f narrow(Point p) {
  return {static_cast<float>(p.x), static_cast<float>(p.y)};
}

cv::Matx33d homography(const std::vector<cv::Point2f>& from, const std::vector<cv::Point2f>& to) {
  const cv::Mat h = cv::findHomography(from, to, 0);
  return h.empty() ? cv::Matx33d::zeros() : cv::Matx33d(h);
}

size_t innerColumns(const CardModel& card) {
  return card.columnsAt.size() - 2;
}

// Indices of the four saddles round a code.
std::array<size_t, 4> saddlesRound(const CardModel& card, int codeIndex) {
  const size_t left = 2 * static_cast<size_t>(codeIndex), row = innerColumns(card);
  return {left, left + 1, row + left, row + left + 1};
}

}  // namespace

CardGrowth::CardGrowth(const cv::Mat& grey, const CardModel& card)
    : grey_(grey), card_(card), found_(card.saddles.size()) {}

size_t CardGrowth::count() const {
  return static_cast<size_t>(
      std::count_if(found_.begin(), found_.end(), [](const auto& f) { return f.has_value(); }));
}

bool CardGrowth::seed(const std::vector<ReadCode>& codes) {
  std::vector<cv::Point2f> from, to;
  for (const ReadCode& code : codes) {
    const PrintedCode& printed = card_.codes[static_cast<size_t>(cardOfCode(code.id).codeIndex)];
    for (size_t i = 0; i < 4; ++i) {
      from.push_back(narrow(printed.corners[i]));
      to.push_back(narrow(code.cornersPx[i]));
      codeCorners_.push_back({printed.corners[i], code.cornersPx[i]});
    }
  }
  const cv::Matx33d imageFromCard = homography(from, to);
  for (const ReadCode& code : codes)
    for (size_t index : saddlesRound(card_, cardOfCode(code.id).codeIndex))
      if (!found_[index]) tryFit(index, imageFromCard);
  return count() >= 3;
}

bool CardGrowth::acceptable(const SaddleFit& fit, const SaddleGuess& guess) const {
  const double mmPx = std::min(cv::norm(guess.alongX), cv::norm(guess.alongY));
  return fit.explained >= kLeastExplained && fit.contrast >= kLeastContrast &&
         cv::norm(fit.px - guess.px) <= std::max(1.2, 1.5 * mmPx);
}

bool CardGrowth::tryFit(size_t index, const cv::Matx33d& h) {
  const Point at = card_.saddles[index];
  const size_t inner = innerColumns(card_);
  SaddleGuess guess;
  guess.px = through(h, at.x, at.y);
  guess.alongX = 0.5 * (through(h, at.x + 1, at.y) - through(h, at.x - 1, at.y));
  guess.alongY = 0.5 * (through(h, at.x, at.y + 1) - through(h, at.x, at.y - 1));
  guess.reachMm = kReachMm;
  guess.darkFirst = (index / inner + 1 + index % inner + 1) % 2 == 1;
  const auto fit = fitSaddle(grey_, guess);
  if (!fit || !acceptable(*fit, guess)) return false;
  found_[index] = fit;
  return true;
}

cv::Matx33d CardGrowth::localHomography(Point mm, std::optional<size_t> without) const {
  std::vector<std::pair<double, size_t>> byDistance;
  for (size_t i = 0; i < found_.size(); ++i)
    if (found_[i] && i != without) byDistance.push_back({norm(card_.saddles[i] - mm), i});
  std::sort(byDistance.begin(), byDistance.end());
  std::vector<cv::Point2f> from, to;
  for (size_t k = 0; k < std::min(kNeighbours, byDistance.size()); ++k) {
    const size_t i = byDistance[k].second;
    from.push_back(narrow(card_.saddles[i]));
    to.push_back(narrow(found_[i]->px));
  }
  if (from.size() < kNeighbours)
    for (const auto& [cardMm, px] : codeCorners_) {
      from.push_back(narrow(cardMm));
      to.push_back(narrow(px));
    }
  return homography(from, to);
}

void CardGrowth::grow() {
  for (bool more = true; more;) {
    more = false;
    std::vector<std::pair<double, size_t>> open;
    for (size_t i = 0; i < found_.size(); ++i) {
      if (found_[i]) continue;
      double nearest = 1e9;
      for (size_t j = 0; j < found_.size(); ++j)
        if (found_[j]) nearest = std::min(nearest, norm(card_.saddles[i] - card_.saddles[j]));
      if (nearest <= kFarthestStepMm) open.push_back({nearest, i});
    }
    std::sort(open.begin(), open.end());
    for (const auto& [distance, index] : open)
      if (tryFit(index, localHomography(card_.saddles[index], std::nullopt))) more = true;
  }
  dropStrays();
}

// A saddle must lie within half a pixel of where its neighbours place it, and a little more where
// the card is large in the picture, for the lens bends it there.
void CardGrowth::dropStrays() {
  while (count() > 6) {
    double worst = 1;
    size_t worstAt = found_.size();
    for (size_t i = 0; i < found_.size(); ++i) {
      if (!found_[i]) continue;
      const Point at = card_.saddles[i];
      const cv::Matx33d h = localHomography(at, i);
      const double mmPx = cv::norm(through(h, at.x + 0.5, at.y) - through(h, at.x - 0.5, at.y));
      const double gap = cv::norm(through(h, at.x, at.y) - found_[i]->px);
      const double ratio = gap / (0.5 + 0.3 * mmPx + 4 * found_[i]->sigmaPx);
      if (ratio > worst) {
        worst = ratio;
        worstAt = i;
      }
    }
    if (worstAt == found_.size()) return;
    found_[worstAt].reset();
  }
}

cv::Point2d CardGrowth::imageOf(Point mm) const {
  return through(localHomography(mm, std::nullopt), mm.x, mm.y);
}

CardGrowth::Agreement CardGrowth::agreement() const {
  Agreement result;
  for (size_t k = 0; k < card_.codes.size(); ++k) {
    int near = 0;
    for (size_t index : saddlesRound(card_, static_cast<int>(k))) near += found_[index] ? 1 : 0;
    if (near < 3) continue;
    const PrintedCode& code = card_.codes[k];
    const Point middle = 0.5 * (code.corners[0] + code.corners[2]);
    const double m = card_.moduleMm;
    // The code's grid (modules, y down) in card millimetres (y up).
    const cv::Matx33d cardFromGrid(m, 0, code.corners[0].x, 0, -m, code.corners[0].y, 0, 0, 1);
    const auto wrong =
        wrongBitsOfCardCode(grey_, code.id, localHomography(middle, std::nullopt) * cardFromGrid);
    if (!wrong) continue;
    ++result.codes;
    result.wrongBits += *wrong;
  }
  return result;
}

}  // namespace rackside
