// SPDX-License-Identifier: GPL-3.0-or-later
// Where to pass from one picture to the next so that nobody sees it.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

// For each row the column from which `b` (to the right) takes over from `a`: the path down the
// overlap along which the two differ least, in colour and in their edges. Pictures CV_32FC3 of one
// size, valid CV_8U. Without an overlap the seam lies between the two.
std::vector<int> seamBetween(const cv::Mat& a, const cv::Mat& validA, const cv::Mat& b,
                             const cv::Mat& validB);

}  // namespace rackside
