// SPDX-License-Identifier: GPL-3.0-or-later
// The cheapest path through a grid of costs from the first column to the last, one row a column,
// and how clear the choice is.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

struct BorderPathOptions {
  double stepCost = 0.15;  // of a step of one row between neighbouring columns
  int largestStep = 4;
  int samePlace = 3;   // rows; a path nearer than this is not another one
  int farthest = 160;  // rows; others are looked for so far off
  int window = 25;     // columns over which another path has to be compared
};

struct BorderPath {
  std::vector<int> row;  // by column
  // By column: how much dearer, summed over the window, the best path elsewhere is that runs along
  // ours (it may sway by two rows).
  std::vector<double> margin;
};

// cost: CV_32F, rows across, columns along. `leaning`, of the same size or empty, is added when
// the path is chosen, but has no say in how clear the choice was.
BorderPath cheapestBorder(const cv::Mat& cost, const BorderPathOptions& options,
                          const cv::Mat& leaning = {});

}  // namespace rackside
