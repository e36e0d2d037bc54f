// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/smooth_line.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

double medianOf(std::vector<double> v) {
  std::nth_element(v.begin(), v.begin() + std::ptrdiff_t(v.size() / 2), v.end());
  return v[v.size() / 2];
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

}  // namespace rackside
