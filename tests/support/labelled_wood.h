// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs of sawn wood with labelled defects, where they are present: the folder named by
// RACKSIDE_WOOD_SURFACE, with images/*.jpg, masks/*.png and index.csv. They are out of the open
// data set of Kodytek, Bodzas and Bilik, "A large-scale image dataset of wood surface defects for
// automated vision-based quality control processes", F1000Research 10:581, 2021, CC BY 4.0.
#pragma once

#include <filesystem>
#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <vector>

namespace rackside::test {

struct LabelledWood {
  std::string name;
  // Turned so that the fibres run along x, as photographed (about 0.25 mm a pixel).
  cv::Mat bgr, labels;  // CV_8UC3; CV_8U, 0 or the label
  cv::Mat wood;         // CV_8U, 255 wood, 0 the belt it lies on
};

struct LabelRegion {
  int label = 0;
  cv::Rect box;
  cv::Mat mask;  // CV_8U of box's size
  double areaPx = 0;
  cv::Point2d middle;
};

std::optional<std::filesystem::path> woodSurfaceFolder();
std::vector<std::string> woodSurfaceNames(const std::filesystem::path& folder);
LabelledWood loadLabelledWood(const std::filesystem::path& folder, const std::string& name);
// Spots smaller than this are slips of the labelling, in pixels of the full size.
inline constexpr double kLeastLabelPx = 30;
std::vector<LabelRegion> labelRegions(const cv::Mat& labels, double leastPx = kLeastLabelPx);

// Half size: the sampling at which marks are looked for.
LabelledWood halved(const LabelledWood& full);

}  // namespace rackside::test
