// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/trust_fit.h"

#include <algorithm>
#include <cmath>
#include <opencv2/core.hpp>

namespace rackside::test {
namespace {

constexpr int kFewest = 30;     // regions to learn from
constexpr double kPenalty = 2;  // on the square of each factor but the constant
constexpr int kIterations = 30;

double logOdds(double p) {
  const double q = std::clamp(p, 1e-4, 1 - 1e-4);
  return std::log(q / (1 - q));
}

}  // namespace

RegionTrust fitTrust(const std::vector<JudgedRegion>& regions, RegionFamily family) {
  std::vector<cv::Vec4d> rows;
  std::vector<double> right;
  for (const JudgedRegion& r : regions) {
    if (r.family != family) continue;
    rows.emplace_back(1, logOdds(r.mean), logOdds(r.top), std::log(std::max(r.areaPx, 1.0)));
    right.push_back(r.right);
  }
  if (static_cast<int>(rows.size()) < kFewest) return {};
  cv::Vec4d w(0, 0, 0, 0);
  for (int i = 0; i < kIterations; ++i) {
    cv::Matx44d h = cv::Matx44d::diag({1e-6, kPenalty, kPenalty, kPenalty});
    cv::Vec4d g(0, -kPenalty * w[1], -kPenalty * w[2], -kPenalty * w[3]);
    for (size_t n = 0; n < rows.size(); ++n) {
      const double p = 1 / (1 + std::exp(-w.dot(rows[n])));
      g += (right[n] - p) * rows[n];
      h += p * (1 - p) * rows[n] * rows[n].t();
    }
    w += h.solve(g, cv::DECOMP_CHOLESKY);
  }
  return {w[0], w[1], w[2], w[3]};
}

}  // namespace rackside::test
