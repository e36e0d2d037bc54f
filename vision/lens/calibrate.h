// SPDX-License-Identifier: GPL-3.0-or-later
// Works out a lens from photographs of a flat pattern: our cards, or a chessboard.
//
// Every pattern in every photograph has a pose of its own, so cards may be moved between
// photographs and need not lie on one plane. Least squares over lens and poses (Zhang, IEEE PAMI
// 22, 2000, with the radial terms of lens.h), points whitened by their sigma, Cauchy loss until the
// strays are out, covariance of the lens rescaled by the residual.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/run_control.h"
#include "core/geometry/shapes.h"
#include "vision/lens/lens.h"
#include "vision/photo/photo.h"

namespace rackside {

struct Chessboard {
  int columns = 0;  // inner corners
  int rows = 0;
  double squareMm = 0;
  Status validate() const;
};

// A flat pattern seen once.
struct PatternView {
  std::string name;  // of the photograph, shown to people
  std::vector<Point> mm;
  std::vector<cv::Point2d> px;
  std::vector<double> sigmaPx;
};

struct CalibrateOptions {
  std::optional<Chessboard> chessboard;  // empty: our cards
};

struct PhotoFit {
  std::string name;
  int points = 0;
  double rmsPx = 0;  // each coordinate
};

struct CalibrateResult {
  Lens lens;
  Exif camera;  // of the first photograph: make, model, focal length
  std::vector<PhotoFit> photos;
  double rmsPx = 0;                   // each coordinate, over all points kept
  int points = 0, strays = 0;         // kept, and left out
  std::vector<std::string> warnings;  // photographs without a pattern, too little tilt, …
};

// Fails with what to do: fewer than three photographs with a pattern, other sizes or cameras mixed,
// a lens that the photographs do not pin down.
Result<CalibrateResult> calibrateLens(const std::vector<std::filesystem::path>& photographs,
                                      const CalibrateOptions& options, RunControl& control);

// The pattern's points in one picture; none when it is not there.
std::vector<PatternView> patternViews(const cv::Mat& grey, const std::string& name,
                                      const CalibrateOptions& options);

// The adjustment alone, from points. `start` gives the size and the first guess.
Result<CalibrateResult> calibrateFromViews(const std::vector<PatternView>& views,
                                           const Lens& start);

}  // namespace rackside
