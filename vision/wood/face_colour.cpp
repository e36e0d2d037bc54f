// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/face_colour.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/wood/species.h"
#include "vision/wood/grain_tensor.h"

namespace rackside {
namespace {

constexpr float kFloor = 4;          // of 255: keeps the logarithm of black finite
constexpr float kLeastShare = 0.3F;  // of wood in a cell that is judged

}  // namespace

double plainWarmth(const std::string& species) {
  const Species* wood = speciesNamed(species);
  switch (wood ? wood->traits.colour : WoodColour::pale) {
    case WoodColour::pale:
      return 0.36;
    case WoodColour::straw:
      return 0.42;
    case WoodColour::tan:
      return 0.52;
    case WoodColour::brown:
      return 0.62;
    case WoodColour::reddish:
      return 0.70;
  }
  return 0.36;
}

namespace {

struct CellColour {
  cv::Mat1f warmth, light, share;  // warmth and light as photographed; 0 where there is no wood
};

CellColour cellColour(const FaceRaster& raster, const FigureMaps& maps) {
  const cv::Size cells(maps.columns, maps.rows);
  cv::Mat masked(raster.bgr.size(), CV_8UC3, cv::Scalar::all(0)), sum;
  raster.bgr.copyTo(masked, raster.wood);
  cv::resize(masked, sum, cells, 0, 0, cv::INTER_AREA);
  CellColour c{cv::Mat1f(cells, 0.F), cv::Mat1f(cells, 0.F), cv::Mat1f(cells, 0.F)};
  for (int y = 0; y < maps.rows; ++y)
    for (int x = 0; x < maps.columns; ++x) {
      const float share = maps.at(FigureLayer::wood, x, y);
      if (share < kLeastShare) continue;
      const auto& bgr = sum.at<cv::Vec3b>(y, x);
      c.share(y, x) = share;
      c.warmth(y, x) =
          std::log(std::max(kFloor, bgr[2] / share)) - std::log(std::max(kFloor, bgr[0] / share));
      c.light(y, x) = std::log(std::max(kFloor, float(bgr[0] + bgr[1] + bgr[2]) / (3 * share)));
    }
  return c;
}

// The warmth that the heartwood shows: sapwood and dirt, which are less warm, are left out.
double heartWarmth(const CellColour& c) {
  std::vector<float> values;
  for (int y = 0; y < c.warmth.rows; ++y)
    for (int x = 0; x < c.warmth.cols; ++x)
      if (c.share(y, x) > 0) values.push_back(c.warmth(y, x));
  if (values.empty()) return 0;
  const auto at = values.begin() + std::ptrdiff_t(0.88 * double(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

// 1 where the colour shows: all of a fresh face, else the window planed clear in a grey one.
cv::Mat1f knownColour(const CellColour& c, double plain, double tint, FigureMaps& maps) {
  if (maps.colour.shows()) return c.share.clone();
  const cv::Mat1f broad = broadMean(c.warmth.mul(c.share), c.share, maps.cellMm);
  cv::Mat1f known(c.share.size(), 0.F);
  c.share.copyTo(known, broad >= tint + FaceColour::kFreshEnough * (plain - tint));
  maps.colour.windowShare = cv::sum(known)[0] / std::max(1e-9, cv::sum(c.share)[0]);
  return known;
}

void putLayer(FigureMaps& maps, FigureLayer layer, const cv::Mat1f& cells) {
  maps.layers[size_t(layer)].assign(cells.begin(), cells.end());
}

}  // namespace

void readColour(const FaceRaster& raster, const std::string& species, FigureMaps& maps) {
  const CellColour c = cellColour(raster, maps);
  // Known paper white takes the tint of the light out.
  const auto& white = maps.colour.white;
  const double tint = maps.colour.lightKnown() ? std::log(white[2] / white[0]) : 0;
  const double plain = plainWarmth(species) + tint, weight = std::max(1e-9, cv::sum(c.share)[0]);
  maps.colour.meanWarmth = c.warmth.dot(c.share) / weight;
  maps.colour.meanLight = c.light.dot(c.share) / weight;
  maps.colour.freshness = std::clamp((heartWarmth(c) - tint) / (plain - tint), 0.0, 1.0);
  const cv::Mat1f known = knownColour(c, plain, tint, maps);
  const double knownWeight = std::max(1e-9, cv::sum(known)[0]);
  const cv::Mat1f off = (c.warmth - c.warmth.dot(known) / knownWeight).mul(known);
  const cv::Mat1f broad = broadMean(off, known, maps.cellMm);
  putLayer(maps, FigureLayer::colourKnown, known);
  putLayer(maps, FigureLayer::warmth, broad.mul(known));
  putLayer(maps, FigureLayer::warmthSquared, broad.mul(broad).mul(known));
}

}  // namespace rackside
