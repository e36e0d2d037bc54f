// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/wood_log.h"

#include <algorithm>
#include <cmath>

#include "tests/support/noise.h"

namespace rackside::synthetic {
namespace {

constexpr double kHalfTurn = 1.57079632679489661923;
constexpr double kKnotStretch =
    3.0;  // the disturbed wood reaches this much further along the grain
constexpr double kTurnedWood = 1.25;  // radius of the turned-aside wood ÷ radius of the knot

// Square of the distance from a knot in units of its radius, stretched along the grain.
double knotDistance2(const Ellipse& e, double x, double y) {
  const double reach = kTurnedWood * std::max(e.semiX, e.semiY);
  const double dx = (x - e.centre.x) / (kKnotStretch * reach);
  const double dy = (y - e.centre.y) / reach;
  return dx * dx + dy * dy;
}

// Direction of a line, -pi/2..pi/2.
double lineAngle(double dy, double dx) {
  const double angle = std::atan2(dy, dx);
  if (angle > kHalfTurn) return angle - 2 * kHalfTurn;
  return angle <= -kHalfTurn ? angle + 2 * kHalfTurn : angle;
}

bool turnsGrain(const DefectSpec& d) {
  return d.kind == "knot";
}

// Beyond this distance along the grain a knot changes nothing (q > 40 below).
double farAlong(const DefectSpec& d) {
  return 6.4 * kKnotStretch * kTurnedWood * d.alongMm * (1 + std::abs(d.tiltX)) + 60;
}

}  // namespace

WoodLog::WoodLog(const WoodSpec& spec, double thicknessMm)
    : spec_(spec), thicknessMm_(thicknessMm) {}

bool WoodLog::reaches(const DefectSpec& d, double z) const {
  return d.through || std::abs(z - surfaceZ(d)) < d.depthMm;
}

std::optional<Ellipse> WoodLog::section(const DefectSpec& d, double z) const {
  if (!reaches(d, z)) return std::nullopt;
  const double dz = z - surfaceZ(d);
  const double deep = std::abs(dz);
  // A through knot narrows slowly towards the pith; one that stops does so as a blunt cone.
  const double shrink = d.through ? 1 - 0.006 * deep : std::sqrt(1 - deep / d.depthMm);
  const double lean = std::hypot(d.tiltX, d.tiltY);
  const double oblique = std::sqrt(1 + lean * lean);
  Ellipse e;
  e.centre = {d.x + d.tiltX * dz, d.y + d.tiltY * dz};
  if (d.kind == "knot") {
    e.semiX = d.alongMm * shrink * oblique;
    e.semiY = d.alongMm * shrink;
    e.angleRad = lean > 1e-9 ? std::atan2(d.tiltY, d.tiltX) : 0;
  } else {
    e.semiX = d.alongMm * shrink;
    e.semiY = d.acrossMm * shrink;
    e.angleRad = fibreAngle(e.centre.x, e.centre.y, z);
  }
  return e;
}

double WoodLog::fibreY(double x, double y, double z) const {
  double across = y - spec_.fibreSlope * x - 2.5 * noise2(spec_.seed + 40, x / 700, y / 300);
  for (const DefectSpec& d : spec_.defects) {
    if (!turnsGrain(d) || std::abs(x - d.x) > farAlong(d)) continue;
    const auto e = section(d, z);
    if (!e) continue;
    const double q = knotDistance2(*e, x, y);
    if (q > 40) continue;
    // Flow round a cylinder: the fibre through the knot's middle splits, those beside it close in.
    const double dy = y - e->centre.y;
    across -= dy * std::min(1.0, 1 / std::max(q, 1e-6)) * std::exp(-q / 12);
  }
  return across;
}

double WoodLog::bumpOfKnots(double x, double y, double z) const {
  double bump = 0;
  for (const DefectSpec& d : spec_.defects) {
    if (!turnsGrain(d) || std::abs(x - d.x) > farAlong(d)) continue;
    const auto e = section(d, z);
    if (!e) continue;
    const double q = knotDistance2(*e, x, y);
    if (q < 30) bump += 0.9 * std::max(e->semiX, e->semiY) * std::exp(-q / 3);
  }
  return bump;
}

double WoodLog::ringRadius(double x, double y, double z) const {
  const uint32_t seed = spec_.seed;
  const double wander = spec_.pithWanderMm;
  const double pithY = spec_.pithYMm + spec_.pithSlopeY * x + wander * noise1(seed + 50, x / 900);
  const double pithZ =
      spec_.pithZMm + spec_.pithSlopeZ * x + 0.6 * wander * noise1(seed + 51, x / 650);
  const double dy = fibreY(x, y, z) + spec_.fibreSlope * x - pithY;
  const double dz = z - pithZ;
  const double angle = std::atan2(dz, dy);
  const double lumps = 2.2 * noise2(seed + 52, x / 260, 3 * angle) +
                       0.8 * noise2(seed + 53, x / 70, y / 24 + z / 24);
  return std::hypot(dy, dz) - spec_.taperMmPerM * x / 1000 + lumps + bumpOfKnots(x, y, z);
}

double WoodLog::fibreAngle(double x, double y, double z) const {
  const double h = 0.25;
  const double gx = (fibreY(x + h, y, z) - fibreY(x - h, y, z)) / (2 * h);
  const double gy = (fibreY(x, y + h, z) - fibreY(x, y - h, z)) / (2 * h);
  return lineAngle(-gx, gy);
}

double WoodLog::ringAngle(double x, double y, double z) const {
  const double h = 0.5;
  const double gx = (ringRadius(x + h, y, z) - ringRadius(x - h, y, z)) / (2 * h);
  const double gy = (ringRadius(x, y + h, z) - ringRadius(x, y - h, z)) / (2 * h);
  return lineAngle(-gx, gy);
}

std::vector<Point> WoodLog::crackLine(const DefectSpec& d, double z) const {
  const double step = d.alongMm < 0 ? -2 : 2;
  const int count = static_cast<int>(std::abs(d.alongMm) / 2);
  std::vector<Point> line{{d.x, d.y}};
  for (int i = 0; i < count; ++i) {
    const Point p = line.back();
    const double slope = std::tan(fibreAngle(p.x, p.y, z)) +
                         0.10 * noise1(spec_.seed + 60 + static_cast<uint32_t>(d.y), p.x / 9);
    line.push_back({p.x + step, p.y + step * slope});
  }
  return line;
}

}  // namespace rackside::synthetic
