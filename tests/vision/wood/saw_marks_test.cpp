// SPDX-License-Identifier: GPL-3.0-or-later
// Saw marks on rendered faces whose pitch, slant and radius are known; the same faces painted
// without marks are what is left to find.
#include "vision/wood/saw_marks.h"

#include <catch2/catch.hpp>

#include "tests/support/figure_score.h"
#include "vision/wood/tone.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

struct Faces {
  cv::Mat1f sawn, plain;
  cv::Mat1b wood;
};

Faces facesOf(const WoodSpec& spec, double grey = 0.6) {
  const WoodLog log(spec, 27);
  PaintOptions options;
  options.mmPerPx = 0.5;
  options.grey = grey;
  const Rect part{0, 0, 700, 160};
  const auto tone = [&](bool marks) {
    options.sawMarks = marks;
    const PaintedWood p = paintFace(log, part, 27, options);
    const FaceRaster raster = rasterOf(p, worn(p.bgr, randomWear(spec.seed)));
    return evenedTone(raster, lightField(raster));
  };
  Faces f{tone(true), tone(false), {}};
  f.wood = cv::Mat1b(f.sawn.size(), uchar(255));
  return f;
}

WoodSpec sawnBoard(const char* kind, uint32_t seed) {
  WoodSpec s = sawnCase(seed, kind, false).wood;
  s.saw.pitchMm = 6;
  s.saw.slantDeg = 5;
  s.saw.radiusMm = 450;
  s.saw.strength = 1.6;
  return s;
}

}  // namespace

TEST_CASE("straight saw marks are found and taken out, the wood stays") {
  const WoodSpec s = sawnBoard("band", 2);
  const Faces f = facesOf(s);
  const SawMarks m = findSawMarks(f.sawn, f.wood, 0.5);
  REQUIRE(m.sure());
  CHECK(m.kind == SawMarks::Kind::straight);
  CHECK(m.pitchMm == Approx(6).epsilon(0.1));                  // the mill's feed wavers by as much
  CHECK(m.slantRad == Approx(-5 * CV_PI / 180).margin(0.02));  // x cos + y sin = a line's place
  const cv::Mat1f planed = f.sawn - sawMarkTone(f.sawn, f.wood, 0.5, m);
  CHECK(10 * std::log10(bandEnergy(f.sawn, 0.5, 6) / bandEnergy(planed, 0.5, 6)) > 15);
  CHECK(correlation(planed, f.plain) > 0.95);
  CHECK(correlation(f.sawn, f.plain) < correlation(planed, f.plain) - 0.03);
}

TEST_CASE("arced saw marks tell the radius of the blade") {
  const Faces f = facesOf(sawnBoard("circular", 3));
  const SawMarks m = findSawMarks(f.sawn, f.wood, 0.5);
  REQUIRE(m.sure());
  CHECK(m.kind == SawMarks::Kind::arced);
  CHECK(m.radiusMm() == Approx(450).epsilon(0.1));
  const cv::Mat1f planed = f.sawn - sawMarkTone(f.sawn, f.wood, 0.5, m);
  CHECK(correlation(planed, f.plain) > 0.95);
}

TEST_CASE("curl is not taken for saw marks") {
  for (const uint32_t seed : {1U, 3U, 4U}) {
    WoodSpec s = sawnCase(seed, "none", true).wood;
    s.curl = 1;
    const Faces f = facesOf(s, 0.2);
    CHECK_FALSE(findSawMarks(f.sawn, f.wood, 0.5).sure());
  }
}

TEST_CASE("curl under saw marks survives their removal") {
  WoodSpec s = sawnBoard("band", 8);
  s.saw.pitchMm = 4;
  s.curl = 1;
  s.curlPitchMm = 14;
  const Faces f = facesOf(s);
  const SawMarks m = findSawMarks(f.sawn, f.wood, 0.5);
  REQUIRE(m.sure());
  CHECK(m.pitchMm == Approx(4).epsilon(0.1));
  const cv::Mat1f planed = f.sawn - sawMarkTone(f.sawn, f.wood, 0.5, m);
  CHECK(bandEnergy(planed, 0.5, 14) > 0.9 * bandEnergy(f.plain, 0.5, 14));
}

TEST_CASE("a plain face without marks is left as it is") {
  WoodSpec s = sawnCase(6, "none", false).wood;
  const Faces f = facesOf(s);
  const SawMarks m = findSawMarks(f.sawn, f.wood, 0.5);
  CHECK_FALSE(m.sure());
  CHECK(cv::countNonZero(sawMarkTone(f.sawn, f.wood, 0.5, SawMarks{})) == 0);
}
