// SPDX-License-Identifier: GPL-3.0-or-later
// How far a measured board is from the truth of a rendered scene.
//
// The outline is compared after a rigid motion that lays it on the true one: a wrong corner moves
// the board frame, which must not make every other stretch look wrong. How far that motion goes is
// scored by itself.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/wood/board.h"
#include "vision/scan/scan.h"

namespace rackside::synthetic {

struct BoardTruth {
  std::string scene;
  std::vector<std::string> files;
  Polygon outline;  // of the seen face, board frame
  double lengthMm = 0, thicknessMm = 0, cardThicknessMm = 0, bowMm = 0;
  bool onBench = false;
  Lens lens;                                      // of the first photograph, exact
  std::vector<std::pair<double, double>> widths;  // at, width
};

BoardTruth readBoardTruth(const std::filesystem::path& truthFile);
// As a maker would scan it: what was measured by hand (thickness, a bow of more than 3 mm) is
// given.
ScanOptions scanOptionsFor(const BoardTruth& truth);
// The lens as a calibration would know it: off by one draw (from the scene's name) of its stated
// spread, 0.1 % of the focal length, 2 px, 0.001 of k1.
Lens calibratedLens(const BoardTruth& truth);

struct BoardScore {
  double length = 0, lengthU = 0, lengthUTotal = 0;  // error, u95 and u95Total, mm
  double width95 = 0, widthWorst = 0, widthU = 0, widthsInside = 0, widthCount = 0;
  double shift = 0;         // of the board frame
  double outlineWorst = 0;  // farthest miss, either way
  // Shares of the outline's length; wrong: more than 3 mm off.
  double unsure = 0, bridged = 0, wrong = 0, wrongSure = 0;
  double edgesInside = 0;  // share of the sure outline within 1.96 of its own sigma
  Pose truthFromBoard;
};

BoardScore scoreBoard(const Board& board, const BoardTruth& truth);

}  // namespace rackside::synthetic
