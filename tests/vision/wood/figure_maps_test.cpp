// SPDX-License-Identifier: GPL-3.0-or-later
// Maps of rendered faces against the log they were painted from.
#include "vision/wood/figure_maps.h"

#include <catch2/catch.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/figure_score.h"
#include "tests/support/noise.h"
#include "vision/wood/figure_sums.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

FigureMaps mapsOf(const WoodSpec& spec, const PaintOptions& options, const Rect& face,
                  const PhotoWear& wear) {
  const PaintedWood p = paintFace(WoodLog(spec, 27), face, 27, options);
  RunControl control;
  return figureMaps(rasterOf(p, worn(p.bgr, wear)), {4, true, spec.species}, control);
}

WoodSpec flatSawn(const char* species, uint32_t seed) {
  WoodSpec s;
  s.species = species;
  s.seed = seed;
  s.pithYMm = 85;
  s.pithZMm = -60;
  s.saw.pitchMm = 5;
  return s;
}

PaintOptions halfMm(double grey) {
  PaintOptions o;
  o.mmPerPx = 0.5;
  o.grey = grey;
  return o;
}

}  // namespace

TEST_CASE("the grain's direction is read through saw marks") {
  for (const uint32_t seed : {200U, 203U}) {
    SawnCase c = sawnCase(seed, seed % 2 ? "band" : "circular", false);
    c.face = {0, 0, 700, 150};
    const FigureMaps maps = mapsOf(c.wood, c.paint, c.face, randomWear(seed));
    const auto errors = grainErrorsDeg(maps, WoodLog(c.wood, 27), 27);
    CHECK(quantile(errors, 0.5) < 2.0);  // one board's rings lead it astray by more than the median
    CHECK(quantile(errors, 0.95) < 6);
  }
}

TEST_CASE("arches are found about the pith, and none where there are none") {
  WoodSpec s = flatSawn("walnut", 31);
  const FigureMaps maps = mapsOf(s, halfMm(0.4), {0, 0, 900, 170}, randomWear(4));
  REQUIRE(maps.arches.size() > 10);
  std::vector<double> off;
  for (const ArchPoint& a : maps.arches)
    if (a.sure > 0.5)
      off.push_back(std::abs(a.y - (s.pithYMm + s.pithWanderMm * noise1(s.seed + 50, a.x / 900))));
  REQUIRE(off.size() > 5);
  CHECK(quantile(off, 0.5) < 5);
  s.pithYMm = 420;  // quarter sawn: the pith lies far beside the face
  s.pithZMm = 10;
  CHECK(mapsOf(s, halfMm(0.4), {0, 0, 900, 170}, randomWear(4)).arches.empty());
}

TEST_CASE("the ripple of curl is mapped where it is") {
  WoodSpec s = flatSawn("maple", 5);
  const FigureMaps plain = mapsOf(s, halfMm(0.2), {0, 0, 600, 150}, randomWear(1));
  s.curl = 1;
  const FigureMaps curly = mapsOf(s, halfMm(0.2), {0, 0, 600, 150}, randomWear(1));
  const Rect r{50, 20, 550, 130};
  const auto ripple = [&](const FigureMaps& m) {
    return readingOf(FigureSums(m).over(r), r.width() * r.height()).ripple;
  };
  CHECK(ripple(curly) > 2 * ripple(plain));
}

TEST_CASE("grey hides colour, and the face says so") {
  for (const char* species : {"cherry", "walnut", "maple"}) {
    const WoodSpec s = flatSawn(species, 9);
    const Rect face{0, 0, 500, 120};
    CHECK(mapsOf(s, halfMm(0), face, {}).colour.freshness > 0.8);
    CHECK(mapsOf(s, halfMm(1), face, {}).colour.freshness < 0.55);
  }
}

TEST_CASE("exposure, tint and uneven light leave the maps as they are") {
  const WoodSpec s = flatSawn("cherry", 12);
  const Rect face{0, 0, 800, 160}, r{500, 30, 700, 110};
  PhotoWear dim;
  dim.gain = 0.7;
  dim.tint = {0.85, 1, 1};
  dim.falloff = 2;
  const auto read = [&](const PhotoWear& w) {
    return readingOf(FigureSums(mapsOf(s, halfMm(0.3), face, w)).over(r), r.width() * r.height());
  };
  const FigureReading a = read({}), b = read(dim);
  CHECK(b.contrast == Approx(a.contrast).epsilon(0.1));
  CHECK(b.lightness == Approx(a.lightness).margin(0.02));
  CHECK(b.warmth == Approx(a.warmth).margin(0.02));
  CHECK(b.grainRad == Approx(a.grainRad).margin(0.005));
}

TEST_CASE("sums over rectangles and outlines agree with adding up cells") {
  FigureMaps m;
  m.area = {10, 0, 50, 20};
  m.cellMm = 4;
  m.columns = 10;
  m.rows = 5;
  Draw draw(3);
  for (auto& layer : m.layers)
    for (int i = 0; i < 50; ++i) layer.push_back(float(draw.unit()));
  const FigureSums sums(m);
  // Cells (2..4) × (1..2) whole and half of column 5.
  double expected = 0;
  for (int row = 1; row <= 2; ++row)
    for (int column = 2; column <= 5; ++column)
      expected += (column == 5 ? 8 : 16) * m.at(FigureLayer::contrast, column, row);
  const Rect r{18, 4, 32, 12};
  CHECK(sums.over(r)[size_t(FigureLayer::contrast)] == Approx(expected).epsilon(1e-4));
  CHECK(sums.over(rectangle(r))[size_t(FigureLayer::contrast)] == Approx(expected).epsilon(1e-4));
  CHECK(sums.over(Rect{100, 0, 120, 10})[0] == Approx(0).margin(1e-9));
}
