// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/ribbon_cells.h"

#include <algorithm>

#include "vision/face/roughness.h"

namespace rackside {
namespace {

constexpr double kCellAcrossMm = 0.5;

// The ribbon at the cells' step across, rows of the ribbon as columns: CV_32FC3, linear light.
cv::Mat acrossCells(const EdgeRibbon& r, int merge, int inner, int rows) {
  cv::Mat out(rows, int(r.rows.size()), CV_32FC3);
  for (int i = 0; i < out.cols; ++i)
    for (int y = 0; y < rows; ++y) {
      cv::Vec3f sum;
      for (int k = 0; k < merge; ++k) sum += r.light.at<cv::Vec3f>(i, inner + y * merge + k);
      out.at<cv::Vec3f>(y, i) = sum * (1.0F / float(merge));
    }
  return out;
}

cv::Vec3f cubeRoots(const cv::Vec3f& light) {
  return {100 * std::cbrt(light[0]), 100 * std::cbrt(light[1]), 100 * std::cbrt(light[2])};
}

cv::Mat brightness(const cv::Mat& light) {
  cv::Mat out(light.size(), CV_32F);
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x)
      out.at<float>(y, x) = 100 * std::cbrt(light.at<cv::Vec3f>(y, x).dot(cv::Vec3f(1, 1, 1)) / 3);
  return out;
}

}  // namespace

RibbonCells cellsOf(const EdgeRibbon& r) {
  RibbonCells c;
  const int merge = std::max(1, int(std::lround(kCellAcrossMm / r.stepMm)));
  c.acrossMm = merge * r.stepMm;
  c.middle = r.middle / merge;
  const int inner = r.middle - c.middle * merge;  // columns left over
  const cv::Size size(std::max(1, int(r.rows.size()) / kRibbonRowsPerCell),
                      (r.light.cols - inner) / merge);
  const cv::Mat light = acrossCells(r, merge, inner, size.height);
  const cv::Mat changes = changesAlong(brightness(light));
  c.colour = cv::Mat::zeros(size, CV_32FC3);
  c.changes = cv::Mat::zeros(size, CV_32FC3);
  c.weight = cv::Mat::zeros(size, CV_32F);
  for (int x = 0; x < size.width; ++x) {
    const int first = x * kRibbonRowsPerCell,
              last = std::min(int(r.rows.size()), first + kRibbonRowsPerCell);
    bool seen = true;
    for (int i = first; i < last; ++i) seen &= r.rows[size_t(i)].seen && !r.rows[size_t(i)].hidden;
    c.wallMm.push_back(r.rows[size_t(first)].wallMm);
    if (!seen) continue;
    for (int y = 0; y < size.height; ++y) {
      cv::Vec3f sum, change;
      for (int i = first; i < last; ++i)
        sum += light.at<cv::Vec3f>(y, i), change += changes.at<cv::Vec3f>(y, i);
      const float share = 1.0F / float(last - first);
      c.colour.at<cv::Vec3f>(y, x) = cubeRoots(sum * share);
      c.changes.at<cv::Vec3f>(y, x) = change * share;
      c.weight.at<float>(y, x) = 1;
    }
  }
  return c;
}

int ribbonCells(double alongMm) {
  return int(std::lround(alongMm / kRibbonRowsPerCell / kRibbonRowMm)) | 1;
}

RibbonSums::RibbonSums(const RibbonCells& c, double alongMm)
    : sum_(cv::Mat::zeros(c.colour.rows + 1, c.colour.cols, CV_32FC3)) {
  const cv::Mat smooth = averagedAlong(c.colour, c.weight, ribbonCells(alongMm));
  for (int y = 0; y < smooth.rows; ++y)
    for (int x = 0; x < smooth.cols; ++x)
      sum_.at<cv::Vec3f>(y + 1, x) = sum_.at<cv::Vec3f>(y, x) + smooth.at<cv::Vec3f>(y, x);
}

}  // namespace rackside
