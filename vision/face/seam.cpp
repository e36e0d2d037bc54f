// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/seam.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr float kOutside = 1e4f;
constexpr float kStepCost = 2;    // of a step aside between two rows
constexpr float kOffMiddle = 12;  // at either end of the overlap, where pictures are least sharp

cv::Mat greyOf(const cv::Mat& bgr) {
  cv::Mat grey;
  cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
  return grey;
}

// Difference of the two pictures and of their gradients.
cv::Mat difference(const cv::Mat& a, const cv::Mat& b) {
  cv::Mat ga = greyOf(a), gb = greyOf(b), sum = cv::abs(ga - gb);
  for (int dx = 0; dx < 2; ++dx) {
    cv::Mat da, db;
    cv::Sobel(ga, da, CV_32F, dx, 1 - dx);
    cv::Sobel(gb, db, CV_32F, dx, 1 - dx);
    sum += 0.5 * cv::abs(da - db);
  }
  return sum;
}

// Columns where both pictures cover the whole height, as far as they do at all.
bool overlapColumns(const cv::Mat& validA, const cv::Mat& validB, int& from, int& to) {
  cv::Mat both = validA & validB, columns;
  cv::reduce(both, columns, 0, cv::REDUCE_AVG, CV_32F);
  from = -1, to = -1;
  for (int x = 0; x < columns.cols; ++x)
    if (columns.at<float>(0, x) > 250) {
      if (from < 0) from = x;
      to = x;
    }
  return to > from + 2;
}

int middleOf(const cv::Mat& valid) {
  const cv::Moments m = cv::moments(valid, true);
  return m.m00 > 0 ? int(m.m10 / m.m00) : valid.cols / 2;
}

}  // namespace

std::vector<int> seamBetween(const cv::Mat& a, const cv::Mat& validA, const cv::Mat& b,
                             const cv::Mat& validB) {
  const int rows = a.rows;
  int from, to;
  if (!overlapColumns(validA, validB, from, to))
    return std::vector<int>(size_t(rows), (middleOf(validA) + middleOf(validB)) / 2);
  const int width = to - from + 1;
  cv::Mat cost = difference(a, b).colRange(from, to + 1).clone(), total(rows, width, CV_32F),
          step(rows, width, CV_8S, cv::Scalar(0));
  for (int x = 0; x < width; ++x) {
    const float off = 2 * std::abs(float(x) / float(width) - 0.5f);
    cost.col(x) += kOffMiddle * off * off + (x == 0 || x == width - 1 ? kOutside : 0);
  }
  cost.row(0).copyTo(total.row(0));
  for (int y = 1; y < rows; ++y)
    for (int x = 0; x < width; ++x) {
      float best = 1e30f;
      for (int d = -2; d <= 2; ++d) {
        if (x + d < 0 || x + d >= width) continue;
        const float t = total.at<float>(y - 1, x + d) + kStepCost * float(std::abs(d));
        if (t < best) best = t, step.at<schar>(y, x) = schar(d);
      }
      total.at<float>(y, x) = best + cost.at<float>(y, x);
    }
  std::vector<int> seam(static_cast<size_t>(rows));
  int x = 0;
  for (int k = 1; k < width; ++k)
    if (total.at<float>(rows - 1, k) < total.at<float>(rows - 1, x)) x = k;
  for (int y = rows - 1; y >= 0; --y) {
    seam[size_t(y)] = from + x;
    x += step.at<schar>(y, x);
  }
  return seam;
}

}  // namespace rackside
