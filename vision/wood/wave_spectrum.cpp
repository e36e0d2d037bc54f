// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/wave_spectrum.h"

#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kWindowMm = 256;
constexpr double kHopShare = 0.75;  // of the window
constexpr double kReachMm = 16;     // slower changes along x are no saw's
constexpr double kFinestMm = 1.2;   // shortest wave looked at

cv::Mat1f bandMeans(const cv::Mat1f& quick, int bandPx) {
  cv::Mat1f means;
  const int bands = quick.rows / bandPx;
  cv::resize(quick.rowRange(0, bands * bandPx), means, {quick.cols, bands}, 0, 0, cv::INTER_AREA);
  return means;
}

void addWindow(const cv::Mat1f& window, WaveSpectrum& s) {
  cv::Mat spectrum;
  cv::dft(window, spectrum, cv::DFT_ROWS | cv::DFT_COMPLEX_OUTPUT);
  const auto at = [&](int band, int bin) { return spectrum.at<cv::Vec2f>(band, bin); };
  for (int i = 0; i < s.bands; ++i)
    for (int f = 0; f < s.bins; ++f) s.power(i, f) += at(i, f).dot(at(i, f));
  for (size_t k = 0; k < s.kLags.size(); ++k)
    for (int i = 0; i + s.kLags[k] < s.bands; ++i) {
      const int j = i + s.kLags[k];
      for (int f = 0; f < s.bins; ++f) {
        const cv::Vec2f a = at(i, f), b = at(j, f);
        s.cross[k](i, f) += cv::Vec2d(a[0] * b[0] + a[1] * b[1], a[0] * b[1] - a[1] * b[0]);
      }
    }
}

}  // namespace

cv::Mat1f quickChanges(const cv::Mat1f& tone, const cv::Mat1b& wood, int reachPx) {
  cv::Mat1f weight, mean, share;
  wood.convertTo(weight, CV_32F, 1 / 255.0);
  const cv::Size box(2 * reachPx + 1, 1);
  cv::boxFilter(tone.mul(weight), mean, CV_32F, box, {-1, -1}, false, cv::BORDER_CONSTANT);
  cv::boxFilter(weight, share, CV_32F, box, {-1, -1}, false, cv::BORDER_CONSTANT);
  cv::max(share, 1, share);
  cv::Mat1f quick = (tone - mean / share).mul(weight);
  const double count = std::max(1.0, cv::sum(weight)[0]);
  double limit = 3 * std::sqrt(quick.dot(quick) / count);
  for (int round = 0; round < 2; ++round) {
    cv::min(quick, limit, quick);
    cv::max(quick, -limit, quick);
    limit = 3 * std::sqrt(quick.dot(quick) / count);
  }
  return quick;
}

WaveSpectrum waveSpectrum(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx) {
  WaveSpectrum s;
  const int bandPx = std::max(1, cvRound(s.kBandMm / mmPerPx));
  const int length =
      2 * cv::getOptimalDFTSize((std::min(tone.cols, cvRound(kWindowMm / mmPerPx)) + 1) / 2);
  const cv::Mat1f means = bandMeans(quickChanges(tone, wood, cvRound(kReachMm / mmPerPx)), bandPx);
  s.stepPerMm = 1 / (length * mmPerPx);
  s.bands = means.rows;
  s.bins = std::min(length / 2, int(std::ceil(1 / (kFinestMm * s.stepPerMm))));
  s.power = cv::Mat1d(s.bands, s.bins, 0.0);
  for (auto& c : s.cross) c = cv::Mat_<cv::Vec2d>(s.bands, s.bins, cv::Vec2d(0, 0));
  cv::Mat1f hann(1, length);
  for (int x = 0; x < length; ++x) hann(x) = float(0.5 - 0.5 * std::cos(2 * CV_PI * x / length));
  const int hop = std::max(1, int(length * kHopShare));
  for (int x = 0; x == 0 || x + length <= means.cols; x += hop) {
    cv::Mat1f window(s.bands, length, 0.F);
    const int width = std::min(length, means.cols - x);
    means.colRange(x, x + width).copyTo(window.colRange(0, width));
    for (int i = 0; i < s.bands; ++i) cv::multiply(window.row(i), hann, window.row(i));
    addWindow(window, s);
    // Parseval: the squares of a window's values, summed, times its length.
    s.powerScale += length * hann.dot(hann);
  }
  return s;
}

}  // namespace rackside
