// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/register_face.h"

#include <catch2/catch.hpp>

namespace rackside {
namespace {

// A board that tapers: it fits its own mirror picture one way only.
Outline taperedBoard() {
  Outline outline;
  for (const Point& p : Polygon{{0, 0}, {1000, 10}, {1000, 150}, {0, 190}})
    outline.vertices.push_back({p, 0.2, EdgeState::sure});
  return outline;
}

FoundOutline seenTurnedOver(const Outline& board, const Pose& planeFromMirrored) {
  FoundOutline found;
  for (auto v = board.vertices.rbegin(); v != board.vertices.rend(); ++v)
    found.vertices.push_back(
        {rackside::apply(planeFromMirrored, Point{v->at.x, -v->at.y}), v->sigmaMm, v->state});
  found.axisAngleRad = planeFromMirrored.angleRad;
  return found;
}

}  // namespace

TEST_CASE("face B is laid on face A, mirrored", "[register]") {
  const Outline a = taperedBoard();
  const Pose plane{{300, -40}, 0.3};
  const auto fit = registerFaceB(a, seenTurnedOver(a, plane), {});
  REQUIRE(fit.ok());
  const Point mark{700, 60};  // a place in the wood, board frame
  const cv::Vec2d at = fit->planeFromBoard * cv::Vec3d(mark.x, mark.y, 1);
  const Point expected = rackside::apply(plane, Point{mark.x, -mark.y});
  CHECK(norm(Point{at[0], at[1]} - expected) < 0.5);
  CHECK(fit->how == "outline");
}

TEST_CASE("a board that fits either way round asks for tie points", "[register]") {
  Outline a;
  for (const Point& p : Polygon{{0, 0}, {900, 0}, {900, 150}, {0, 150}})
    a.vertices.push_back({p, 0.2, EdgeState::sure});
  const auto fit = registerFaceB(a, seenTurnedOver(a, {{0, 0}, 0}), {});
  REQUIRE_FALSE(fit.ok());
  CHECK(fit.error().message.find("through knot") != std::string::npos);
}

}  // namespace rackside
