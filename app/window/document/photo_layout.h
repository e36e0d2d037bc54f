// SPDX-License-Identifier: GPL-3.0-or-later
// Whether two photographs of one tag show one face: the cards lie as before, or they were laid out
// anew, as after turning the board over. (The tag tells nothing: along a board photographed in
// stretches it is moved with the camera.)
#pragma once

#include <array>
#include <map>

#include "vision/cards/card_finder.h"

namespace rackside {

// Corners of each card that is in view once, image frame.
using CardLayout = std::map<int, std::array<cv::Point2d, 4>>;
CardLayout layoutOf(const FoundMarkers& markers);

// walksOn: one card joins two stretches that otherwise show different cards. unknown: they share
// none, or only one and show no other.
enum class SameLayout { yes, walksOn, no, unknown };
SameLayout sameLayout(const CardLayout& a, const CardLayout& b);

}  // namespace rackside
