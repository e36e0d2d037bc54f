// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/narrow_wall.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kNarrowestPx = 0.8, kWidestMm = 4;
constexpr int kRows = 8;                      // averaged for one profile
constexpr double kFaceMm = 4, kBeyondMm = 3;  // of the profile, inside and past the wall
constexpr double kSearchMm = 1.8, kTrialMm = 0.1;
constexpr double kBlurPx = 0.8;                  // one standard deviation of lens and sampling
constexpr double kNearSigmaMm = 1;               // of where the arris should be
constexpr double kAlike = 0.25, kDarker = 0.75;  // of levels of light
constexpr double kLeastSigmaMm = 0.1, kMostSigmaMm = 1.2;

struct Profile {
  std::vector<double> offset;
  std::vector<cv::Vec3d> light;
};

Profile profileAt(const EdgeRibbon& r, int first, int last, double from, double to) {
  Profile p;
  const int a = std::max(0, r.middle + int(from / r.stepMm)),
            b = std::min(r.light.cols - 1, r.middle + int(to / r.stepMm));
  for (int k = a; k <= b; ++k) {
    cv::Vec3d sum;
    for (int i = first; i < last; ++i) sum += cv::Vec3d(r.light.at<cv::Vec3f>(i, k));
    p.offset.push_back((k - r.middle) * r.stepMm);
    p.light.push_back(sum * (1.0 / (last - first)));
  }
  return p;
}

// Share of a place that lies past a border, blurred.
double past(double offset, double border, double blur) {
  return 0.5 * std::erfc((border - offset) / (blur * std::sqrt(2.0)));
}

struct Fit {
  double misfit = 0;           // squared residual
  cv::Vec3d face, wall, past;  // levels of light
};

// Three levels by least squares, given where the arris lies.
Fit levelsFor(const Profile& p, double arris, double wall, double blur) {
  cv::Matx33d normal = cv::Matx33d::eye() * 1e-6, right = cv::Matx33d::zeros();
  double squares = 0;
  for (size_t k = 0; k < p.offset.size(); ++k) {
    const double onWall = past(p.offset[k], arris, blur),
                 beyond = past(p.offset[k], arris + wall, blur);
    const cv::Vec3d basis(1 - onWall, onWall - beyond, beyond);
    normal += basis * basis.t();
    right += basis * p.light[k].t();
    squares += p.light[k].dot(p.light[k]);
  }
  const cv::Matx33d levels = normal.inv() * right;
  double explained = 0;
  for (int i = 0; i < 9; ++i) explained += levels.val[i] * right.val[i];
  const auto row = [&](int i) { return cv::Vec3d(levels(i, 0), levels(i, 1), levels(i, 2)); };
  return {std::max(1e-12, squares - explained), row(0), row(1), row(2)};
}

double sumOf(const cv::Vec3d& v) {
  return v[0] + v[1] + v[2];
}

// A wall that looks like the face or like the ground leaves one step only, which is the arris or
// the foot of the wall. Where it turns dark it is the arris: a shadowed ground goes with a shadowed
// wall. Otherwise nothing tells, and the middle of both is the best guess.
OffsetReading weighed(OffsetReading reading, const Fit& fit, double wall) {
  const double whole = cv::norm(fit.past - fit.face);
  const bool likeFace = cv::norm(fit.wall - fit.face) < kAlike * whole;
  const bool likeGround = cv::norm(fit.wall - fit.past) < kAlike * whole;
  if (!likeFace && !likeGround) return reading;
  const double step = reading.offsetMm + (likeFace ? wall : 0);
  const bool darker = sumOf(fit.past) < kDarker * sumOf(fit.face);
  reading.offsetMm = darker ? step : step - wall / 2;
  return reading;
}

OffsetReading fitted(const Profile& p, double near, double wall, double blur) {
  const int trials = int(2 * kSearchMm / kTrialMm) + 1;
  std::vector<double> misfits;
  misfits.reserve(size_t(trials));
  for (int t = 0; t < trials; ++t)
    misfits.push_back(levelsFor(p, near - kSearchMm + t * kTrialMm, wall, blur).misfit);
  const double least = *std::min_element(misfits.begin(), misfits.end());
  // Neighbouring columns share a pixel: about one in two is a reading of its own.
  const double variance = least / (3 * std::max(2.0, double(p.offset.size()) / 2 - 4));
  double sum = 0, mean = 0, spread = 0;
  for (int pass = 0; pass < 2; ++pass)
    for (int t = 0; t < trials; ++t) {
      const double off = -kSearchMm + t * kTrialMm;
      const double weight = std::exp(-(misfits[size_t(t)] - least) / (4 * variance) -
                                     off * off / (2 * kNearSigmaMm * kNearSigmaMm));
      if (pass == 0)
        sum += weight, mean += weight * off;
      else
        spread += weight * (off - mean / sum) * (off - mean / sum);
    }
  const double arris = near + mean / sum;
  return weighed({arris, std::clamp(std::sqrt(spread / sum), kLeastSigmaMm, kMostSigmaMm)},
                 levelsFor(p, arris, wall, blur), wall);
}

}  // namespace

bool isNarrowWall(const RibbonRow& row) {
  return row.wallMm > kNarrowestPx * row.mmPerPx && row.wallMm < kWidestMm;
}

void readNarrowWalls(const EdgeRibbon& ribbon, const std::vector<double>& nearMm,
                     std::vector<OffsetReading>& readings) {
  const int n = int(ribbon.rows.size());
  for (int first = 0; first < n; first += kRows) {
    const int last = std::min(n, first + kRows);
    const RibbonRow& row = ribbon.rows[size_t((first + last) / 2)];
    bool seen = isNarrowWall(row);
    for (int i = first; i < last; ++i)
      seen &= ribbon.rows[size_t(i)].seen && !ribbon.rows[size_t(i)].hidden;
    if (!seen) continue;
    const double near = nearMm[size_t((first + last) / 2)];
    const Profile profile = profileAt(ribbon, first, last, near - kSearchMm - kFaceMm,
                                      near + kSearchMm + row.wallMm + kBeyondMm);
    OffsetReading reading = fitted(profile, near, row.wallMm, kBlurPx * row.mmPerPx);
    reading.sigmaMm *= std::sqrt(double(kRows));  // all its rows have the same error
    std::fill(readings.begin() + first, readings.begin() + last, reading);
  }
}

}  // namespace rackside
