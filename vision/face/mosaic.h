// SPDX-License-Identifier: GPL-3.0-or-later
// One picture of a face from several photographs: each place from the photograph that shows it
// best, exposures matched, joined along seams where the photographs agree best.
#pragma once

#include "vision/face/face_views.h"

namespace rackside {

// The raster's rows or columns may run any way; the photographs may cover it in any order. Where no
// photograph reaches the picture is black. Bounded memory: photographs are drawn tile by tile.
cv::Mat mosaic(FaceViews& views, const PlaneRaster& raster);

}  // namespace rackside
