// SPDX-License-Identifier: GPL-3.0-or-later
// How the frames of a scene hang together (scene.h).
#pragma once

#include <opencv2/core.hpp>

#include "tests/support/board_solid.h"
#include "tests/support/scene.h"

namespace rackside::synthetic {

struct Rigid {
  cv::Matx33d turn = cv::Matx33d::eye();
  cv::Vec3d move = {0, 0, 0};
  cv::Vec3d operator()(const cv::Vec3d& p) const { return turn * p + move; }
  Rigid then(const Rigid& outer) const { return {outer.turn * turn, outer(move)}; }
};

Rigid seenFromModel(const SceneSpec& scene);      // of the measured board
Rigid seenFromClutter(const PlacedBoard& board);  // of a clutter board
Rigid worldFromSeen(const SceneSpec& scene);
// Height of the seen face over the seen frame's z = 0 at x, with the bow.
double seenFaceZ(const SceneSpec& scene, double x);
// A point of a card (its own frame, mm as printed) on its upper side, in the seen frame.
cv::Vec3d seenFromCard(const SceneSpec& scene, const CardPlacement& card, const Point& onCard,
                       double cardLengthMm, double cardHeightMm);
cv::Vec3d seenFromTag(const SceneSpec& scene, const TagPlacement& tag, const Point& onTag,
                      double tagWidthMm, double tagHeightMm);

}  // namespace rackside::synthetic
