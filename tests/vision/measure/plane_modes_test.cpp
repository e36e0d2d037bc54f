// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/plane_modes.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/measure_cases.h"
#include "vision/measure/plane_view.h"

using namespace rackside;
using namespace rackside::simulation;

namespace {

// Sigma of a distance straight from the covariance of the unknowns, no modes and no cubic.
double directSigma(const measure::Fit& f, Point a, Point b) {
  const Point along = (1 / norm(b - a)) * (b - a);
  const Eigen::RowVectorXd g =
      Eigen::RowVector2d(along.x, along.y) * (measure::driftOf(f, b) - measure::driftOf(f, a));
  const measure::Spread spread = measure::spreadOf(f);
  return std::sqrt((g * spread.givenScale * g.transpose()).value());
}

struct Compared {  // sigma by the modes ÷ sigma by the covariance
  double length = 0;
  std::vector<double> widths;
};

Compared compare(const Setup& s, std::mt19937_64& random) {
  const Draw d = draw(s, random);
  auto scene = measure::sceneOf(d.sights, s.options);
  REQUIRE(scene.ok());
  auto fitted = measure::fit(std::move(scene).value());
  REQUIRE(fitted.ok());
  const Lay lay = layOf(s, d, **adjust(d.sights, s.options));
  const auto modes = measure::planeModes(*fitted, lay.region, lay.boardFromPlane);
  CHECK(modes.size() <= 18);
  const auto ratio = [&](Point a, Point b) {
    const auto plane = [&](Point p) {
      return apply(Pose{{0, 0}, -lay.boardFromPlane.angleRad}, p - lay.boardFromPlane.origin);
    };
    return modeSigma(modes, PlaneMode::Cause::adjustment, a, b) /
           directSigma(*fitted, plane(a), plane(b));
  };
  Compared c{ratio({0, s.widthMm / 2}, {s.lengthMm, s.widthMm / 2}), {}};
  for (double x = 60; x < s.lengthMm - 59; x += (s.lengthMm - 120) / 16)
    c.widths.push_back(ratio({x, 0}, {x, s.widthMm}));
  return c;
}

Setup caseNamed(const std::string& text, std::mt19937_64& random) {
  for (const Case& c : measureCases())
    if (c.name.find(text) != std::string::npos) return c.make(random);
  throw std::logic_error("no such case: " + text);
}

}  // namespace

TEST_CASE("The modes give the sigma of lengths and widths that the covariance gives", "[measure]") {
  const auto name =
      GENERATE(as<std::string>{}, "3 cards, unknown phone, tilt to 35", "2 end cards, unknown",
               "1 card in the middle, unknown", "3 cards on the bench", "2 end cards, calibrated");
  for (int seed = 0; seed < 5; ++seed) {
    std::mt19937_64 random(seed);
    INFO(name << ", seed " << seed);
    const Setup setup = caseNamed(name, random);
    const Compared c = compare(setup, random);
    CHECK(c.length == Approx(1).epsilon(0.03));
    for (const double w : c.widths) CHECK(w == Approx(1).epsilon(0.03));
  }
}

// Where photographs meet, the field bends more sharply than a cubic can. So the bars are: the
// length never understated by more than 3 %, the mean variance of the widths along the board never
// understated and overstated by no more than half, and no single width understated by more than
// 0.4 of its sigma (which is about 0.1 mm here, under the noise of the edges).
TEST_CASE("The modes follow several photographs too", "[measure]") {
  const auto name = GENERATE(as<std::string>{}, "3 photographs along", "5 photographs along",
                             "4 photographs along");
  for (int seed = 0; seed < 5; ++seed) {
    std::mt19937_64 random(seed);
    INFO(name << ", seed " << seed);
    const Setup setup = caseNamed(name, random);
    const Compared c = compare(setup, random);
    CHECK(c.length > 0.97);
    CHECK(c.length < 1.15);
    double mean = 0;
    for (const double w : c.widths) {
      CHECK(w > 0.6);
      mean += w * w / static_cast<double>(c.widths.size());
    }
    CHECK(mean > 1.0);
    CHECK(mean < 1.5);
  }
}
