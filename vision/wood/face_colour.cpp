// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/face_colour.h"

#include <algorithm>
#include <map>
#include <opencv2/imgproc.hpp>

#include "vision/wood/grain_tensor.h"

namespace rackside {
namespace {

constexpr float kFloor = 4;

}  // namespace

double plainWarmth(const std::string& species) {
  static const std::map<std::string, double> known{
      {"cherry", 0.70}, {"walnut", 0.62}, {"maple", 0.36}, {"ash", 0.42}, {"oak", 0.52}};
  for (const auto& [word, warmth] : known)
    if (species.find(word) != std::string::npos) return warmth;
  return 0.36;
}

void readColour(const FaceRaster& raster, const std::string& species, FigureMaps& maps) {
  const cv::Size cells(maps.columns, maps.rows);
  cv::Mat masked(raster.bgr.size(), CV_8UC3, cv::Scalar::all(0)), sum;
  raster.bgr.copyTo(masked, raster.wood);
  cv::resize(masked, sum, cells, 0, 0, cv::INTER_AREA);
  auto& warm = maps.layers[size_t(FigureLayer::warmth)];
  auto& squared = maps.layers[size_t(FigureLayer::warmthSquared)];
  warm.assign(size_t(maps.columns) * maps.rows, 0);
  squared = warm;
  double total = 0, weight = 0, light = 0;
  for (int r = 0; r < maps.rows; ++r)
    for (int c = 0; c < maps.columns; ++c) {
      const float share = maps.at(FigureLayer::wood, c, r);
      if (share < 0.3F) continue;
      const auto& bgr = sum.at<cv::Vec3b>(r, c);
      const float value =
          std::log(std::max(kFloor, bgr[2] / share)) - std::log(std::max(kFloor, bgr[0] / share));
      warm[size_t(r) * maps.columns + c] = value;
      total += share * value;
      light += share * std::log(std::max(kFloor, (bgr[0] + bgr[1] + bgr[2]) / (3 * share)));
      weight += share;
    }
  const double mean = weight > 0 ? total / weight : 0;
  for (size_t i = 0; i < warm.size(); ++i) {
    const float share = maps.layers[size_t(FigureLayer::wood)][i];
    const float off = share < 0.3F ? 0.F : warm[i] - float(mean);
    warm[i] = share * off;
    squared[i] = share * off * off;
  }
  maps.colour.meanWarmth = mean;
  maps.colour.meanLight = weight > 0 ? light / weight : 0;
  maps.colour.freshness = std::clamp(mean / plainWarmth(species), 0.0, 1.0);
}

}  // namespace rackside
