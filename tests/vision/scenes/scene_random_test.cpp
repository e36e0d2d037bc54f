// SPDX-License-Identifier: GPL-3.0-or-later
// Random scenes must be fair: every card whole in some photograph and on the wood it lies on, no
// board inside another, the board whole in the pictures.
#include "tests/support/scene_random.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/scene_camera.h"
#include "tests/support/scene_pose.h"
#include "vision/cards/card_model.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

bool inPicture(const CameraSpec& c, const cv::Point2d& p) {
  const double border = 4;
  return p.x > border && p.y > border && p.x < c.widthPx - border && p.y < c.heightPx - border;
}

std::vector<cv::Vec3d> cardCorners(const SceneSpec& s, const CardPlacement& card) {
  const CardModel m = cardModel(card.number);
  std::vector<cv::Vec3d> corners;
  for (const Point& p : {Point{0, 0}, {m.lengthMm, 0}, {m.lengthMm, m.heightMm}, {0, m.heightMm}}) {
    corners.push_back(seenFromCard(s, card, p, m.lengthMm, m.heightMm));
  }
  return corners;
}

class Pictures {
 public:
  explicit Pictures(const SceneSpec& s) : cameras_(s.cameras) {
    for (const CameraSpec& c : cameras_) poses_.push_back(solveCamera(c, s.board.shape));
  }
  bool showWhole(const std::vector<cv::Vec3d>& points) const {
    for (size_t i = 0; i < cameras_.size(); ++i) {
      if (std::all_of(points.begin(), points.end(), [&](const cv::Vec3d& p) {
            return inPicture(cameras_[i], projectPoint(cameras_[i], poses_[i], p));
          })) {
        return true;
      }
    }
    return false;
  }

 private:
  std::vector<CameraSpec> cameras_;
  std::vector<CameraPose> poses_;
};

double overlapMm2(const SceneSpec& s, const PlacedBoard& clutter) {
  const Rigid pose = seenFromClutter(clutter);
  Polygon other;
  for (const Point& p : boardSolid(clutter.shape).outlineA) {
    const cv::Vec3d q = pose({p.x, p.y, 0});
    other.push_back({q[0], q[1]});
  }
  return area(intersect({boardSolid(s.board.shape).outlineA}, {other}));
}

}  // namespace

TEST_CASE("random scenes are fair to whoever measures them") {
  for (const SceneCase kind : allSceneCases()) {
    for (uint32_t seed = 1; seed <= 6; ++seed) {
      const SceneSpec s = randomScene(kind, seed);
      CAPTURE(s.name);
      const Pictures pictures(s);
      const BoardSolid solid = boardSolid(s.board.shape);
      const Polygon& outline = solid.outlineA;  // all random scenes show face A
      for (const CardPlacement& card : s.cards) {
        const auto corners = cardCorners(s, card);
        CHECK(pictures.showWhole(corners));
        for (const cv::Vec3d& c : corners) {
          CHECK(contains(outline, {c[0], c[1]}) == (card.on == "board"));
        }
      }
      for (const PlacedBoard& clutter : s.clutter) CHECK(overlapMm2(s, clutter) == 0);
      for (const Point& p : outline) {
        const std::vector<cv::Vec3d> arris{{p.x, p.y, seenFaceZ(s, p.x)}};
        if (!pictures.showWhole(arris)) {
          FAIL_CHECK("the outline leaves the pictures at x = " << p.x << ", y = " << p.y);
          break;
        }
      }
    }
  }
}

TEST_CASE("one seed, one scene") {
  const nlohmann::json a = randomScene(SceneCase::threeCardsRough, 5);
  const nlohmann::json b = randomScene(SceneCase::threeCardsRough, 5);
  const nlohmann::json c = randomScene(SceneCase::threeCardsRough, 6);
  CHECK(a == b);
  CHECK(a != c);
  // And through its description on disk.
  CHECK(nlohmann::json(a.get<SceneSpec>()) == a);
}
