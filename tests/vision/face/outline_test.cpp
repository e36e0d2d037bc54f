// SPDX-License-Identifier: GPL-3.0-or-later
// The outline found by itself in photographs of a quick renderer (rendered, not measured with a
// tape), seen through a camera known exactly.
#include "vision/face/outline.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/quick_scene.h"

using namespace rackside;
using namespace rackside::test;

namespace {

struct Miss {
  double worstMm = 0, worstSureMm = 0;  // of the outline found from the true one
  double unsureShare = 0;
};

Miss missOf(const QuickSceneOptions& options) {
  const QuickScene scene = renderQuickScene(options);
  ExactAdjustment adjustment({scene.camera});
  adjustment.placed = scene.cards;
  FaceViews views;
  views.adjustment = &adjustment;
  views.photos.emplace_back(scene.bgr);
  views.cardsOn = options.cardsOnBench ? CardsOn::bench : CardsOn::board;
  views.thicknessMm = options.thicknessMm;
  for (const auto& [number, pose] : scene.cards)
    views.cards.push_back(
        placedCard(number, pose, options.cardsOnBench ? -options.thicknessMm : 0.0));
  const auto found = findOutline(views);
  INFO((found ? std::string() : found.error().message));
  REQUIRE(found);
  Miss miss;
  miss.unsureShare = found->unsureShare;
  const auto& v = found->vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const Point middle = 0.5 * (v[i].at + v[(i + 1) % v.size()].at);
    const double off = distanceToBorder(scene.outline, middle);
    miss.worstMm = std::max(miss.worstMm, off);
    if (v[i].state == EdgeState::sure) miss.worstSureMm = std::max(miss.worstSureMm, off);
  }
  return miss;
}

}  // namespace

TEST_CASE("the outline is found on grounds of many kinds, and what is wrong is not sure") {
  struct Setting {
    Ground ground;
    double woodTone;
    bool sapwood, onBench;
  };
  const Setting setting = GENERATE(
      Setting{Ground::concrete, 0.1, false, false}, Setting{Ground::planks, 0.7, false, false},
      Setting{Ground::dark, 0.5, true, false}, Setting{Ground::concrete, 0.3, false, true});
  QuickSceneOptions options;
  options.size = {1600, 1200};
  options.focalPx = 1200;
  options.ground = setting.ground;
  options.woodTone = setting.woodTone;
  options.sapwood = setting.sapwood;
  options.cardsOnBench = setting.onBench;
  const Miss miss = missOf(options);
  INFO("ground " << int(setting.ground) << ", cards on the bench " << setting.onBench);
  CHECK(miss.worstSureMm <= 3);
  CHECK(miss.worstMm <= 12);
  // Without cards on it less is known of the board beforehand, and more is left to the maker.
  CHECK(miss.unsureShare <= (setting.onBench ? 0.6 : 0.2));
}
