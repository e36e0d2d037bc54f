// SPDX-License-Identifier: GPL-3.0-or-later
// From one code to all saddles of its card.
#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "vision/cards/card_model.h"
#include "vision/cards/code_reader.h"
#include "vision/cards/saddle_fit.h"

namespace rackside {

class CardGrowth {
 public:
  CardGrowth(const cv::Mat& grey, const CardModel& card);

  // Fits the four saddles round each of these codes, which lie on one card: together they place
  // them far better than one small code does. False when fewer than three are there.
  bool seed(const std::vector<ReadCode>& codes);
  // Takes in further saddles, nearest first, until no more are found; then drops those that do not
  // lie where their neighbours say.
  void grow();

  const std::vector<std::optional<SaddleFit>>& saddles() const { return found_; }
  size_t count() const;
  // The picture's place of a card point, from the saddles near it.
  cv::Point2d imageOf(Point mm) const;
  // Of the codes with at least three of their saddles: how many there are, and their wrong bits.
  struct Agreement {
    int codes = 0;
    int wrongBits = 0;
  };
  Agreement agreement() const;

 private:
  cv::Matx33d localHomography(Point mm, std::optional<size_t> without) const;
  bool tryFit(size_t index, const cv::Matx33d& imageFromCard);
  bool acceptable(const SaddleFit& fit, const SaddleGuess& guess) const;
  void dropStrays();

  const cv::Mat& grey_;
  const CardModel& card_;
  std::vector<std::optional<SaddleFit>> found_;
  std::vector<std::pair<Point, cv::Point2d>> codeCorners_;
};

}  // namespace rackside
