// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/border_path.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr int kSway = 2;       // rows, of another path about a parallel to ours
constexpr float kNowhere = 6;  // dearer than that counts no more

// Least of the previous column's totals plus the steps' cost, for every row at once.
void stepOver(const float* before, float* after, int rows, const BorderPathOptions& o) {
  std::copy(before, before + rows, after);
  for (int d = 1; d <= o.largestStep; ++d) {
    const float cost = float(d * o.stepCost);
    for (int y = d; y < rows; ++y) after[y] = std::min(after[y], before[y - d] + cost);
    for (int y = 0; y + d < rows; ++y) after[y] = std::min(after[y], before[y + d] + cost);
  }
}

// By column (a row of the result): the cost of the best path from one end to each place, the
// place's own cost included. `costs` is transposed: one row a column of the problem.
cv::Mat totalsFrom(const cv::Mat& costs, const BorderPathOptions& o, bool backwards) {
  cv::Mat total(costs.size(), CV_32F);
  const int n = costs.rows;
  for (int i = 0; i < n; ++i) {
    const int x = backwards ? n - 1 - i : i;
    float* here = total.ptr<float>(x);
    const float* cost = costs.ptr<float>(x);
    if (i == 0)
      std::fill(here, here + costs.cols, 0.0f);
    else
      stepOver(total.ptr<float>(backwards ? x + 1 : x - 1), here, costs.cols, o);
    for (int y = 0; y < costs.cols; ++y) here[y] += cost[y];
  }
  return total;
}

std::vector<int> bestRows(const cv::Mat& through) {
  std::vector<int> rows;
  for (int x = 0; x < through.rows; ++x) {
    const float* here = through.ptr<float>(x);
    const int last = rows.empty() ? -1 : rows.back();
    int best = 0;
    for (int y = 1; y < through.cols; ++y) {
      // Of equally good places the one nearer to the last.
      const bool nearer = last >= 0 && std::abs(y - last) < std::abs(best - last);
      if (here[y] < here[best] - 1e-4f || (here[y] < here[best] + 1e-4f && nearer)) best = y;
    }
    rows.push_back(best);
  }
  return rows;
}

std::vector<double> margins(const cv::Mat& cost, const std::vector<int>& rows,
                            const BorderPathOptions& o) {
  cv::Mat swayed;  // the least of each cell's neighbourhood across
  cv::erode(cost, swayed, cv::Mat::ones(2 * kSway + 1, 1, CV_8U));
  cv::Mat worse(2 * o.farthest + 1, cost.cols, CV_32F, cv::Scalar(kNowhere)), summed;
  for (int x = 0; x < cost.cols; ++x) {
    const float ours = cost.at<float>(rows[size_t(x)], x);
    for (int k = -o.farthest; k <= o.farthest; ++k) {
      const int y = rows[size_t(x)] + k;
      if (std::abs(k) >= o.samePlace + kSway && y >= 0 && y < cost.rows)
        worse.at<float>(k + o.farthest, x) = std::min(kNowhere, swayed.at<float>(y, x) - ours);
    }
  }
  cv::boxFilter(worse, summed, CV_32F, {o.window | 1, 1}, {-1, -1}, false, cv::BORDER_REPLICATE);
  std::vector<double> out;
  for (int x = 0; x < cost.cols; ++x) {
    double least = 0;
    cv::minMaxLoc(summed.col(x), &least);
    out.push_back(least);
  }
  return out;
}

}  // namespace

BorderPath cheapestBorder(const cv::Mat& cost, const BorderPathOptions& options,
                          const cv::Mat& leaning) {
  const cv::Mat costs = leaning.empty() ? cv::Mat(cost.t()) : cv::Mat((cost + leaning).t());
  const std::vector<int> rows =
      bestRows(totalsFrom(costs, options, false) + totalsFrom(costs, options, true) - costs);
  return {rows, margins(cost, rows, options)};
}

}  // namespace rackside
