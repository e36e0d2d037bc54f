// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/figure_score.h"

#include <algorithm>
#include <cmath>

#include "tests/support/noise.h"

namespace rackside::synthetic {

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  return values[size_t(share * double(values.size() - 1))];
}

double correlation(const cv::Mat1f& a, const cv::Mat1f& b) {
  const cv::Mat1f x = a - cv::mean(a)[0], y = b - cv::mean(b)[0];
  return x.dot(y) / std::sqrt(x.dot(x) * y.dot(y));
}

double bandEnergy(const cv::Mat1f& tone, double mmPerPx, double pitchMm) {
  const cv::Mat1f centred = tone - cv::mean(tone)[0];
  cv::Mat spectrum;
  cv::dft(centred, spectrum, cv::DFT_COMPLEX_OUTPUT);
  double energy = 0;
  for (int v = 0; v < spectrum.rows; ++v)
    for (int u = 1; u < spectrum.cols / 2; ++u) {
      const double fx = u / (spectrum.cols * mmPerPx);
      const double fy =
          (v <= spectrum.rows / 2 ? v : v - spectrum.rows) / (spectrum.rows * mmPerPx);
      if (std::abs(fx * pitchMm - 1) > 0.15 || std::abs(fy) > 0.25 * fx + 0.02) continue;
      const auto z = spectrum.at<cv::Vec2f>(v, u);
      energy += z.dot(z);
    }
  return energy;
}

SawnCase sawnCase(uint32_t seed, const std::string& saw, bool curly) {
  static const char* const species[] = {"cherry", "ash", "walnut", "maple", "oak"};
  Draw draw(seed * 977ULL + 11);
  SawnCase c;
  WoodSpec& w = c.wood;
  w.species = species[seed % 5];
  w.seed = 5000 + seed;
  w.pithYMm = draw.between(-80, 260);
  w.pithZMm = draw.between(-120, -20);
  w.fibreSlope = draw.between(-0.05, 0.05);
  w.saw.kind = saw;
  w.saw.pitchMm = draw.between(2.5, 9);
  w.saw.slantDeg = draw.between(-8, 8);
  w.saw.radiusMm = draw.between(250, 900);
  w.saw.strength = draw.between(0.8, 2.2);
  w.curl = curly ? draw.between(0.4, 1) : 0;
  w.curlPitchMm = draw.between(6, 18);
  DefectSpec knot;
  knot.x = 400;
  knot.y = 90;
  knot.alongMm = draw.between(6, 14);
  knot.through = true;
  w.defects = {knot};
  c.paint.mmPerPx = 0.5;
  c.paint.grey = draw.between(0, 1);
  c.face = {0, 0, draw.between(800, 1400), draw.between(120, 240)};
  return c;
}

std::vector<double> grainErrorsDeg(const FigureMaps& maps, const WoodLog& log, double z) {
  std::vector<double> errors;
  const auto nearKnot = [&](Point p) {
    for (const DefectSpec& d : log.spec().defects) {
      const double r = std::max(d.alongMm, d.acrossMm);
      if (std::hypot((p.x - d.x) / 4, p.y - d.y) < 3 * r) return true;
    }
    return false;
  };
  for (int row = 1; row + 1 < maps.rows; ++row)
    for (int column = 1; column + 1 < maps.columns; ++column) {
      const Point p{maps.area.x0 + (column + 0.5) * maps.cellMm,
                    maps.area.y0 + (row + 0.5) * maps.cellMm};
      if (nearKnot(p)) continue;
      const double turn = maps.grainRad(column, row) - log.fibreAngle(p.x, p.y, z);
      errors.push_back(std::abs(std::remainder(turn, CV_PI)) * 180 / CV_PI);
    }
  return errors;
}

double kendallTau(const std::vector<double>& a, const std::vector<double>& b) {
  int agree = 0, pairs = 0;
  for (size_t i = 0; i < a.size(); ++i)
    for (size_t j = 0; j < i; ++j) {
      const double sign = (a[i] - a[j]) * (b[i] - b[j]);
      agree += sign > 0 ? 1 : sign < 0 ? -1 : 0;
      ++pairs;
    }
  return pairs ? double(agree) / pairs : 1;
}

}  // namespace rackside::synthetic
