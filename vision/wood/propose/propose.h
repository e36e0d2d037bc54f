// SPDX-License-Identifier: GPL-3.0-or-later
// Proposes marks on the picture of one face: knots, holes, checks, gum, pith, streaks and stain.
//
// Each pixel is judged by boosted trees over its tone and figure at several scales; pieces of the
// maps are then judged whole, against what lies round them. Both judges were learned from labelled
// photographs of sawn softwood (vision/wood/propose/model.md): on other woods they are less sure.
#pragma once

#include <vector>

#include "core/base/run_control.h"
#include "vision/wood/propose/region_shape.h"

namespace rackside {

struct ProposeModel {
  PixelModel pixels;
  BoostedTrees judge;
  std::vector<uint8_t> toBytes() const;
  static Result<ProposeModel> fromBytes(const std::vector<uint8_t>& bytes);
};
// The one that is built in.
const ProposeModel& builtInProposeModel();

struct FaceToRead {
  cv::Mat bgr;   // CV_8UC3, fibres along x
  cv::Mat wood;  // CV_8U of its size: 255 where the wood is seen (no bench, no card, no crayon)
  double mmPerPx = 0;
};

struct ProposedMark {
  RegionKind kind = RegionKind::none;
  double confidence = 0;  // 0..1, that there is a mark
  MarkShape shape;        // pixels of the picture that was given
};

// How sure a proposal of a kind has to be to be shown.
double leastConfidence(RegionKind kind);

// Surest first. `shareOfLeast` lowers the bar (for what a second view may confirm). Ends early,
// with what was found so far, when `run` says so.
std::vector<ProposedMark> proposeMarks(const FaceToRead& face, const ProposeModel& model,
                                       RunControl& run, double shareOfLeast = 1);

}  // namespace rackside
