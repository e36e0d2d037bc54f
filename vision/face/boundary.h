// SPDX-License-Identifier: GPL-3.0-or-later
// One side of a board in a coarse picture: the path that best parts wood from what lies outside,
// found by dynamic programming over all paths at once.
//
// The picture is turned so that columns run along the side and rows run outward from the board's
// middle; both in cells of stated size.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

struct BoundaryProblem {
  double alongMm = 6;      // a cell along the side
  double acrossMm = 1.5;   // a cell across it
  cv::Mat lab;             // CV_32FC3, mean colour of each cell, OpenCV's 8-bit Lab scale
  cv::Mat usable;          // CV_8U, 0: a card in the way
  cv::Mat seen;            // CV_8U, 0: beyond the photographs
  cv::Mat evidence;        // CV_32F, > 0 wood, < 0 ground (WoodModel)
  cv::Mat roughness;       // CV_32F, the same by roughness (RoughnessModel)
  cv::Mat wallMm;          // CV_32F, width at which the side wall would show outside a cell
  std::vector<int> first;  // per column: the row from which wood is taken for granted
  // Where the side should be, by what the ends show: rows, and how much it is trusted (0..1); empty
  // when nothing is known.
  std::vector<double> expectedRow, expectedTrust;
  double stiffness = 0.3;  // cost of a step of one cell, in units of evidence
  // Of the one smooth curve that a sawn side, or an end, may follow all along: against the picture,
  // and between its ends.
  double mostSlope = 0.05, mostBendMm = 15;
};

struct BoundaryColumn {
  double row = 0;       // the border between rows row - 1 and row
  double margin = 0;    // how much dearer the best other path is, in units of evidence
  bool hidden = false;  // a card covers the place
  bool atPictureEdge = false;
};

// Whether one smooth curve tells (nearly) all of a side: no, it does and no other does, or two do.
enum class OneCurve { no, clearly, doubtful };

struct Boundary {
  std::vector<BoundaryColumn> columns;
  OneCurve sawn = OneCurve::no;
};

Boundary findBoundary(const BoundaryProblem& problem);

}  // namespace rackside
