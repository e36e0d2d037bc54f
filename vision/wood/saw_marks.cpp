// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/saw_marks.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "vision/wood/wave_spectrum.h"

namespace rackside {
namespace {

// A band mill feeds 2 to 12 mm while its marks repeat, a circular mill about the same (judged from
// pictures of boards; no source).
constexpr double kFinestPitchMm = 1.6, kCoarsestPitchMm = 16;
constexpr double kSteepestSlant = 0.30;       // tangent of the steepest slant looked for
constexpr double kSharpestCurve = 1 / 180.0;  // 1 / mm: an arc of a small circular saw
constexpr double kPeakShare = 0.09;           // half width of the pitch's peak, share of it
constexpr size_t kMostPeaks = 3;
constexpr double kLeastStrength = 0.004;  // of the light: fainter marks hide nothing
constexpr double kWorthSaying = 0.1;      // confidence
constexpr double kLeastSagittaMm = 2;     // flatter marks are called straight
constexpr int kGroups = 12;               // places across the board where the slope is read

// x shift per mm across, and its change across: the shape of a mark.
struct Slope {
  double slant = 0, curve = 0;
  double at(double y) const {  // of a circle: sin of the angle grows evenly
    const double s = std::clamp(std::sin(std::atan(slant)) + curve * y, -0.9, 0.9);
    return s / std::sqrt(1 - s * s);
  }
};

// Cross spectra at one lag summed over groups of bands: quick to try slopes on.
class SlopeTrial {
 public:
  SlopeTrial(const WaveSpectrum& s, size_t lag, double middleMm)
      : lagMm_(s.kLags[lag] * s.kBandMm), stepPerMm_(s.stepPerMm) {
    const int usable = std::max(0, s.bands - s.kLags[lag]);
    const int groups = std::min(kGroups, usable);
    sum_ = cv::Mat_<cv::Vec2d>(std::max(groups, 1), s.bins, cv::Vec2d(0, 0));
    y_.assign(std::max(groups, 1), 0);
    std::vector<int> count(y_.size(), 0);
    for (int i = 0; i < usable; ++i) {
      const int g = i * groups / usable;
      for (int f = 0; f < s.bins; ++f) sum_(g, f) += s.cross[lag](i, f);
      y_[g] += s.middleMm(i, s.kLags[lag]) - middleMm;
      ++count[g];
    }
    for (size_t g = 0; g < y_.size(); ++g) y_[g] /= std::max(1, count[g]);
    pairs_ = usable;
  }
  // Energy in the bins [from, to] that keeps together along marks of this slope, per pair of bands.
  double energy(const Slope& slope, int from, int to) const {
    if (pairs_ == 0) return 0;
    double sum = 0;
    for (size_t g = 0; g < y_.size(); ++g) {
      const double shift = 2 * CV_PI * lagMm_ * slope.at(y_[g]) * stepPerMm_;
      for (int f = from; f <= to; ++f) {
        // A wave shifted by +d along x has its phase turned by -2 pi f d.
        const cv::Vec2d c = sum_(int(g), f);
        sum += c[0] * std::cos(shift * f) - c[1] * std::sin(shift * f);
      }
    }
    return sum / pairs_;
  }
  Slope best(int from, int to, const Slope& about, double slantReach, double curveReach,
             int steps) const {
    Slope found = about;
    double most = -1;
    for (int i = -steps; i <= steps; ++i)
      for (int j = -steps; j <= steps; ++j) {
        const Slope trial{
            about.slant + slantReach * i / steps,
            std::clamp(about.curve + curveReach * j / steps, -kSharpestCurve, kSharpestCurve)};
        const double e = energy(trial, from, to);
        if (e > most) most = e, found = trial;
      }
    return found;
  }

 private:
  double lagMm_, stepPerMm_;
  cv::Mat_<cv::Vec2d> sum_;
  std::vector<double> y_;
  int pairs_ = 0;
};

double medianOf(std::vector<double> v) {
  if (v.empty()) return 0;
  std::nth_element(v.begin(), v.begin() + v.size() / 2, v.end());
  return v[v.size() / 2];
}

struct Peak {
  int bin = 0, from = 0, to = 0;  // the peak and its sides
  double excess = 0;              // energy above what the bins about it hold
  double steadiness = 0;
};

int sideOf(int bin) {
  return std::max(1, cvRound(bin * kPeakShare));
}

// What each bin holds above the median of the bins half an octave about it.
std::vector<double> aboveSurroundings(const std::vector<double>& energy) {
  const int count = static_cast<int>(energy.size());
  std::vector<double> above(energy.size(), 0);
  for (int f = 2; f < count; ++f) {
    std::vector<double> about;
    const int reach = std::max(4, f / 2);
    for (int g = std::max(1, f - reach); g < std::min(count, f + reach); ++g)
      if (std::abs(g - f) > 2 * sideOf(f)) about.push_back(energy[g]);
    above[f] = energy[f] - medianOf(std::move(about));
  }
  return above;
}

// The peaks that stand out most, greatest first, none within half an octave of a greater one.
std::vector<Peak> findPeaks(const std::vector<double>& above, double stepPerMm, size_t most) {
  std::vector<Peak> peaks;
  const int first = std::max(2, int(1 / (kCoarsestPitchMm * stepPerMm)));
  const int last = std::min(int(above.size()) - 2, int(1 / (kFinestPitchMm * stepPerMm)));
  const auto near = [&](const Peak& p, double factor, int f) {
    return f > p.bin / factor && f < p.bin * factor;
  };
  while (peaks.size() < most) {
    Peak best;
    for (int f = first; f <= last; ++f) {
      if (std::any_of(peaks.begin(), peaks.end(), [&](const Peak& p) { return near(p, 1.4, f); }))
        continue;
      double excess = 0;
      for (int g = f - sideOf(f); g <= std::min(last, f + sideOf(f)); ++g) excess += above[g];
      if (excess > best.excess) best = {f, f - sideOf(f), std::min(last, f + sideOf(f)), excess, 0};
    }
    if (best.excess <= 0) break;
    double wide = 0;
    for (int g = first; g <= last; ++g)
      if (near(best, 1.6, g)) wide += std::max(0.0, above[g]);
    best.steadiness = std::clamp(best.excess / std::max(wide, 1e-12), 0.0, 1.0);
    peaks.push_back(best);
  }
  return peaks;
}

double ramp(double low, double high, double v) {
  return std::clamp((v - low) / (high - low), 0.0, 1.0);
}

// Energy by bin that keeps together from band to band along the marks' best slope there.
std::vector<double> heldEnergy(const SlopeTrial& near, int bins) {
  std::vector<double> energy(bins, 0.0);
  for (int f = 2; f < bins; ++f) {
    const int half = std::max(1, f / 24);
    const Slope slope = near.best(std::max(1, f - half), std::min(bins - 1, f + half), {},
                                  kSteepestSlant, kSharpestCurve, 8);
    energy[f] = near.energy(slope, f, f);
  }
  return energy;
}

// Sawn boards showed 0.4 and more of their wave unbroken over 48 mm, curly wood 0.2 and less; of
// the power at the pitch, marks are nine tenths, curl two thirds, plain wood a third at most
// (rendered boards of five species). Beyond 10 mm a pitch is more likely the wood's own.
double confidenceOf(const SawMarks& m, double share) {
  // Curl finer than about 5 mm is rare, and fine marks waver by more of their pitch.
  const double coarse = ramp(4, 7, m.pitchMm);
  const double byUnbroken = ramp(0.08 + 0.07 * coarse, 0.25 + 0.17 * coarse, m.unbroken);
  const double byShare = ramp(0.45, 0.85, share);
  const double byPitch = 1 - 0.4 * ramp(10, kCoarsestPitchMm, m.pitchMm);
  return byShare * byUnbroken * byPitch * ramp(0.2, 0.6, m.steadiness);
}

double powerIn(const WaveSpectrum& s, const Peak& peak) {
  double total = 0;
  for (int i = 0; i < s.bands; ++i)
    for (int f = peak.from; f <= peak.to; ++f) total += s.power(i, f) / s.bands;
  return total;
}

SawMarks marksAt(const WaveSpectrum& s, const Peak& peak, double middleMm) {
  const SlopeTrial near(s, 0, middleMm), middle(s, 1, middleMm), far(s, 2, middleMm);
  Slope slope = near.best(peak.from, peak.to, {}, kSteepestSlant, kSharpestCurve, 12);
  slope = middle.best(peak.from, peak.to, slope, 0.03, kSharpestCurve / 10, 8);
  slope = far.best(peak.from, peak.to, slope, 0.006, kSharpestCurve / 60, 3);
  SawMarks m;
  const double held = std::max(1e-12, near.energy(slope, peak.from, peak.to));
  const double apart = s.bands > s.kLags[2] + 4 ? far.energy(slope, peak.from, peak.to)
                                                : middle.energy(slope, peak.from, peak.to);
  m.middleYMm = middleMm;
  m.unbroken = std::clamp(apart / held, 0.0, 1.0);
  m.steadiness = peak.steadiness;
  m.pitchMm = 1 / s.frequency(peak.bin);
  m.slantRad = std::atan(slope.slant);
  m.strength = std::sqrt(2 * peak.excess / s.powerScale);
  const double width = s.bands * s.kBandMm;
  const double sagitta = std::abs(slope.curve) * width * width / 8;
  m.kind = sagitta > std::max(kLeastSagittaMm, 0.3 * m.pitchMm) ? SawMarks::Kind::arced
                                                                : SawMarks::Kind::straight;
  m.curvaturePerMm = slope.curve;
  m.confidence = confidenceOf(m, held / std::max(1e-12, powerIn(s, peak)));
  return m;
}

}  // namespace

double SawMarks::offsetMm(double y) const {
  const double d = y - middleYMm;
  const Slope slope{std::tan(slantRad), curvaturePerMm};
  if (std::abs(curvaturePerMm) < 1e-6) return slope.slant * d;
  const double s0 = std::sin(slantRad);
  const double s = std::clamp(s0 + curvaturePerMm * d, -0.9, 0.9);
  return (std::sqrt(1 - s0 * s0) - std::sqrt(1 - s * s)) / curvaturePerMm;
}

SawMarks findSawMarks(const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx) {
  const WaveSpectrum s = waveSpectrum(tone, wood, mmPerPx);
  const double middleMm = tone.rows * mmPerPx / 2;
  if (s.bands <= s.kLags[1] + 4) return {};
  const auto above = aboveSurroundings(heldEnergy(SlopeTrial(s, 0, middleMm), s.bins));
  SawMarks best;
  for (const Peak& peak : findPeaks(above, s.stepPerMm, kMostPeaks)) {
    const SawMarks m = marksAt(s, peak, middleMm);
    if (m.strength > kLeastStrength && m.confidence > best.confidence) best = m;
  }
  return best.confidence > kWorthSaying ? best : SawMarks{};
}

std::string describe(const SawMarks& m) {
  if (!m.found()) return "No saw marks seen.";
  char text[200];
  const char* shape = m.kind == SawMarks::Kind::arced ? "Arced" : "Straight";
  std::snprintf(text, sizeof text, "%s saw marks, %.1f mm apart", shape, m.pitchMm);
  std::string said = text;
  if (m.kind == SawMarks::Kind::arced) {
    std::snprintf(text, sizeof text, ", radius about %.0f mm", m.radiusMm());
    said += text;
  }
  std::snprintf(text, sizeof text, " (sure to %.0f %%).", 100 * m.confidence);
  said += text;
  if (!m.sure()) said += " They might be curl in the wood, so they were left in the picture.";
  return said;
}

}  // namespace rackside
