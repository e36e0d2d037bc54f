// SPDX-License-Identifier: GPL-3.0-or-later
// Finds square codes of cards and tags in a photograph and reads them.
//
// Method: dark quadrilaterals from an adaptive threshold of a reduced picture, their sides moved on
// to the edges of the full picture, modules sampled through the quadrilateral's homography and
// compared with the code sets of card_model (as in Garrido-Jurado et al., Pattern Recognition 47,
// 2014). A code here is a candidate: card_finder decides whether it is believed.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <optional>
#include <vector>

namespace rackside {

enum class CodeKind { card, tag };

struct ReadCode {
  CodeKind kind = CodeKind::card;
  int id = 0;
  int wrongBits = 0;                     // modules of data that differ from the code
  double contrast = 0;                   // white minus black, grey levels
  std::array<cv::Point2d, 4> cornersPx;  // as PrintedCode::corners, image frame
};

// grey: CV_8UC1. No two codes overlap; the order is arbitrary but fixed.
std::vector<ReadCode> readCodes(const cv::Mat& grey);

// How many data modules of the card code `id` look wrong when its top left module begins at (0, 0)
// of `imageFromGrid` and a module is 1 wide (x right, y down the code); empty where no frame of a
// code is seen.
std::optional<int> wrongBitsOfCardCode(const cv::Mat& grey, int id,
                                       const cv::Matx33d& imageFromGrid);

}  // namespace rackside
