// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/figure_score.h"

#include <algorithm>
#include <cmath>

#include "tests/support/noise.h"
#include "tests/support/wood_defects.h"
#include "vision/wood/rank/best_place.h"

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

namespace {

double nearestMm(const FigureMaps& maps, double x, double y) {
  double nearest = 1e9;
  for (const SapwoodEdge& edge : maps.sapwood)
    for (size_t i = 0; i + 1 < edge.line.size(); ++i) {
      const Point a = edge.line[i], b = edge.line[i + 1];
      if (a.x > x || b.x < x) continue;
      const double at = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
      nearest = std::min(nearest, std::abs(at - y));
    }
  return nearest;
}

}  // namespace

SapwoodScore sapwoodScore(const std::string& species, int boards) {
  SapwoodScore score;
  int missed = 0, all = 0;
  for (int k = 0; k < boards; ++k) {
    Draw draw(900 + uint64_t(k));
    WoodSpec s;
    s.species = species;
    s.seed = 31 + uint32_t(k);
    s.pithYMm = draw.between(-20, 200);
    s.pithZMm = draw.between(-120, -30);
    s.saw.pitchMm = draw.between(3, 8);
    const double reach = draw.between(50, 150);
    s.sapRadiusMm = k % 5 == 4 ? 0 : std::hypot(27 - s.pithZMm, reach);
    PaintOptions options;
    options.mmPerPx = 0.5;
    options.grey = draw.between(0, 0.25);
    const Rect face{0, 0, 800, 180};
    const WoodLog log(s, 27);
    const PaintedWood painted = paintFace(log, face, 27, options);
    RunControl control;
    const FigureMaps maps = figureMaps(
        rasterOf(painted, worn(painted.bgr, randomWear(uint32_t(k)))), {4, true, species}, control);
    if (s.sapRadiusMm == 0) {
      score.plainBoards += 1;
      score.falseBoards += maps.sapwood.empty() ? 0 : 1;
      continue;
    }
    for (const SapwoodEdge& edge : maps.sapwood)
      score.saysUnsure = score.saysUnsure && edge.sure <= 0.5;
    for (const SapwoodAt& at : sapwoodLine(log, 27, face, 20))
      for (const double y : at.crossings) {
        if (y < 6 || y > 174) continue;  // narrower bands are the edge's own shade
        const double off = nearestMm(maps, at.x, y);
        ++all;
        if (off > 1e8)
          ++missed;
        else
          score.errorsMm.push_back(off);
      }
  }
  score.missedShare = all ? double(missed) / all : 0;
  return score;
}

double faceScore(const PaintedWood& painted, const PhotoWear& wear, const std::string& species,
                 const Wish& wish) {
  RunControl control;
  const FigureMaps maps =
      figureMaps(rasterOf(painted, worn(painted.bgr, wear)), {4, true, species}, control);
  const FaceFigure figure(maps);
  Part part;
  part.lengthMm = maps.area.width() - 350;  // clear of the card at the left end
  part.widthMm = maps.area.height() - 20;
  return fulfilment(wish, figure.under({{300, 10}, 0}, part, Face::A));
}

double kendallTau(const std::vector<double>& a, const std::vector<double>& b) {
  int agree = 0, pairs = 0;
  for (size_t i = 0; i < a.size(); ++i)
    for (size_t j = 0; j < i; ++j) {
      const double sign = (a[i] - a[j]) * (b[i] - b[j]);
      if (a[i] == a[j]) continue;  // alike before: no order to keep
      agree += sign > 0 ? 1 : sign < 0 ? -1 : 0;
      ++pairs;
    }
  return pairs ? double(agree) / pairs : 1;
}

}  // namespace rackside::synthetic
