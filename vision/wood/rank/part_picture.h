// SPDX-License-Identifier: GPL-3.0-or-later
// The finished part as it would look, cut out of the face.
#pragma once

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

// A panel laid up in this order, far edge at the top. `cuts`: the
// strips' own pictures (cutOut), as Panel::strips.
cv::Mat3b panelPicture(const std::vector<cv::Mat3b>& cuts, const PanelOrder& order);

}  // namespace rackside
