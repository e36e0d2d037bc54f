// SPDX-License-Identifier: GPL-3.0-or-later
// Where on a board a part may lie, on a fine raster turned into the part's own direction.
#pragma once

#include <opencv2/core.hpp>

#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/wood/board.h"

namespace rackside {

// Sizes of a part as it is cut: rough (with the shop's allowances) and finished.
struct PartSizes {
  double roughLengthMm = 0, roughWidthMm = 0;
  double lengthMm = 0, widthMm = 0;
};
PartSizes sizesOf(const Part& part, const Shop& shop);

// The rough part inside the sure wood, its finished faces clear of all they may not hold: the same
// rules as the planner's (core/wood/clear_area.h), on cells of kCellMm read to the safe side.
class FreePlaces {
 public:
  static constexpr double kCellMm = 2;

  // `angleRad` of the part's length against the board's axis; `show` lies on face `showFace`.
  FreePlaces(const Board& board, const Part& part, const Shop& shop, Face showFace,
             double angleRad);

  // May the finished part's corner (its least x and y) lie at this point of the turned frame?
  bool mayLie(Point cornerTurned) const;
  // Box of the wood in the turned frame.
  const Rect& box() const { return box_; }
  Point boardFromTurned(Point p) const;
  Point turnedFromBoard(Point p) const;
  double angleRad() const { return angle_; }

 private:
  class Cells;
  void findOutside(const Board& board, const Polygon& outline, const Shop& shop);
  bool empty(const cv::Mat1i& sums, const Rect& r) const;
  double angle_ = 0;
  Rect box_;
  PartSizes sizes_;
  cv::Mat1i outside_, barred_;  // summed cells off the sure wood; barred to the finished part
};

// Why the board cannot serve for the part whatever its faces look like; empty when it may.
std::string unfitReason(const Board& board, const Part& part, const Shop& shop);

}  // namespace rackside
