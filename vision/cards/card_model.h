// SPDX-License-Identifier: GPL-3.0-or-later
// The geometry of a printed reference card and of a board tag, in millimetres: one description that
// the printer draws and the detector looks for.
#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

// Card frame: mm, origin at the card's lower left corner, x along its length, y up.
struct CardModel {
  int number = 0;       // 1-based, printed on the card
  double lengthMm = 0;  // outer size of the strip
  double heightMm = 0;
  double squareMm = 0;
  int columns = 0;             // squares along
  int rows = 0;                // squares across, odd
  std::vector<Point> saddles;  // inner chessboard corners, row by row from the lower left
  std::vector<Rect> ink;       // black rectangles: squares and code modules
  struct Code {
    int id = 0;
    Point corners[4];  // clockwise from the code's own top left, card frame
  };
  std::vector<Code> codes;
};

inline constexpr int kLargestCardNumber = 40;
inline constexpr int kLargestTagNumber = 999;
CardModel cardModel(int number);  // 1..kLargestCardNumber

// A board tag: square, one code; frame as for a card.
struct TagModel {
  int number = 0;
  double sizeMm = 0;  // outer
  double codeMm = 0;  // the black square of the code
  std::vector<Rect> ink;
  Point corners[4];
};
TagModel tagModel(int number);  // 1..kLargestTagNumber

// Drawn upright (y down), white ground, area-averaged at the borders of the ink.
cv::Mat drawCard(const CardModel& card, double pxPerMm);
cv::Mat drawTag(const TagModel& tag, double pxPerMm);

}  // namespace rackside
