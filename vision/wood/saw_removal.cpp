// SPDX-License-Identifier: GPL-3.0-or-later
// Takes the saw's waves out: row by row into waves along x, the rows laid on each other along the
// marks' shape, smoothed across the board (which leaves only what runs along the marks), laid back.
#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "vision/wood/saw_marks.h"
#include "vision/wood/wave_spectrum.h"

namespace rackside {
namespace {

constexpr double kBandMm = 2;      // rows are averaged to bands of this width once aligned
constexpr double kAlongMm = 9;     // standard deviation of the smoothing along a mark
constexpr double kLowShare = 0.5;  // waves from this share of the marks' frequency on …
constexpr double kFullShare = 0.7;
constexpr double kHighest = 7;  // … up to this multiple, which makes a mark's sharp edge
constexpr double kReachMm = 24;

// Where the tone is the wood's plain surface: not off the board, not in a knot or a crack.
cv::Mat1f plainWood(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx) {
  cv::Mat1f smooth, weight;
  wood.convertTo(weight, CV_32F, 1 / 255.0);
  const int side = std::max(1, cvRound(3 / mmPerPx)) | 1;
  cv::boxFilter(tone, smooth, CV_32F, {side, side});
  cv::Scalar mean, spread;
  cv::meanStdDev(smooth, mean, spread, wood);
  const double limit = std::max(0.10, 2.6 * spread[0]);
  cv::Mat odd;
  cv::compare(cv::abs(smooth - mean[0]), limit, odd, cv::CMP_GT);
  cv::dilate(odd, odd, cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * side + 1, 2 * side + 1}));
  weight.setTo(0, odd);
  return weight;
}

float ramp(double low, double high, double v) {
  return static_cast<float>(std::clamp((v - low) / (high - low), 0.0, 1.0));
}

// 2 G - G²: smooths like G but keeps slow waver whole.
cv::Mat smoothedAlong(const cv::Mat& bands) {
  const double sigma = kAlongMm / kBandMm;
  cv::Mat once, twice;
  cv::GaussianBlur(bands, once, {1, 0}, 1e-6, sigma, cv::BORDER_CONSTANT);
  cv::GaussianBlur(once, twice, {1, 0}, 1e-6, sigma, cv::BORDER_CONSTANT);
  return 2 * once - twice;
}

// Rows to bands and back, linearly.
struct BandWeights {
  int bandPx, bands;
  explicit BandWeights(int rows, double mmPerPx)
      : bandPx(std::max(1, cvRound(kBandMm / mmPerPx))), bands((rows + bandPx - 1) / bandPx) {}
  int bandOf(int row) const { return row / bandPx; }
  std::pair<int, float> below(int row) const {
    const double at = (row + 0.5) / bandPx - 0.5;
    const int low = std::clamp(int(std::floor(at)), 0, std::max(0, bands - 2));
    return {low, float(std::clamp(at - low, 0.0, 1.0))};
  }
};

// Packed spectra of the rows (cv::dft of reals: Re 0, Re 1, Im 1, …), bins [first, last].
class AlignedBands {
 public:
  AlignedBands(const cv::Mat1f& packed, const BandWeights& w, const SawMarks& marks, double mmPerPx,
               int first, int last)
      : w_(w),
        marks_(marks),
        mm_(mmPerPx),
        first_(first),
        last_(last),
        stepPerMm_(1 / (packed.cols * mmPerPx)) {
    bands_ = cv::Mat::zeros(w.bands, last - first + 1, CV_32FC2);
    for (int y = 0; y < packed.rows; ++y) {
      auto* band = bands_.ptr<cv::Vec2f>(w.bandOf(y));
      walk(y, 1, [&](int k, cv::Vec2f turn) {
        const cv::Vec2f v = at(packed, y, first_ + k);
        band[k] += cv::Vec2f(v[0] * turn[0] - v[1] * turn[1], v[0] * turn[1] + v[1] * turn[0]);
      });
    }
    bands_ = smoothedAlong(bands_) / float(w.bandPx);
  }
  // Overwrites `packed` with the marks' own spectra.
  void layBack(const std::vector<float>& gain, cv::Mat1f& packed) const {
    packed = 0;
    for (int y = 0; y < packed.rows; ++y) {
      const auto [low, part] = w_.below(y);
      const auto* a = bands_.ptr<cv::Vec2f>(low);
      const auto* b = bands_.ptr<cv::Vec2f>(std::min(low + 1, w_.bands - 1));
      float* row = packed[y];
      walk(y, -1, [&, part = part](int k, cv::Vec2f turn) {
        const cv::Vec2f v = gain[k] * ((1 - part) * a[k] + part * b[k]);
        row[size_t(2) * (first_ + k) - 1] = v[0] * turn[0] - v[1] * turn[1];
        row[size_t(2) * (first_ + k)] = v[0] * turn[1] + v[1] * turn[0];
      });
    }
  }

 private:
  static cv::Vec2f at(const cv::Mat1f& packed, int y, int bin) {
    return {packed(y, 2 * bin - 1), packed(y, 2 * bin)};
  }
  // Calls visit(k, phase) with the phase that undoes (sign 1) or redoes (-1) the row's shift.
  template <class Visit>
  void walk(int y, int sign, Visit visit) const {
    const double angle = sign * 2 * CV_PI * stepPerMm_ * marks_.offsetMm((y + 0.5) * mm_);
    cv::Vec2d turn(std::cos(angle * first_), std::sin(angle * first_));
    const cv::Vec2d step(std::cos(angle), std::sin(angle));
    for (int k = 0; k <= last_ - first_; ++k) {
      visit(k, cv::Vec2f(float(turn[0]), float(turn[1])));
      turn = {turn[0] * step[0] - turn[1] * step[1], turn[0] * step[1] + turn[1] * step[0]};
    }
  }
  const BandWeights& w_;
  const SawMarks& marks_;
  double mm_;
  int first_, last_;
  double stepPerMm_;
  cv::Mat bands_;
};

// The share of each place's surroundings along the mark that was plain wood.
cv::Mat1f plainShare(const cv::Mat1f& plain, const BandWeights& w) {
  cv::Mat1f bands, share(plain.size());
  cv::Mat padded;
  cv::copyMakeBorder(plain, padded, 0, w.bands * w.bandPx - plain.rows, 0, 0, cv::BORDER_CONSTANT);
  cv::resize(padded, bands, {plain.cols, w.bands}, 0, 0, cv::INTER_AREA);
  bands = smoothedAlong(bands);
  for (int y = 0; y < plain.rows; ++y) {
    const auto [low, part] = w.below(y);
    cv::Mat row = share.row(y);
    cv::addWeighted(bands.row(low), 1 - part, bands.row(std::min(low + 1, w.bands - 1)), part, 0,
                    row);
  }
  cv::max(share, 0.15, share);
  return share;
}

}  // namespace

cv::Mat1f sawMarkTone(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx,
                      const SawMarks& marks) {
  if (!marks.found()) return cv::Mat1f(tone.size(), 0.F);
  const cv::Mat1f plain = plainWood(tone, wood, mmPerPx);
  const cv::Mat1f quick = quickChanges(tone, wood, cvRound(kReachMm / mmPerPx)).mul(plain);
  const int needed = tone.cols + cvRound(4 * marks.pitchMm / mmPerPx);
  const int length = 2 * cv::getOptimalDFTSize((needed + 1) / 2);  // even, and quick
  cv::Mat1f rows;
  cv::copyMakeBorder(quick, rows, 0, 0, 0, std::max(0, length - quick.cols), cv::BORDER_CONSTANT);
  cv::dft(rows, rows, cv::DFT_ROWS);
  const double stepPerMm = 1 / (rows.cols * mmPerPx), pitchBins = 1 / (marks.pitchMm * stepPerMm);
  const int first = std::max(1, int(kLowShare * pitchBins));
  const int last = std::min(rows.cols / 2 - 1, int(kHighest * pitchBins));
  std::vector<float> gain;
  for (int f = first; f <= last; ++f)
    gain.push_back(ramp(kLowShare, kFullShare, f / pitchBins) *
                   (1 - ramp(0.8 * kHighest, kHighest, f / pitchBins)));
  const BandWeights weights(tone.rows, mmPerPx);
  AlignedBands(rows, weights, marks, mmPerPx, first, last).layBack(gain, rows);
  cv::dft(rows, rows, cv::DFT_ROWS | cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
  cv::Mat1f found = rows.colRange(0, tone.cols) / plainShare(plain, weights);
  found.setTo(0, wood == 0);
  return found;
}

}  // namespace rackside
