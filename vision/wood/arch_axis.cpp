// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/arch_axis.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kWindowMm = 300;     // arches are judged over this length
constexpr double kReachMm = 44;       // to either side of the axis
constexpr double kLeastReachMm = 14;  // an axis nearer the edge shows no second side
constexpr double kJumpCost = 0.004;   // score per mm² the axis moves from step to step
constexpr double kLikelyScore = 0.35, kSureScore = 1.1;
constexpr double kLeastSure = 0.25, kPlainlySure = 0.5;

// Means across the board over one window along it.
struct Profile {
  std::vector<double> slope;    // dy/dx of the ring lines
  std::vector<double> spacing;  // ln of the rings' distance
  std::vector<double> turned;   // ln of the share of ring lines that turn across the board
};

class Profiles {
 public:
  explicit Profiles(const FigureMaps& maps) : maps_(maps) {}
  Profile over(int from, int to) const {
    Profile p;
    for (int r = 0; r < maps_.rows; ++r) {
      double xx = 1e-9, yy = 1e-9, xy = 0, energy = 1e-9;
      // A row more on each side steadies the narrow cells.
      for (int q = std::max(0, r - 1); q <= std::min(maps_.rows - 1, r + 1); ++q)
        for (int c = from; c < to; ++c) {
          xx += maps_.at(FigureLayer::ringXx, c, q);
          yy += maps_.at(FigureLayer::ringYy, c, q);
          xy += maps_.at(FigureLayer::ringXy, c, q);
          energy += maps_.at(FigureLayer::contrast, c, q);
        }
      p.slope.push_back(std::clamp(-xy / yy, -0.15, 0.15));
      p.spacing.push_back(0.5 * std::log(energy / yy));
      p.turned.push_back(std::log(xx / yy));
    }
    return p;
  }

 private:
  const FigureMaps& maps_;
};

double meanOver(const std::vector<double>& v, int row, int near, int far) {
  double sum = 0;
  int count = 0;
  for (int d = near; d <= far; ++d)
    for (const int q : {row - d, row + d})
      if (q >= 0 && q < int(v.size())) sum += v[q], ++count;
  return count ? sum / count : 0;
}

// About an axis ring lines slope away to both sides, the more the nearer they are.
double slopeScore(const Profile& p, int row, int reach) {
  double sum = 0, weight = 0;
  for (int d = 1; d <= reach; ++d) {
    if (row - d < 0 || row + d >= int(p.slope.size())) break;
    const double w = 1.0 / std::max(2, d);
    sum += w * (p.slope[row + d] - p.slope[row - d]);
    weight += w;
  }
  return weight > 0 ? 0.5 * sum / weight : 0;
}

struct Scores {
  std::vector<double> signedSlope, dip;
};

Scores scoresOf(const Profile& p, double cellMm) {
  Scores s;
  const int reach = int(kReachMm / cellMm), least = int(std::ceil(kLeastReachMm / cellMm));
  const int near = std::max(1, int(8 / cellMm)), aside = int(16 / cellMm);
  for (int row = 0; row < int(p.slope.size()); ++row) {
    const bool inside = row >= least && row + least < int(p.slope.size());
    s.signedSlope.push_back(inside ? slopeScore(p, row, reach) : 0);
    const double spread =
        meanOver(p.spacing, row, 0, near) - meanOver(p.spacing, row, aside, reach);
    const double turn = meanOver(p.turned, row, 0, near) - meanOver(p.turned, row, aside, reach);
    s.dip.push_back(inside ? 1.2 * spread + 0.35 * turn : -1);
  }
  return s;
}

// The path of greatest score along the board, row by step.
std::vector<int> bestPath(const std::vector<std::vector<double>>& score, double cellMm) {
  const int steps = int(score.size()), rows = int(score[0].size());
  std::vector<std::vector<double>> sum = score;
  std::vector<std::vector<int>> from(steps, std::vector<int>(rows, 0));
  const int reach = std::max(1, int(16 / cellMm));
  for (int i = 1; i < steps; ++i)
    for (int r = 0; r < rows; ++r) {
      double best = -1e9;
      for (int q = std::max(0, r - reach); q <= std::min(rows - 1, r + reach); ++q) {
        const double jump = (r - q) * cellMm;
        const double value = sum[i - 1][q] - kJumpCost * jump * jump;
        if (value > best) best = value, from[i][r] = q;
      }
      sum[i][r] = score[i][r] + best;
    }
  std::vector<int> path(steps);
  path[steps - 1] =
      int(std::max_element(sum[steps - 1].begin(), sum[steps - 1].end()) - sum[steps - 1].begin());
  for (int i = steps - 1; i > 0; --i) path[i - 1] = from[i][path[i]];
  return path;
}

// The top of the parabola through a score and its neighbours, in rows.
double peakNear(const std::vector<double>& v, int row) {
  if (row <= 0 || row + 1 >= int(v.size())) return row;
  const double a = v[row - 1], b = v[row], c = v[row + 1], bend = a - 2 * b + c;
  return bend < -1e-9 ? row + std::clamp(0.5 * (a - c) / bend, -0.5, 0.5) : row;
}

}  // namespace

std::vector<ArchPoint> archAxis(const FigureMaps& maps) {
  const int step = std::max(1, int(kArchStepMm / maps.cellMm));
  const int half = int(kWindowMm / maps.cellMm / 2);
  if (maps.columns < step || maps.rows < 4) return {};
  const Profiles profiles(maps);
  std::vector<Scores> all;
  std::vector<double> x;
  double balance = 0;  // arches point one way along the board: the sign of its taper
  for (int c = step / 2; c < maps.columns; c += step) {
    all.push_back(scoresOf(profiles.over(std::max(0, c - half), std::min(maps.columns, c + half)),
                           maps.cellMm));
    x.push_back(maps.area.x0 + (c + 0.5) * maps.cellMm);
    for (const double v : all.back().signedSlope) balance += v * v * v;
  }
  const double sign = balance < 0 ? -1 : 1;
  std::vector<std::vector<double>> score;
  for (const Scores& s : all) {
    score.emplace_back();
    for (size_t r = 0; r < s.dip.size(); ++r)
      score.back().push_back(s.dip[r] + 16 * std::max(-0.02, sign * s.signedSlope[r]));
  }
  const std::vector<int> path = bestPath(score, maps.cellMm);
  std::vector<ArchPoint> points;
  for (size_t i = 0; i < path.size(); ++i) {
    const double value = score[i][path[i]];
    const double sure = std::clamp((value - kLikelyScore) / (kSureScore - kLikelyScore), 0.0, 1.0);
    if (sure >= kLeastSure)
      points.push_back(
          {x[i], maps.area.y0 + (peakNear(score[i], path[i]) + 0.5) * maps.cellMm, sure});
  }
  // A face that nowhere shows arches plainly has none.
  const bool plain = std::any_of(points.begin(), points.end(),
                                 [](const ArchPoint& a) { return a.sure >= kPlainlySure; });
  return plain ? points : std::vector<ArchPoint>{};
}

}  // namespace rackside
