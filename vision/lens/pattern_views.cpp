// SPDX-License-Identifier: GPL-3.0-or-later
// Finding the points of calibration patterns in a picture.
#include <algorithm>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "vision/cards/card_finder.h"
#include "vision/cards/saddle_fit.h"
#include "vision/cards/sample.h"
#include "vision/lens/calibrate.h"

namespace rackside {
namespace {

constexpr int kSearchLongSidePx = 1600;  // the chessboard search is slow on large pictures

std::vector<PatternView> cardViews(const cv::Mat& grey, const std::string& name) {
  std::vector<PatternView> views;
  for (const FoundCard& card : findMarkers(grey).cards) {
    if (card.saddles.size() < 8) continue;
    const CardModel model = cardModel(card.number);
    PatternView view;
    view.name = name;
    for (const FoundSaddle& saddle : card.saddles) {
      view.mm.push_back(model.saddles[static_cast<size_t>(saddle.index)]);
      view.px.push_back(saddle.px);
      view.sigmaPx.push_back(saddle.sigmaPx);
    }
    views.push_back(view);
  }
  return views;
}

std::vector<cv::Point2f> roughCorners(const cv::Mat& grey, cv::Size pattern) {
  const double reduction =
      std::max(1.0, std::max(grey.cols, grey.rows) / double(kSearchLongSidePx));
  cv::Mat small = grey;
  if (reduction > 1) cv::resize(grey, small, {}, 1 / reduction, 1 / reduction, cv::INTER_AREA);
  std::vector<cv::Point2f> corners;
  const int flags = cv::CALIB_CB_ADAPTIVE_THRESH | cv::CALIB_CB_NORMALIZE_IMAGE;
  if (!cv::findChessboardCorners(small, pattern, corners, flags)) return {};
  const float x = float(grey.cols) / float(small.cols), y = float(grey.rows) / float(small.rows);
  for (cv::Point2f& p : corners) p = {(p.x + 0.5f) * x - 0.5f, (p.y + 0.5f) * y - 0.5f};
  return corners;
}

// Corner (column, row) of the grid of corners, continued by one step beyond its borders.
cv::Point2d stepAt(const std::vector<cv::Point2f>& corners, const Chessboard& board, int column,
                   int row, cv::Point step) {
  const auto at = [&](int c, int r) {
    return cv::Point2d(corners[static_cast<size_t>(r * board.columns + c)]);
  };
  const int c0 = std::clamp(column - step.x, 0, board.columns - 1);
  const int c1 = std::clamp(column + step.x, 0, board.columns - 1);
  const int r0 = std::clamp(row - step.y, 0, board.rows - 1);
  const int r1 = std::clamp(row + step.y, 0, board.rows - 1);
  return (at(c1, r1) - at(c0, r0)) / double(c1 - c0 + r1 - r0);
}

std::optional<SaddleFit> fitCorner(const cv::Mat& grey, const std::vector<cv::Point2f>& corners,
                                   const Chessboard& board, int column, int row) {
  SaddleGuess guess;
  guess.px = corners[static_cast<size_t>(row * board.columns + column)];
  guess.alongX = stepAt(corners, board, column, row, {1, 0}) / board.squareMm;
  guess.alongY = stepAt(corners, board, column, row, {0, 1}) / board.squareMm;
  guess.reachMm = 0.4 * board.squareMm;
  // Which field is black is not known: the wrong guess finds no such corner.
  for (bool dark : {false, true}) {
    guess.darkFirst = dark;
    const auto fit = fitSaddle(grey, guess);
    if (fit && fit->explained > 0.8) return fit;
  }
  return std::nullopt;
}

std::vector<PatternView> chessboardViews(const cv::Mat& grey, const std::string& name,
                                         const Chessboard& board) {
  const auto corners = roughCorners(grey, {board.columns, board.rows});
  if (corners.empty()) return {};
  PatternView view;
  view.name = name;
  for (int r = 0; r < board.rows; ++r)
    for (int c = 0; c < board.columns; ++c)
      if (const auto fit = fitCorner(grey, corners, board, c, r)) {
        view.mm.push_back({c * board.squareMm, r * board.squareMm});
        view.px.push_back(fit->px);
        view.sigmaPx.push_back(fit->sigmaPx);
      }
  if (view.px.size() < 8) return {};
  return {view};
}

}  // namespace

Status Chessboard::validate() const {
  if (columns < 3 || rows < 3)
    return Error{
        "a chessboard needs at least 3 × 3 inner corners; count the corners where four "
        "squares meet"};
  if (!(squareMm > 0)) return Error{"give the side of a chessboard square"};
  return success();
}

std::vector<PatternView> patternViews(const cv::Mat& grey, const std::string& name,
                                      const CalibrateOptions& options) {
  return options.chessboard ? chessboardViews(grey, name, *options.chessboard)
                            : cardViews(grey, name);
}

}  // namespace rackside
