// SPDX-License-Identifier: GPL-3.0-or-later
// The marks a saw left across a rough face: found, and taken out along their own direction only.
//
// A band saw leaves straight lines nearly square across the board, a circular saw arcs of one
// radius; both at an even pitch, unbroken from edge to edge. Wood that ripples across the grain
// (curl) can look alike, but its waves break up within a few centimetres across the board and keep
// no even pitch. Both are measured, and what cannot be told apart is left in and said to be unsure.
#pragma once

#include <opencv2/core.hpp>
#include <string>

namespace rackside {

struct SawMarks {
  enum class Kind { none, straight, arced };
  Kind kind = Kind::none;
  double pitchMm = 0;
  double slantRad = 0;        // of the marks from square across (+y), towards +x, at middleYMm
  double curvaturePerMm = 0;  // 1 / radius; > 0 bulges towards -x; about 0 when straight
  double middleYMm = 0;       // raster y (mm from its first row) where the slant is stated
  double strength = 0;        // rms of the marks, as a share of the light
  // 0..1: that what was found is a saw's and not ripple of the wood. Marks are taken out from
  // kSureEnough on.
  double confidence = 0;
  // What the confidence rests on, for those who doubt it: share of the wave that holds together
  // over 48 mm across the board, and how narrow its pitch is (1: one pitch).
  double unbroken = 0;
  double steadiness = 0;

  static constexpr double kSureEnough = 0.5;
  bool found() const { return kind != Kind::none; }
  bool sure() const { return found() && confidence >= kSureEnough; }
  double radiusMm() const { return kind == Kind::arced ? 1 / std::abs(curvaturePerMm) : 0; }
  // How far a mark is shifted along x at y (mm from the raster's first row) against middleYMm.
  double offsetMm(double y) const;
};

// In plain words: what was found and how sure.
std::string describe(const SawMarks& marks);

// `tone`: natural logarithm of the light, evened (vision/wood/tone.h), rows across the board;
// `wood`: 255 where it counts.
SawMarks findSawMarks(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx);

// The marks alone: subtract from the tone. Zero off the wood.
cv::Mat1f sawMarkTone(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx,
                      const SawMarks& marks);

}  // namespace rackside
