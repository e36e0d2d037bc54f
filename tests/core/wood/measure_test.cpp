// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/measure.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "core/wood/edges.h"

using namespace rackside;

namespace {

constexpr double kLength = 2400;

// A board with slightly wavy edges, counter-clockwise, a vertex every 40 mm.
Outline wavyBoard(double sigmaMm) {
  Outline o;
  const auto add = [&](double x, double y) { o.vertices.push_back({{x, y}, sigmaMm, {}}); };
  add(-3, 90);  // the ends are pointed, so that one vertex is the extreme one
  for (double x = 0; x <= kLength; x += 40) add(x, 3 * std::sin(x / 300));
  add(kLength + 4, 80);
  for (double x = kLength; x >= 0; x -= 40) add(x, 180 + 0.01 * x + 2 * std::cos(x / 250));
  return o;
}

void addModes(Outline& o) {
  PlaneMode stretch;  // along the board, half a thousandth
  stretch.dx[1] = 0.5;
  PlaneMode shear;
  shear.dy[1] = 0.4;
  shear.dy[2] = 0.9;
  shear.dx[5] = 3.0;
  PlaneMode bend;
  bend.dy[3] = 0.3;
  bend.dy[4] = 0.8;
  bend.dx[7] = -0.5;
  PlaneMode print;
  print.cause = PlaneMode::Cause::cardScale;
  print.dx[1] = 1.0;
  print.dy[2] = 1.0;
  o.planeModes = {stretch, shear, bend, print};
}

// One draw of the same model, written apart from the program: every vertex off along the outline's
// normal by its own error, and the whole plane off by each mode times one error of its own.
class Sampler {
 public:
  Outline draw(const Outline& truth, bool withPrint) {
    Outline drawn = truth;
    const size_t n = truth.vertices.size();
    std::vector<double> weight;
    for (const PlaneMode& m : truth.planeModes)
      weight.push_back(m.cause == PlaneMode::Cause::cardScale && !withPrint ? 0 : normal_(random_));
    for (size_t i = 0; i < n; ++i) {
      const Point before = truth.vertices[(i + n - 1) % n].at, here = truth.vertices[i].at,
                  after = truth.vertices[(i + 1) % n].at;
      const double out1 = std::atan2(here.y - before.y, here.x - before.x) - M_PI / 2;
      const double out2 = std::atan2(after.y - here.y, after.x - here.x) - M_PI / 2;
      Point out{std::cos(out1) + std::cos(out2), std::sin(out1) + std::sin(out2)};
      const double off = normal_(random_) * truth.vertices[i].sigmaMm / norm(out);
      drawn.vertices[i].at = here + off * out + shift(truth, weight, here);
    }
    return drawn;
  }

 private:
  static Point shift(const Outline& o, const std::vector<double>& weight, Point p) {
    const double u = p.x / 1000, v = p.y / 1000;
    const double m[] = {1, u, v, u * u, u * v, v * v, u * u * u, u * u * v, u * v * v, v * v * v};
    Point d{0, 0};
    for (size_t k = 0; k < o.planeModes.size(); ++k)
      for (size_t i = 0; i < 10; ++i) {
        d.x += weight[k] * o.planeModes[k].dx[i] * m[i];
        d.y += weight[k] * o.planeModes[k].dy[i] * m[i];
      }
    return d;
  }
  std::mt19937 random_{17};
  std::normal_distribution<double> normal_;
};

double spread95(const std::vector<double>& values) {
  double sum = 0, squares = 0;
  for (const double v : values) {
    sum += v;
    squares += v * v;
  }
  const auto n = static_cast<double>(values.size());
  return 1.96 * std::sqrt(squares / n - sum / n * sum / n);
}

// 4000 draws know a standard deviation to 1/sqrt(2·4000) = 1.1 %; 5 % is more than four times that.
constexpr int kDraws = 4000;
constexpr double kWithin = 0.05;

}  // namespace

TEST_CASE("the ± of widths and lengths agrees with drawn samples of the model") {
  Outline truth = wavyBoard(0.35);
  addModes(truth);
  const bool withPrint = GENERATE(false, true);
  Sampler sampler;
  std::vector<double> width600, width1990, lengths;
  for (int i = 0; i < kDraws; ++i) {
    const Outline drawn = sampler.draw(truth, withPrint);
    width600.push_back(widthAt(drawn, 600)->value);
    width1990.push_back(widthAt(drawn, 1990)->value);
    lengths.push_back(lengthOf(drawn).value);
  }
  const auto stated = [withPrint](const Measured& m) { return withPrint ? m.u95Total : m.u95; };
  CHECK(spread95(width600) == Approx(stated(*widthAt(truth, 600))).epsilon(kWithin));
  CHECK(spread95(width1990) == Approx(stated(*widthAt(truth, 1990))).epsilon(kWithin));
  CHECK(spread95(lengths) == Approx(stated(lengthOf(truth))).epsilon(kWithin));
}

TEST_CASE("the ± of a distance agrees with drawn samples of the model") {
  Outline truth = wavyBoard(0.2);
  addModes(truth);
  const Point a = truth.vertices[5].at, b = truth.vertices[90].at;
  // Between two vertices of the outline, whose own errors the caller states; here they are 0.
  for (OutlineVertex& v : truth.vertices) v.sigmaMm = 0;
  Sampler sampler;
  std::vector<double> drawn;
  std::mt19937 random(5);
  std::normal_distribution<double> error(0, 0.6);
  for (int i = 0; i < kDraws; ++i) {
    const Outline o = sampler.draw(truth, false);
    const Point along = (1 / norm(b - a)) * (b - a);
    drawn.push_back(norm(o.vertices[90].at + error(random) * along - o.vertices[5].at));
  }
  const Measured stated = distance(truth, a, b, 0, 0.6);
  CHECK(stated.value == Approx(norm(b - a)));
  CHECK(spread95(drawn) == Approx(stated.u95).epsilon(kWithin));
  CHECK(stated.u95Total > stated.u95);
}

TEST_CASE("an unchecked print moves a length by its share") {
  // 0.1 % of 3 m is 3 mm; at 95 % 5.9 mm.
  Outline o;
  for (const Point p : rectangle({0, 0, 3000, 200})) o.vertices.push_back({p, 0, {}});
  PlaneMode print;
  print.cause = PlaneMode::Cause::cardScale;
  print.dx[1] = print.dy[2] = 1.0;
  o.planeModes = {print};
  CHECK(lengthOf(o).u95 == 0);
  CHECK(lengthOf(o).u95Total == Approx(5.88));
  CHECK(widthAt(o, 500)->u95Total == Approx(0.392));
}

TEST_CASE("widths reach as far as the outline and span its hollows") {
  Outline o;
  for (const Point p : Polygon{
           {0, 0}, {1000, 0}, {1000, 100}, {600, 100}, {600, 40}, {400, 40}, {400, 100}, {0, 100}})
    o.vertices.push_back({p, 0.1, {}});
  CHECK(widthAt(o, 500)->value == Approx(40));
  CHECK(widthAt(o, 100)->value == Approx(100));
  CHECK_FALSE(widthAt(o, -1));
  CHECK_FALSE(widthAt(o, 1001));
  CHECK(widthsEvery(o, 100).size() == 10);
  CHECK_FALSE(widthAt(Outline{}, 1));
  CHECK(lengthOf(Outline{}).value == 0);
}

TEST_CASE("crook, taper and the widest strip of boards of known shape") {
  const auto board = [](auto near, auto far) {
    Outline o;
    for (double x = 0; x <= 2000; x += 20) o.vertices.push_back({{x, near(x)}, 0, {}});
    for (double x = 2000; x >= 0; x -= 20) o.vertices.push_back({{x, far(x)}, 0, {}});
    return o;
  };
  // An edge that is an arc of sagitta 12: crook 12; both bend alike, so the strip loses 12.
  const auto arc = [](double x) { return 12 * (1 - std::pow((x - 1000) / 1000, 2)); };
  const Outline bent = board(arc, [&](double x) { return 200 + arc(x); });
  CHECK(crookMm(bent) == Approx(12).margin(0.01));
  CHECK(taperMmPerM(bent) == Approx(0).margin(1e-6));
  CHECK(widestStraightStrip(bent).widthMm == Approx(188).margin(0.01));

  const Outline tapered =
      board([](double) { return 0.0; }, [](double x) { return 150 + 0.02 * x; });
  CHECK(crookMm(tapered) == Approx(0).margin(1e-9));
  CHECK(taperMmPerM(tapered) == Approx(20));
  // Two parallel lines between edges that part by 20 in 1000: the width at the narrow end, turned
  // to the best angle; against a search over all angles on a fine grid.
  double best = 0;
  for (double slope = -0.1; slope <= 0.1; slope += 1e-5) {
    const double high = std::min(150.0, 190 - slope * 2000), low = std::max(0.0, -slope * 2000);
    best = std::max(best, (high - low) / std::hypot(1.0, slope));
  }
  CHECK(widestStraightStrip(tapered).widthMm == Approx(best).margin(1e-3));

  // A board lying askew in its frame keeps its whole width.
  const Outline askew =
      board([](double x) { return 0.01 * x; }, [](double x) { return 0.01 * x + 100; });
  const StraightStrip strip = widestStraightStrip(askew);
  CHECK(strip.widthMm == Approx(100 / std::hypot(1, 0.01)).margin(1e-3));
  CHECK(strip.angleRad == Approx(std::atan(0.01)).margin(1e-5));
  CHECK(signedArea(strip.corners) > 0);
}

TEST_CASE("slanted end cuts are no part of the long edges") {
  Outline o;
  // A 30° cut from the square at the left end, square at the right.
  for (double x = 0; x <= 2000; x += 10) o.vertices.push_back({{x, 0}, 0, {}});
  for (double x = 2000; x >= 116; x -= 10) o.vertices.push_back({{x, 200}, 0, {}});
  for (double y = 200; y > 1; y -= 10) o.vertices.push_back({{y * 0.577, y}, 0, {}});
  CHECK(crookMm(o) < 0.5);
  CHECK(taperMmPerM(o) == Approx(0).margin(0.5));
  CHECK(widestStraightStrip(o).widthMm == Approx(200).margin(0.5));
}
