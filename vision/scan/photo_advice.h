// SPDX-License-Identifier: GPL-3.0-or-later
// What is wrong with the photographs themselves, in plain words: blur, glare, darkness, a view too
// oblique, a face seen too coarsely.
#pragma once

#include "vision/cards/card_finder.h"
#include "vision/face/face_views.h"

namespace rackside {

// `markers`: per photograph; the edges of the cards' fields tell the blur.
std::vector<std::string> photoWarnings(const FaceViews& views, const Polygon& outlinePlane,
                                       double mmPerPx, const std::vector<FoundMarkers>& markers);

}  // namespace rackside
