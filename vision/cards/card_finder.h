// SPDX-License-Identifier: GPL-3.0-or-later
// Finds reference cards and board tags in a photograph.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "vision/cards/card_model.h"

namespace rackside {

struct FoundSaddle {
  int index = 0;       // into CardModel::saddles
  cv::Point2d px;      // image frame
  double sigmaPx = 0;  // one standard deviation, each coordinate
};

struct FoundCard {
  int number = 0;
  std::vector<FoundSaddle> saddles;
  std::vector<cv::Point2d> borderPx;  // the card's four outer corners, predicted
};

struct FoundTag {
  int number = 0;
  cv::Point2d cornersPx[4];
};

struct FoundMarkers {
  std::vector<FoundCard> cards;  // by number
  std::vector<FoundTag> tags;    // by number
};

// grey: CV_8UC1, image frame. Finding nothing is not an error: the lists are empty.
FoundMarkers findMarkers(const cv::Mat& grey);

}  // namespace rackside
