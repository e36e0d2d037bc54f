// SPDX-License-Identifier: GPL-3.0-or-later
// Orders of strips whose edges are given by hand, so that the best is plain.
#include "vision/wood/rank/panel.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

PanelStrip strip(double near, double far) {
  PanelStrip s{};
  s.near.lightness.fill(near);
  s.far.lightness.fill(far);
  return s;
}

}  // namespace

TEST_CASE("strips that shade from dark to light are laid in that order") {
  Panel panel;
  // Light edges 0.0-0.1, 0.2-0.1 (turned, it goes on from the first) and 0.2-0.3.
  panel.strips = {strip(0.2, 0.3), strip(0.2, 0.1), strip(0.0, 0.1)};
  const auto orders = bestOrders(panel, 3);
  REQUIRE(orders.size() == 3);
  CHECK(orders[0].cost == Approx(0).margin(1e-9));
  const std::vector<LaidStrip> upwards{{2, false}, {1, true}, {0, false}};
  const std::vector<LaidStrip> downwards{{0, true}, {1, false}, {2, true}};
  CHECK((orders[0].strips == upwards || orders[0].strips == downwards));
  CHECK(orders[1].cost > orders[0].cost);
  CHECK(orders[2].cost >= orders[1].cost);
}

TEST_CASE("a strip turned end for end meets its neighbour with its other edge, reversed") {
  Panel panel;
  panel.strips = {strip(0, 0), strip(0, 0)};
  for (int i = 0; i < StripEdge::kStretches; ++i) {
    panel.strips[0].far.lightness[size_t(i)] = 0.01 * i;
    panel.strips[1].far.lightness[size_t(i)] = 0.01 * (StripEdge::kStretches - 1 - i);
  }
  // The second one's far edge, read from its other end, is the first one's.
  CHECK(judgedOrder(panel, {{0, false}, {1, true}}).cost == Approx(0).margin(1e-9));
  CHECK(judgedOrder(panel, {{0, false}, {1, false}}).cost > 0.1);
}

TEST_CASE("a strip is turned over where its other face matches better, and only where it may be") {
  Panel panel;
  panel.strips = {strip(0.1, 0.1), strip(0.4, 0.4)};
  CHECK(bestOrders(panel, 1).at(0).cost == Approx(2 * Seam{0.3, 0}.cost()));
  StripFace other;
  other.near.lightness.fill(0.1);
  other.far.lightness.fill(0.7);
  panel.strips[1].other = other;
  const auto orders = bestOrders(panel, 5);
  CHECK(orders.at(0).cost == Approx(0).margin(1e-9));
  for (const LaidStrip& s : orders[0].strips) CHECK(s.over == (s.strip == 1));
  for (const PanelOrder& o : orders)
    for (const LaidStrip& s : o.strips) CHECK_FALSE((s.over && s.strip == 0));
}

// Against plain trying of every order and way.
TEST_CASE("sapwood is kept to the outer edges, before all matching") {
  Panel panel;
  // By lightness alone 0, 1, 2 would be laid as they are; but the middle one has sapwood.
  panel.strips = {strip(0.0, 0.1), strip(0.1, 0.2), strip(0.2, 0.3)};
  panel.strips[1].far.sapwood = true;
  const PanelOrder best = bestOrders(panel, 1).front();
  for (const Seam& seam : best.seams) CHECK_FALSE(seam.sapwood);
  CHECK((best.strips.front() == LaidStrip{1, true, false} ||
         best.strips.back() == LaidStrip{1, false, false}));
}

TEST_CASE("no order of strips is better than the first of the best") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> draw(0, 0.4);
  for (int round = 0; round < 6; ++round) {
    Panel panel;
    for (int i = 0; i < 4; ++i) {
      panel.strips.push_back(strip(draw(random), draw(random)));
      if (i % 2 == round % 2) panel.strips.back().other = strip(draw(random), draw(random));
    }
    std::vector<int> sequence{0, 1, 2, 3};
    double least = 1e9;
    do {
      for (int way = 0; way < 256; ++way) {
        std::vector<LaidStrip> strips;
        bool possible = true;
        for (int i = 0; i < 4; ++i) {
          const LaidStrip s{sequence[size_t(i)], (way >> 2 * i & 1) != 0, (way >> 2 * i & 2) != 0};
          possible = possible && (!s.over || panel.strips[size_t(s.strip)].other);
          strips.push_back(s);
        }
        if (possible) least = std::min(least, judgedOrder(panel, strips).cost);
      }
    } while (std::next_permutation(sequence.begin(), sequence.end()));
    CHECK(bestOrders(panel, 3).at(0).cost == Approx(least));
  }
}

TEST_CASE("grain that meets at an angle costs a seam; grey strips are not judged on warmth") {
  Panel panel;
  panel.strips = {strip(0, 0), strip(0, 0)};
  panel.strips[1].near.slopeRad.fill(0.1);
  panel.strips[1].near.warmth.fill(0.5);
  const Seam coloured = judgedOrder(panel, {{0, false}, {1, false}}).seams.at(0);
  CHECK(coloured.slopeRad == Approx(0.1));
  CHECK(coloured.colourStep == Approx(0.5));
  panel.strips[0].colourKnown = false;
  const Seam grey = judgedOrder(panel, {{0, false}, {1, false}}).seams.at(0);
  CHECK(grey.colourStep == Approx(0).margin(1e-12));
  CHECK(grey.cost() > 0);
}

TEST_CASE("a panel is divided into as few strips as its rules allow") {
  Part top;
  top.name = "top";
  top.lengthMm = 800;
  top.widthMm = 450;
  CHECK_FALSE(stripsFor(top).ok());
  top.glueUp = {true, 60, 160};
  const auto strips = stripsFor(top);
  REQUIRE(strips.ok());
  CHECK(strips->second == 3);
  CHECK(strips->first.widthMm == Approx(150));
  top.widthMm = 100;
  CHECK_FALSE(stripsFor(top).ok());
}

TEST_CASE("many strips are ordered by exchanges") {
  Panel panel;
  for (const int i : {4, 0, 7, 2, 8, 1, 6, 3, 5})
    panel.strips.push_back(strip(0.1 * i, 0.1 * i + 0.1));
  const auto orders = bestOrders(panel, 1);
  REQUIRE(orders.size() == 1);
  CHECK(orders[0].strips.size() == 9);
  CHECK(orders[0].cost < 0.5 * judgedOrder(panel, {{0, false},
                                                   {1, false},
                                                   {2, false},
                                                   {3, false},
                                                   {4, false},
                                                   {5, false},
                                                   {6, false},
                                                   {7, false},
                                                   {8, false}})
                                   .cost);
}
