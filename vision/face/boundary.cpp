// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/boundary.h"

#include <algorithm>
#include <numeric>

#include "vision/face/boundary_cost.h"

namespace rackside {
namespace {

constexpr int kLargestStep = 4;      // rows between neighbouring columns
constexpr double kWindowMm = 160;    // over which a place is compared with its rivals
constexpr double kSamePlaceMm = 4;   // nearer than this is the same place
constexpr double kFarthestMm = 250;  // rivals are looked for this far

// The cheapest path from left to right; O(columns · rows · steps).
std::vector<int> cheapestPath(const cv::Mat& cost, double stiffness) {
  cv::Mat total(cost.size(), CV_32F), from(cost.size(), CV_8S);
  cost.col(0).copyTo(total.col(0));
  for (int x = 1; x < cost.cols; ++x)
    for (int y = 0; y < cost.rows; ++y) {
      float best = 1e30f;
      int step = 0;
      for (int d = -kLargestStep; d <= kLargestStep; ++d) {
        if (y + d < 0 || y + d >= cost.rows) continue;
        const float t = total.at<float>(y + d, x - 1) + float(stiffness * std::abs(d));
        if (t < best) best = t, step = d;
      }
      total.at<float>(y, x) = best + cost.at<float>(y, x);
      from.at<schar>(y, x) = schar(step);
    }
  std::vector<int> path(size_t(cost.cols));
  int y = 0;
  for (int k = 1; k < cost.rows; ++k)
    if (total.at<float>(k, cost.cols - 1) < total.at<float>(y, cost.cols - 1)) y = k;
  for (int x = cost.cols - 1; x >= 0; --x) {
    path[size_t(x)] = y;
    y += from.at<schar>(y, x);
  }
  return path;
}

void windowedGain(const cv::Mat& cost, const std::vector<int>& path, int half,
                  std::vector<BoundaryColumn>& columns) {
  const int n = cost.cols;
  for (int x = 0; x < n; ++x) {
    double sum = 0, count = 0;
    for (int i = std::max(0, x - half / 2); i <= std::min(n - 1, x + half / 2); ++i)
      if (!columns[size_t(i)].hidden) sum -= cost.at<float>(path[size_t(i)], i), count += 1;
    columns[size_t(x)].gain = count > 0 ? sum / count : 0;
  }
}

// For each shift outward, the cost of the path moved by it; windowed means of the difference tell
// how clear the choice is at each column.
void compareWithRivals(const BoundaryProblem& problem, const cv::Mat& cost,
                       const std::vector<int>& path, std::vector<BoundaryColumn>& columns) {
  const int n = cost.cols, half = std::max(1, int(kWindowMm / 2 / problem.alongMm));
  const int same = int(std::ceil(kSamePlaceMm / problem.acrossMm));
  const int far = int(kFarthestMm / problem.acrossMm);
  windowedGain(cost, path, half, columns);
  for (auto& c : columns) c.margin = 1e9;
  std::vector<double> sums(size_t(n) + 1), counts(size_t(n) + 1);
  for (int shift = -far; shift <= far; ++shift) {
    if (std::abs(shift) < same) continue;
    for (int x = 0; x < n; ++x) {
      const int y = path[size_t(x)], other = y + shift;
      const bool there =
          other >= problem.first[size_t(x)] && other < cost.rows && !columns[size_t(x)].hidden;
      const double worse = there ? cost.at<float>(other, x) - cost.at<float>(y, x) : 0;
      sums[size_t(x) + 1] = sums[size_t(x)] + std::min(worse, 6.0);
      counts[size_t(x) + 1] = counts[size_t(x)] + there;
    }
    for (int x = 0; x < n; ++x) {
      const size_t a = size_t(std::max(0, x - half)), b = size_t(std::min(n, x + half + 1));
      const double count = counts[b] - counts[a];
      if (count < 0.5 * double(b - a)) continue;
      const double margin = (sums[b] - sums[a]) / count;
      if (margin < columns[size_t(x)].margin) columns[size_t(x)].margin = margin;
    }
  }
}

}  // namespace

std::vector<BoundaryColumn> findBoundary(const BoundaryProblem& problem) {
  const BoundaryCost cost = boundaryCost(problem);
  const std::vector<int> path = cheapestPath(cost.total, problem.stiffness);
  std::vector<BoundaryColumn> columns(path.size());
  for (size_t i = 0; i < path.size(); ++i) {
    BoundaryColumn& c = columns[i];
    const int x = int(i), y = path[i];
    c.row = y;
    c.hidden = cost.hidden.at<uchar>(y, x);
    const int beyond = std::min(problem.seen.rows - 1, y + 2);
    c.atPictureEdge = problem.seen.at<uchar>(beyond, x) == 0 || y >= problem.seen.rows - 2;
  }
  compareWithRivals(problem, cost.total, path, columns);
  return columns;
}

}  // namespace rackside
