// SPDX-License-Identifier: GPL-3.0-or-later
// A face laid out square with the board frame, for reading the wood.
#pragma once

#include <filesystem>
#include <opencv2/core.hpp>

#include "core/base/result.h"
#include "core/wood/board.h"

namespace rackside {

// Pixel (column, row), centres at integers, shows the wood at x = origin.x + column · mmPerPx, y =
// origin.y + row · mmPerPx, board frame: rows go up across the board, so angles in the raster are
// angles in the board frame. Turn it over (cv::flip, 0) to show it as seen.
struct FaceRaster {
  cv::Mat3b bgr;
  cv::Mat1b wood;  // 255 on the board, 0 beside it
  double mmPerPx = 0;
  Point origin;

  int columnAt(double x) const { return cvRound((x - origin.x) / mmPerPx); }
  int rowAt(double y) const { return cvRound((y - origin.y) / mmPerPx); }
  Point at(double column, double row) const {
    return {origin.x + column * mmPerPx, origin.y + row * mmPerPx};
  }
};

// Resamples a picture (CV_8UC3, as Picture describes it) over the box of the outline. A finer
// picture is averaged, a coarser one interpolated.
FaceRaster layOutFace(const cv::Mat& pictureBgr, const std::array<double, 6>& boardFromPicture,
                      const Polygon& outline, double mmPerPx);

// The newest picture of the face, from the board's folder. Fails when there is none or its file
// cannot be read.
Result<FaceRaster> readFaceRaster(const Board& board, Face face,
                                  const std::filesystem::path& rackFolder, double mmPerPx);

// Fills `mask` (as the raster's size) with 255 inside the polygon.
cv::Mat1b maskOf(const FaceRaster& raster, const Polygons& polygons);

}  // namespace rackside
