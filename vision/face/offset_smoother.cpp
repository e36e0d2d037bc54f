// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/offset_smoother.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace rackside {
namespace {

// Growth of the slope's variance per mm: from a straight-edge (0.2 mm off over 100 mm) to bark.
constexpr std::array kWander = {1e-8, 1e-7, 1e-6, 1e-5, 1e-4};
constexpr double kFirstOffsetVar = 400, kFirstSlopeVar = 0.04;
// Readings so near one another share one error: grain beside the edge and the wear of the arris
// shift them together (of 1.5, 5, 8, 11, 15 and 45 mm, 5 gave the best widths on rendered scenes).
constexpr double kAlikeMm = 5;
constexpr int kPasses = 3;       // of reweighting
constexpr double kFarOff = 2.5;  // sigmas, from where a reading loses weight

struct State {
  double o = 0, s = 0;               // offset, slope
  double poo = 0, pos = 0, pss = 0;  // covariance
};

State predicted(const State& a, double h, double q) {
  State b;
  b.o = a.o + h * a.s, b.s = a.s;
  b.poo = a.poo + 2 * h * a.pos + h * h * a.pss + q * h * h * h / 3;
  b.pos = a.pos + h * a.pss + q * h * h / 2;
  b.pss = a.pss + q * h;
  return b;
}

State updated(const State& a, double z, double r, double& logLikelihood) {
  const double v = a.poo + r, e = z - a.o, ko = a.poo / v, ks = a.pos / v;
  logLikelihood -= 0.5 * (std::log(v) + e * e / v);
  State b = a;
  b.o += ko * e, b.s += ks * e;
  b.poo = (1 - ko) * a.poo, b.pos = (1 - ko) * a.pos, b.pss = a.pss - ks * a.pos;
  return b;
}

struct Filtered {
  std::vector<State> before, after;  // each reading
  double logLikelihood = 0;
};

Filtered filter(const std::vector<double>& z, const std::vector<double>& r, double h, double q) {
  Filtered f;
  State state{0, 0, kFirstOffsetVar, 0, kFirstSlopeVar};
  for (size_t i = 0; i < z.size(); ++i) {
    if (i) state = predicted(state, h, q);
    f.before.push_back(state);
    if (r[i] > 0) state = updated(state, z[i], r[i], f.logLikelihood);
    f.after.push_back(state);
  }
  return f;
}

std::vector<State> smoothedBack(const Filtered& f, double h) {
  std::vector<State> out = f.after;
  for (size_t i = out.size() - 1; i-- > 0;) {
    const State &a = f.after[i], &p = f.before[i + 1], &n = out[i + 1];
    // Gain C = P F' P⁻¹(predicted)
    const double det = p.poo * p.pss - p.pos * p.pos;
    const double ao = a.poo + h * a.pos, as = a.pos + h * a.pss;
    const double c00 = (ao * p.pss - a.pos * p.pos) / det, c01 = (a.pos * p.poo - ao * p.pos) / det;
    const double c10 = (as * p.pss - a.pss * p.pos) / det, c11 = (a.pss * p.poo - as * p.pos) / det;
    const double eo = n.o - p.o, es = n.s - p.s;
    const double doo = n.poo - p.poo, dos = n.pos - p.pos, dss = n.pss - p.pss;
    out[i].o = a.o + c00 * eo + c01 * es;
    out[i].s = a.s + c10 * eo + c11 * es;
    out[i].poo = a.poo + c00 * c00 * doo + 2 * c00 * c01 * dos + c01 * c01 * dss;
    out[i].pos = a.pos + c00 * c10 * doo + (c00 * c11 + c01 * c10) * dos + c01 * c11 * dss;
    out[i].pss = a.pss + c10 * c10 * doo + 2 * c10 * c11 * dos + c11 * c11 * dss;
  }
  return out;
}

std::vector<double> variances(const std::vector<OffsetReading>& readings) {
  std::vector<double> r;
  r.reserve(readings.size());
  for (const OffsetReading& x : readings) r.push_back(x.sigmaMm > 0 ? x.sigmaMm * x.sigmaMm : 0);
  return r;
}

Filtered likeliest(const std::vector<double>& z, const std::vector<double>& r, double h) {
  Filtered best;
  bool first = true;
  for (const double q : kWander)
    if (Filtered f = filter(z, r, h, q); first || f.logLikelihood > best.logLikelihood)
      best = std::move(f), first = false;
  return best;
}

}  // namespace

std::vector<SmoothOffset> smoothOffsets(const std::vector<OffsetReading>& readings, double stepMm) {
  if (readings.empty()) return {};
  std::vector<double> z;
  z.reserve(readings.size());
  for (const OffsetReading& x : readings) z.push_back(x.offsetMm);
  const std::vector<double> given = variances(readings);
  const double alike = std::max(1.0, kAlikeMm / stepMm);
  std::vector<double> r;
  r.reserve(given.size());
  for (const double variance : given) r.push_back(alike * variance);
  std::vector<State> line;
  for (int pass = 0; pass < kPasses; ++pass) {
    line = smoothedBack(likeliest(z, r, stepMm), stepMm);
    for (size_t i = 0; i < z.size(); ++i) {
      if (given[i] <= 0) continue;
      const double e2 = (z[i] - line[i].o) * (z[i] - line[i].o) / (given[i] + line[i].poo);
      r[i] = alike * given[i] * std::max(1.0, e2 / (kFarOff * kFarOff)) * std::max(1.0, e2 / 25);
    }
  }
  std::vector<SmoothOffset> out;
  out.reserve(line.size());
  for (const State& s : line) out.push_back({s.o, std::sqrt(std::max(0.0, s.poo))});
  return out;
}

}  // namespace rackside
