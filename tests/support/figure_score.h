// SPDX-License-Identifier: GPL-3.0-or-later
// Measures of how well the wood of a rendered face was read, shared by tests and benchmark.
#pragma once

#include <vector>

#include "tests/support/photo_wear.h"
#include "vision/wood/figure_maps.h"
#include "vision/wood/rank/wish.h"

namespace rackside::synthetic {

double quantile(std::vector<double> values, double share);
double correlation(const cv::Mat1f& a, const cv::Mat1f& b);

// Energy of the waves whose pitch along x is within 15 % of pitchMm and whose fronts run within
// about 15° of square across, in arbitrary units (a plain two-dimensional Fourier sum).
double bandEnergy(const cv::Mat1f& tone, double mmPerPx, double pitchMm);

// A board of the benchmark: species, log, saw and greyness drawn from the seed; one knot.
struct SawnCase {
  WoodSpec wood;
  PaintOptions paint;
  Rect face;
};
SawnCase sawnCase(uint32_t seed, const std::string& saw, bool curly);

// Angles between the grain read and the fibres' true direction, degrees, away from the knots.
std::vector<double> grainErrorsDeg(const FigureMaps& maps, const WoodLog& log, double z);

// The line between sapwood and heartwood on boards of a species, some without sapwood.
struct SapwoodScore {
  std::vector<double> errorsMm;  // along y, where the line was seen
  double missedShare = 0;        // of the line's length
  double falseBoards = 0, plainBoards = 0;
  bool saysUnsure = true;  // of every line it was less than half sure
};
SapwoodScore sapwoodScore(const std::string& species, int boards);

// How far the middle of a face fulfils a wish.
double faceScore(const PaintedWood& painted, const PhotoWear& wear, const std::string& species,
                 const Wish& wish);

// Kendall's tau of two lists of scores of the same things.
double kendallTau(const std::vector<double>& a, const std::vector<double>& b);

}  // namespace rackside::synthetic
