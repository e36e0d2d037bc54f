// SPDX-License-Identifier: GPL-3.0-or-later
// The geometry of a printed reference card and of a board tag, in millimetres: one description that
// the printer draws and the detector looks for.
//
// A card is a chessboard strip of three rows. The middle row is high and holds, in every second
// column, a coded square; the outer rows are low and the columns between the codes narrow, so that
// a code of 24 mm fits on a strip three of which fit on a sheet. Only the crossings of the black
// and white fields (saddles) are measured; unequal fields cross as sharply as equal ones.
#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

// A text printed as large as fits into its box, centred, one line, plain ASCII.
struct PrintedText {
  std::string text;
  Rect box;
};

// A line of known length to lay a rule on, with a tick at each end and at every `stepMm`.
struct CheckBar {
  Segment line;  // from the first tick's middle to the last tick's middle
  double stepMm = 0;
  double tickMm = 0;       // height of a tick, upwards from the line for > 0, downwards for < 0
  double thicknessMm = 0;  // of the line and of the ticks
  std::vector<Rect> ink() const;
};

// A code: bitsAcross² modules of data inside a border of one black module.
struct PrintedCode {
  int id = 0;
  Point corners[4];  // of the black border; clockwise from the code's own top left, card frame
};

// Card frame: mm, origin at the card's lower left corner, x along its length, y up.
struct CardModel {
  int number = 0;       // 1-based, printed on the card
  double lengthMm = 0;  // outer size of the strip
  double heightMm = 0;
  double moduleMm = 0;            // of a code
  std::vector<double> columnsAt;  // x of the borders of the fields, first to last
  std::vector<double> rowsAt;     // y of the borders of the fields, three rows: four values
  std::vector<Point> saddles;     // inner chessboard corners, row by row from the lower left
  std::vector<Rect> ink;          // black rectangles: fields and code modules; none overlap
  std::vector<PrintedCode> codes;
  std::vector<CheckBar> bars;
  std::vector<PrintedText> texts;
};

inline constexpr int kLargestCardNumber = 40;
inline constexpr int kLargestTagNumber = 999;
CardModel cardModel(int number);  // 1..kLargestCardNumber, else throws

// A board tag: one code with the number below it; frame as for a card.
struct TagModel {
  int number = 0;
  double sizeMm = 0;    // outer width
  double heightMm = 0;  // outer height: the code's white square and the number below
  double moduleMm = 0;
  std::vector<Rect> ink;
  PrintedCode code;
  std::vector<PrintedText> texts;
};
TagModel tagModel(int number);  // 1..kLargestTagNumber, else throws

// Drawn upright (y down), CV_8UC1, white ground, area-averaged at the borders of the ink.
cv::Mat drawCard(const CardModel& card, double pxPerMm);
cv::Mat drawTag(const TagModel& tag, double pxPerMm);

// The card or the tag (and, for a card, which of its codes) that a code belongs to.
struct CodeOwner {
  int number = 0;
  int codeIndex = 0;
};
CodeOwner cardOfCode(int id);
inline constexpr int kCardCodeBits = 4;  // data modules across
inline constexpr int kTagCodeBits = 6;
// All modules of a code, border included: (bits + 2)² CV_8UC1, 0 black, 255 white, upright.
cv::Mat cardCodeModules(int id);
cv::Mat tagCodeModules(int id);
int cardCodeCount();
int tagCodeCount();

}  // namespace rackside
