// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/smooth_line.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kWindowMm = 12;      // of the local line, to either side
constexpr double kBridgeBaseMm = 60;  // of measured side that a bridge leans on

double medianOf(std::vector<double> v) {
  std::nth_element(v.begin(), v.begin() + std::ptrdiff_t(v.size() / 2), v.end());
  return v[v.size() / 2];
}

struct LocalLine {
  double level = 0, slope = 0, scatter = 0, count = 0;
};

// Weighted line through the points [a, b] about `centre`, twice reweighted against outliers.
LocalLine fitLine(const std::vector<double>& y, const std::vector<double>& w, int a, int b,
                  double centre, double step) {
  LocalLine line;
  double spread = 1e9;
  for (int pass = 0; pass < 3; ++pass) {
    double s = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, residual = 0, s2 = 0;
    for (int i = a; i <= b; ++i) {
      if (w[size_t(i)] <= 0) continue;
      const double x = (i - centre) * step, r = y[size_t(i)] - line.level - line.slope * x;
      const double robust = pass ? 1 / (1 + r * r / (spread * spread * 4)) : 1;
      const double weight = std::min(w[size_t(i)], 20.0) * robust;
      s += weight, sx += weight * x, sy += weight * y[size_t(i)];
      sxx += weight * x * x, sxy += weight * x * y[size_t(i)], s2 += weight * weight;
    }
    if (s <= 0) return line;
    const double det = s * sxx - sx * sx;
    line.slope = det > 1e-6 * s * s ? (s * sxy - sx * sy) / det : 0;
    line.level = (sy - line.slope * sx) / s;
    for (int i = a; i <= b; ++i) {
      if (w[size_t(i)] <= 0) continue;
      const double r = y[size_t(i)] - line.level - line.slope * (i - centre) * step;
      residual += std::min(w[size_t(i)], 20.0) * std::min(r * r, 4.0);
    }
    spread = std::max(0.05, std::sqrt(residual / s));
    line.scatter = spread;
    line.count = s * s / s2;
  }
  return line;
}

// From the measured sides of a gap [a, b): a straight line between the two.
void bridge(const std::vector<double>& y, const std::vector<double>& w, int a, int b, double step,
            SmoothOffsets& out) {
  const int n = int(y.size()), base = int(kBridgeBaseMm / step);
  const LocalLine before =
      a > 0 ? fitLine(y, w, std::max(0, a - base), a - 1, a, step) : LocalLine{};
  const LocalLine after =
      b < n ? fitLine(y, w, b, std::min(n - 1, b + base), b, step) : LocalLine{};
  for (int i = a; i < b; ++i) {
    const double t = (i - a + 0.5) / (b - a);
    double level = before.level * (1 - t) + after.level * t;
    if (before.count <= 0) level = after.level;
    if (after.count <= 0) level = before.level;
    out.offset[size_t(i)] = level;
    out.sigma[size_t(i)] = std::max(before.scatter, after.scatter);
    out.gapMm[size_t(i)] = (b - a) * step;
  }
}

}  // namespace

std::vector<Point> smoothed(const std::vector<Point>& line, const std::vector<bool>& keep) {
  const int n = int(line.size());
  std::vector<Point> median = line, out = line;
  for (int i = 0; i < n; ++i) {
    std::vector<double> around;
    for (int j = std::max(0, i - 2); j <= std::min(n - 1, i + 2); ++j)
      if (keep[size_t(j)]) around.push_back(line[size_t(j)].y);
    if (!around.empty()) median[size_t(i)].y = medianOf(around);
  }
  for (int i = 0; i < n; ++i) {
    double sum = 0;
    int count = 0;
    for (int j = std::max(0, i - 1); j <= std::min(n - 1, i + 1); ++j, ++count)
      sum += median[size_t(j)].y;
    out[size_t(i)].y = sum / count;
  }
  for (int a = 0; a < n; ++a) {
    if (keep[size_t(a)]) continue;
    int b = a;
    while (b < n && !keep[size_t(b)]) ++b;
    const double before = a > 0   ? out[size_t(a - 1)].y
                          : b < n ? out[size_t(b)].y
                                  : out[size_t(a)].y;
    const double after = b < n ? out[size_t(b)].y : before;
    for (int i = a; i < b; ++i)
      out[size_t(i)].y = before + (after - before) * (i - a + 1.0) / (b - a + 1.0);
    a = b;
  }
  return out;
}

SmoothOffsets smoothOffsets(const std::vector<double>& offset, const std::vector<double>& weight,
                            double step) {
  const int n = int(offset.size()), half = int(kWindowMm / step);
  SmoothOffsets out{offset, std::vector<double>(offset.size(), 0.0),
                    std::vector<double>(offset.size(), 0.0)};
  for (int i = 0; i < n; ++i) {
    const LocalLine line =
        fitLine(offset, weight, std::max(0, i - half), std::min(n - 1, i + half), i, step);
    out.offset[size_t(i)] = line.level;
    out.sigma[size_t(i)] = line.scatter;
  }
  for (int a = 0; a < n; ++a) {
    if (weight[size_t(a)] > 0) continue;
    int b = a;
    while (b < n && weight[size_t(b)] <= 0) ++b;
    bridge(offset, weight, a, b, step, out);
    a = b;
  }
  return out;
}

}  // namespace rackside
