// SPDX-License-Identifier: GPL-3.0-or-later
// Measures of how well the wood of a rendered face was read, shared by tests and benchmark.
#pragma once

#include <vector>

#include "tests/support/photo_wear.h"
#include "vision/wood/figure_maps.h"

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

// Kendall's tau of two lists of scores of the same things.
double kendallTau(const std::vector<double>& a, const std::vector<double>& b);

}  // namespace rackside::synthetic
