// SPDX-License-Identifier: GPL-3.0-or-later
// Waves along a face, followed across it: spectra along x of narrow bands, and how they agree from
// band to band.
#pragma once

#include <array>
#include <complex>
#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

// Accumulated over windows along the face. Frequencies in waves per mm.
struct WaveSpectrum {
  static constexpr double kBandMm = 2;
  // Bands this many apart are compared: 6, 16 and 48 mm.
  static constexpr std::array<int, 3> kLags = {3, 8, 24};

  double stepPerMm = 0;  // of frequency from bin to bin
  int bins = 0, bands = 0;
  double powerScale = 0;  // of a wave of mean square 1: the sum over its bins and their mirrors
  cv::Mat1d power;        // bands × bins
  std::array<cv::Mat_<cv::Vec2d>, 3> cross;  // by lag; row i compares bands i and i + lag
  double frequency(int bin) const { return bin * stepPerMm; }
  double middleMm(int band, int lag) const { return (band + 0.5 * lag + 0.5) * kBandMm; }
};

// `tone` with its slow changes along x taken out; 0 off the wood.
WaveSpectrum waveSpectrum(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx);

// Tone less its mean over ± reachMm along x (wood only), limited to three times its own spread so
// that knots do not drown the rest.
cv::Mat1f quickChanges(const cv::Mat1f& tone, const cv::Mat1b& wood, int reachPx);

}  // namespace rackside
