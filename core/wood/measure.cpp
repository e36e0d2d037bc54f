// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/measure.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kCover95 = 1.96;  // of a normal distribution

// Unit vector out of a counter-clockwise outline at vertex i: the mean of the two edges' normals.
// Each vertex is off along it by its own sigma, independently of the others.
Point normalAt(const Outline& o, size_t i) {
  const size_t n = o.vertices.size();
  const auto edgeNormal = [&](size_t from, size_t to) {
    const Point along = o.vertices[to].at - o.vertices[from].at;
    const double length = norm(along);
    return length > 0 ? (1 / length) * Point{along.y, -along.x} : Point{};
  };
  const Point sum = edgeNormal((i + n - 1) % n, i) + edgeNormal(i, (i + 1) % n);
  const double length = norm(sum);
  return length > 0 ? (1 / length) * sum : Point{};
}

Point displacement(const PlaneMode& mode, Point at) {
  const double u = at.x / 1000, v = at.y / 1000;
  const std::array<double, 10> monomials = {1,     u,         v,         u * u,     u * v,
                                            v * v, u * u * u, u * u * v, u * v * v, v * v * v};
  Point d;
  for (size_t k = 0; k < monomials.size(); ++k)
    d = d + Point{mode.dx[k] * monomials[k], mode.dy[k] * monomials[k]};
  return d;
}

// Variances of one figure, gathered from independent causes.
struct Variance {
  double given = 0;  // cards as declared
  double scale = 0;  // of an unchecked print, on top
  void addMode(const PlaneMode& mode, double change) {
    (mode.cause == PlaneMode::Cause::cardScale ? scale : given) += change * change;
  }
  Measured of(double value) const {
    return {value, kCover95 * std::sqrt(given), kCover95 * std::sqrt(given + scale)};
  }
};

// Where the line x = const meets the edge that starts at `vertex`.
struct Crossing {
  size_t vertex = 0;
  double t = 0;  // along the edge
  Point at;
  double slope = 0;  // dy/dx of the edge: a shift along x moves the crossing by -slope
  double varianceMm2 = 0;
};

double shiftOfCrossing(const Crossing& c, Point moved) {
  return moved.y - c.slope * moved.x;
}

std::vector<Crossing> crossings(const Outline& o, double x) {
  std::vector<Crossing> all;
  const size_t n = o.vertices.size();
  for (size_t i = 0; i < n; ++i) {
    const Point a = o.vertices[i].at, b = o.vertices[(i + 1) % n].at;
    if (a.x == b.x || x < std::min(a.x, b.x) || x > std::max(a.x, b.x)) continue;
    Crossing c;
    c.vertex = i;
    c.t = (x - a.x) / (b.x - a.x);
    c.at = {x, a.y + c.t * (b.y - a.y)};
    c.slope = (b.y - a.y) / (b.x - a.x);
    all.push_back(c);
  }
  return all;
}

// First order: how the edge's two vertices, each off along its normal, move the crossing.
double edgeVariance(const Outline& o, const Crossing& c) {
  const size_t next = (c.vertex + 1) % o.vertices.size();
  const double first =
      (1 - c.t) * shiftOfCrossing(c, normalAt(o, c.vertex)) * o.vertices[c.vertex].sigmaMm;
  const double second = c.t * shiftOfCrossing(c, normalAt(o, next)) * o.vertices[next].sigmaMm;
  return first * first + second * second;
}

}  // namespace

std::optional<Measured> widthAt(const Outline& outline, double xMm) {
  const std::vector<Crossing> met = crossings(outline, xMm);
  if (met.size() < 2) return std::nullopt;
  const auto [low, high] = std::minmax_element(
      met.begin(), met.end(), [](const Crossing& a, const Crossing& b) { return a.at.y < b.at.y; });
  Variance variance;
  variance.given = edgeVariance(outline, *low) + edgeVariance(outline, *high);
  for (const PlaneMode& mode : outline.planeModes)
    variance.addMode(mode, shiftOfCrossing(*high, displacement(mode, high->at)) -
                               shiftOfCrossing(*low, displacement(mode, low->at)));
  return variance.of(high->at.y - low->at.y);
}

Measured lengthOf(const Outline& outline) {
  if (outline.vertices.empty()) return {};
  const auto [left, right] = std::minmax_element(
      outline.vertices.begin(), outline.vertices.end(),
      [](const OutlineVertex& a, const OutlineVertex& b) { return a.at.x < b.at.x; });
  Variance variance;
  for (const auto& end : {left, right}) {
    const auto i = static_cast<size_t>(end - outline.vertices.begin());
    const double off = normalAt(outline, i).x * end->sigmaMm;
    variance.given += off * off;
  }
  for (const PlaneMode& mode : outline.planeModes)
    variance.addMode(mode, displacement(mode, right->at).x - displacement(mode, left->at).x);
  return variance.of(right->at.x - left->at.x);
}

Measured distance(const Outline& outline, Point a, Point b, double sigmaA, double sigmaB) {
  const double length = norm(b - a);
  const Point along = length > 0 ? (1 / length) * (b - a) : Point{1, 0};
  Variance variance;
  variance.given = sigmaA * sigmaA + sigmaB * sigmaB;
  for (const PlaneMode& mode : outline.planeModes)
    variance.addMode(mode, dot(displacement(mode, b) - displacement(mode, a), along));
  return variance.of(length);
}

std::vector<Measured> widthsEvery(const Outline& outline, double stepMm) {
  std::vector<Measured> widths;
  if (!(stepMm > 0)) throw std::logic_error("widths need a step");
  for (int i = 1;; ++i) {
    const std::optional<Measured> width = widthAt(outline, i * stepMm);
    if (!width) return widths;
    widths.push_back(*width);
  }
}

}  // namespace rackside
