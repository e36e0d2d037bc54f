// SPDX-License-Identifier: GPL-3.0-or-later
// Lays a new outline of a board on the one that is stored: face B (mirrored), or a retake of face
// A.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "vision/face/outline.h"

namespace rackside {

struct FaceFit {
  cv::Matx23d planeFromBoard;  // turns over for face B
  double u95Mm = 0;            // of a place on the new face, in the board frame
  double misfitMm = 0;         // between the two outlines, root mean square of the better part
  std::string how;             // "outline", "outline and tie points", "tie points"
};

// Each pair: board frame, plane frame of the new photographs.
using TiePairs = std::vector<std::pair<Point, Point>>;

// Both ways of turning the board over are tried. Fails, asking for tie points, where the outline
// fits both ways about as well, or neither way (wane: the two outlines differ).
Result<FaceFit> registerFaceB(const Outline& faceA, const FoundOutline& found,
                              const TiePairs& ties);

// A retake of the same face: as it is, or turned end for end; fails as above unless the way round
// is known.
enum class WayRound { same, turned };
Result<FaceFit> registerRetake(const Outline& faceA, const FoundOutline& found,
                               const TiePairs& ties, std::optional<WayRound> known = {});

}  // namespace rackside
