// SPDX-License-Identifier: GPL-3.0-or-later
// Proposes marks on the picture of one face: knots, holes, checks, gum, pith, bark, streaks, stain.
//
// A small network (mark_model.h) says what each place may be; connected pieces become marks with
// editable shapes. It was learned from labelled photographs of sawn softwood and from painted faces
// of other woods (vision/wood/propose/model.md): on other real woods it is less sure.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/run_control.h"
#include "vision/wood/propose/region_shape.h"

namespace rackside {

struct FaceToRead {
  cv::Mat bgr;   // CV_8UC3, fibres along x
  cv::Mat wood;  // CV_8U of its size: 255 where the wood is seen (no bench, no card, no crayon)
  double mmPerPx = 0;
};

struct ProposedMark {
  RegionKind kind = RegionKind::none;
  double confidence = 0;  // 0..1, that there is a mark: right in so many of 100 cases
  MarkShape shape;        // pixels of the picture that was given
};

// Surest first. `shareOfLeast` lowers the bar of each kind (for what a second view may confirm).
// Ends early, with what was found so far, when `run` says so.
std::vector<ProposedMark> proposeMarks(const FaceToRead& face, const MarkModel& model,
                                       RunControl& run, double shareOfLeast = 1);

// Why little is to be expected of proposals here: the face is darker, coarser or blurrier than what
// was learned from. Empty where it is not.
std::optional<std::string> weaknessOf(const FaceToRead& face);

}  // namespace rackside
