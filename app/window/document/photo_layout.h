// SPDX-License-Identifier: GPL-3.0-or-later
// Whether two photographs of one tag show one face: cards and tag lie as before, or they were laid
// out anew, as after turning the board over.
#pragma once

#include <array>
#include <map>

#include "vision/cards/card_finder.h"

namespace rackside {

// Corners of each tag and card that is in view once, image frame.
struct MarkerLayout {
  std::map<int, std::array<cv::Point2d, 4>> tags, cards;
};
MarkerLayout layoutOf(const FoundMarkers& markers);

enum class SameLayout { yes, no, unknown };
// Unknown where they share too little: the tag alone, or nothing.
SameLayout sameLayout(const MarkerLayout& a, const MarkerLayout& b);

}  // namespace rackside
