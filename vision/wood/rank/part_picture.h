// SPDX-License-Identifier: GPL-3.0-or-later
// The finished part as it would look, cut out of the face.
#pragma once

#include <filesystem>

#include "vision/wood/face_raster.h"
#include "vision/wood/figure_maps.h"
#include "vision/wood/rank/panel.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

// Light evened over the face; saw marks taken out where they are sure.
cv::Mat3b asPlaned(const FaceRaster& raster, const FigureMaps& maps);

// As seen when the part lies with its length across the picture: CV_8UC3, white round a free
// outline. `bgr` is of the raster's size (as rough, or as planed).
cv::Mat3b cutOut(const FaceRaster& raster, const cv::Mat3b& bgr, const Placement& place,
                 const Part& part, double mmPerPx);

// Both in one: from the newest picture of the face that the placement shows, as it might look
// planed. Fails when that picture cannot be read.
Result<cv::Mat3b> partPicture(const Board& board, const Placement& place, const Part& part,
                              const std::filesystem::path& rackFolder, double mmPerPx,
                              RunControl& control);

// A strip with either face up; `other` is empty where that is not known.
struct StripPictures {
  cv::Mat3b up, other;
};
Result<std::vector<StripPictures>> stripPictures(const std::vector<Board>& boards,
                                                 const Panel& panel,
                                                 const std::filesystem::path& rackFolder,
                                                 double mmPerPx, RunControl& control);

// One strip as it lies.
cv::Mat3b laidPicture(const std::vector<StripPictures>& strips, const LaidStrip& laid);
// A panel laid up in this order, far edge at the top.
cv::Mat3b panelPicture(const std::vector<StripPictures>& strips, const PanelOrder& order);

}  // namespace rackside
