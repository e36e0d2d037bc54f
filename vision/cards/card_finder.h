// SPDX-License-Identifier: GPL-3.0-or-later
// Finds reference cards and board tags in a photograph.
//
// One code read is enough to know a card: its saddles are predicted from the code, fitted, and the
// prediction grows outwards from the saddles found, so that bent paper and lens distortion are
// followed. A card is believed when four saddles round a code are found where the card has them and
// the bits of all its visible codes agree.
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
  // The card's four outer corners, predicted; clockwise from its top left, maybe out of the
  // picture.
  std::vector<cv::Point2d> borderPx;
};

struct FoundTag {
  int number = 0;
  cv::Point2d cornersPx[4];  // of the code's black border, as TagModel::code.corners
};

struct FoundMarkers {
  std::vector<FoundCard> cards;  // by number; a number twice: two prints of one card are in view
  std::vector<FoundTag> tags;    // by number
};

// grey: CV_8UC1, image frame. Finding nothing is not an error: the lists are empty.
FoundMarkers findMarkers(const cv::Mat& grey);

}  // namespace rackside
