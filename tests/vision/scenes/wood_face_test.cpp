// SPDX-License-Identifier: GPL-3.0-or-later
// The synthetic wood: what it claims of itself must hold in its pictures.
#include "tests/support/wood_face.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/noise.h"
#include "tests/support/wood_defects.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

WoodSpec plainCherry() {
  WoodSpec s;
  s.species = "cherry";
  s.seed = 7;
  s.pithYMm = 60;
  s.pithZMm = -60;
  s.sapRadiusMm = 130;
  s.saw.kind = "band";
  s.saw.pitchMm = 5;
  s.saw.slantDeg = 0;
  return s;
}

PaintOptions planed() {
  PaintOptions o;
  o.grey = 0;
  o.sawMarks = false;
  return o;
}

cv::Mat1f grey(const PaintedWood& p) {
  cv::Mat g;
  cv::cvtColor(p.bgr, g, cv::COLOR_BGR2GRAY);
  g.convertTo(g, CV_32F);
  return g;
}

// Strength of the wave of this pitch along x, averaged over rows (a plain Fourier sum).
double waveStrength(const cv::Mat1f& g, double mmPerPx, double pitchMm) {
  double sum = 0;
  for (int y = 0; y < g.rows; y += 5) {
    double c = 0, s = 0;
    const double mean = cv::mean(g.row(y))[0];
    for (int x = 0; x < g.cols; ++x) {
      const double turn = 2 * CV_PI * x * mmPerPx / pitchMm;
      c += (g(y, x) - mean) * std::cos(turn);
      s += (g(y, x) - mean) * std::sin(turn);
    }
    sum += std::hypot(c, s) / g.cols;
  }
  return sum / (g.rows / 5.0);
}

}  // namespace

TEST_CASE("saw marks come and go over the same wood") {
  const WoodLog log(plainCherry(), 27);
  const Rect part{0, 40, 120, 100};
  PaintOptions with = planed();
  with.sawMarks = true;
  const PaintedWood plain = paintFace(log, part, 27, planed());
  const PaintedWood sawn = paintFace(log, part, 27, with);
  REQUIRE(plain.bgr.size() == sawn.bgr.size());
  const double before = waveStrength(grey(plain), plain.mmPerPx, 5);
  const double after = waveStrength(grey(sawn), sawn.mmPerPx, 5);
  CHECK(after > 4 * before);
  // Dividing the two leaves no wood: the marks are laid over the same rings. Correlation along the
  // rows' averages, which the marks (square across) do not touch.
  cv::Mat rowsPlain, rowsSawn;
  cv::reduce(grey(plain), rowsPlain, 1, cv::REDUCE_AVG);
  cv::reduce(grey(sawn), rowsSawn, 1, cv::REDUCE_AVG);
  cv::Mat match;
  cv::matchTemplate(rowsPlain, rowsSawn, match, cv::TM_CCOEFF_NORMED);
  CHECK(match.at<float>(0, 0) > 0.95F);
}

TEST_CASE("grey wood keeps its rings but loses colour") {
  const WoodLog log(plainCherry(), 27);
  PaintOptions old = planed();
  old.grey = 1;
  const Rect part{200, 20, 320, 80};
  const auto saturation = [&](const PaintOptions& o) {
    cv::Mat hsv;
    cv::cvtColor(paintFace(log, part, 27, o).bgr, hsv, cv::COLOR_BGR2HSV);
    return cv::mean(hsv)[1];
  };
  CHECK(saturation(old) < 0.6 * saturation(planed()));
}

TEST_CASE("the sapwood boundary lies where the picture turns pale") {
  const WoodLog log(plainCherry(), 27);
  const Rect part{0, 0, 300, 220};
  const cv::Mat1f g = grey(paintFace(log, part, 27, planed()));
  int boundaries = 0;
  for (const SapwoodAt& at : sapwoodLine(log, 27, part, 30)) {
    for (const double y : at.crossings) {
      if (y < 8 || y > 212) continue;
      const int px = static_cast<int>(at.x / 0.3);
      const auto lightness = [&](double from, double to) {
        const int top = static_cast<int>((220 - to) / 0.3),
                  low = static_cast<int>((220 - from) / 0.3);
        return cv::mean(g(cv::Rect(std::min(px, g.cols - 3), top, 3, low - top)))[0];
      };
      // 5 mm either side of it differ by the step from heart to sap, whatever the rings do.
      CHECK(std::abs(lightness(y + 1, y + 6) - lightness(y - 6, y - 1)) > 20);
      ++boundaries;
    }
  }
  CHECK(boundaries >= 8);
}

TEST_CASE("a through knot shows on both faces, dark where its section lies") {
  WoodSpec s = plainCherry();
  DefectSpec knot;
  knot.x = 150;
  knot.y = 90;
  knot.alongMm = 9;
  knot.through = true;
  knot.tiltX = 0.5;
  s.defects = {knot};
  const WoodLog log(s, 27);
  for (const double z : {27.0, 0.0}) {
    const auto e = log.section(knot, z);
    REQUIRE(e.has_value());
    const cv::Mat1f g = grey(paintFace(log, {0, 0, 300, 180}, z, planed()));
    const auto at = [&](Point p) {
      const cv::Point px(static_cast<int>(p.x / 0.3), static_cast<int>((180 - p.y) / 0.3));
      return cv::mean(g(cv::Rect(px.x - 6, px.y - 6, 13, 13)))[0];
    };
    CHECK(at(e->centre) < 0.65 * at({e->centre.x + 100, e->centre.y}));
  }
  // Its axis leans by 0.5 mm a millimetre: 13.5 mm over the thickness.
  CHECK(log.section(knot, 27)->centre.x - log.section(knot, 0)->centre.x == Approx(13.5));
  REQUIRE(trueMarks(log).size() == 1);
  CHECK(trueMarks(log)[0].onA.has_value());
  CHECK(trueMarks(log)[0].onB.has_value());
}

TEST_CASE("fibres run as their direction field says") {
  WoodSpec s = plainCherry();
  s.fibreSlope = 0.03;
  DefectSpec knot;
  knot.x = 200;
  knot.y = 90;
  knot.alongMm = 10;
  knot.through = true;
  s.defects = {knot};
  const WoodLog log(s, 27);
  // Following the direction field keeps to one level line of the fibres, past the knot too.
  for (const double y0 : {40.0, 70.0, 104.0, 150.0}) {
    Point p{60, y0};
    const double level = log.fibreY(p.x, p.y, 27);
    while (p.x < 340) {
      const double middle = p.y + 0.05 * std::tan(log.fibreAngle(p.x, p.y, 27));
      p = {p.x + 0.1, p.y + 0.1 * std::tan(log.fibreAngle(p.x + 0.05, middle, 27))};
    }
    CHECK(std::abs(log.fibreY(p.x, p.y, 27) - level) < 0.1);
  }
  // Far from the knot the slope is the one asked for; the slow wander of the log adds a little.
  CHECK(log.fibreAngle(900, 90, 27) == Approx(0.03).margin(0.02));
}
