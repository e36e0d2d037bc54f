// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_pose.h"

#include <cmath>

namespace rackside::synthetic {
namespace {

constexpr double kDegree = 3.14159265358979323846 / 180;
constexpr double kTagPaperMm = 0.2;

Point turned(const Point& p, double angleDeg) {
  const double a = angleDeg * kDegree;
  return {p.x * std::cos(a) - p.y * std::sin(a), p.x * std::sin(a) + p.y * std::cos(a)};
}

}  // namespace

Rigid seenFromModel(const SceneSpec& scene) {
  if (scene.face != "B") return {};
  const BoardShape& b = scene.board.shape;
  return {cv::Matx33d(1, 0, 0, 0, -1, 0, 0, 0, -1), {0, b.widthMm, b.thicknessMm}};
}

Rigid seenFromClutter(const PlacedBoard& board) {
  const double a = board.yawDeg * kDegree;
  return {cv::Matx33d(std::cos(a), -std::sin(a), 0, std::sin(a), std::cos(a), 0, 0, 0, 1),
          {board.x, board.y, board.z}};
}

Rigid worldFromSeen(const SceneSpec& scene) {
  const double c = std::cos(scene.leanDeg * kDegree);
  const double s = std::sin(scene.leanDeg * kDegree);
  if (scene.place == "edge") return {cv::Matx33d(1, 0, 0, 0, c, -s, 0, s, c), {0, 0, 0}};
  if (scene.place == "upright") return {cv::Matx33d(0, -1, 0, c, 0, -s, s, 0, c), {0, 0, 0}};
  return {};
}

double seenFaceZ(const SceneSpec& scene, double x) {
  const BoardShape& b = scene.board.shape;
  return scene.face == "B" ? b.thicknessMm - bowAt(b, x) : b.thicknessMm + bowAt(b, x);
}

cv::Vec3d seenFromCard(const SceneSpec& scene, const CardPlacement& card, const Point& onCard,
                       double cardLengthMm, double cardHeightMm) {
  const Point local = scene.cardScale * (onCard - Point{0.5 * cardLengthMm, 0.5 * cardHeightMm});
  const Point d = turned(local, card.angleDeg);
  const bool onBench = card.on == "bench";
  const double x = card.x + d.x;
  // A card follows the bow as a straight piece: the height of the face at its middle, and its
  // slope.
  const double z0 = onBench ? 0 : seenFaceZ(scene, card.x);
  const double slope =
      onBench ? 0 : (seenFaceZ(scene, card.x + 1) - seenFaceZ(scene, card.x - 1)) / 2;
  return {x, card.y + d.y, z0 + slope * d.x + scene.cardThicknessMm};
}

cv::Vec3d seenFromTag(const SceneSpec& scene, const TagPlacement& tag, const Point& onTag,
                      double tagWidthMm, double tagHeightMm) {
  const Point d = turned(onTag - Point{0.5 * tagWidthMm, 0.5 * tagHeightMm}, tag.angleDeg);
  return {tag.x + d.x, tag.y + d.y, seenFaceZ(scene, tag.x + d.x) + kTagPaperMm};
}

}  // namespace rackside::synthetic
