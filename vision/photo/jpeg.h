// SPDX-License-Identifier: GPL-3.0-or-later
// Decodes JPEG photographs through libjpeg, which tells what was lost: a file damaged in its middle
// decodes all the same, with blocks that are made up or out of their place.
#pragma once

#include "core/base/result.h"
#include "vision/photo/picture_file.h"

namespace rackside {

// CV_8UC3, BGR, the raster as stored. An empty picture: a form of JPEG that is left to others (four
// colours). Fails when it cannot be decoded or data was lost; the message names no file.
Result<cv::Mat> decodeJpeg(const Bytes& bytes);

}  // namespace rackside
