// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/outline_score.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>

#include "core/geometry/polygon.h"
#include "core/wood/measure.h"

namespace rackside::synthetic {
namespace {

using nlohmann::json;

constexpr double kWrongMm = 3;
constexpr double kBowSeenMm = 3;  // a maker sees it and lays a straightedge on
constexpr double kSampleMm = 10;
constexpr double kClearOfEndsMm = 20;  // widths nearer to the end meet its slant

struct Sample {
  Point at;
  double sigmaMm = 0, lengthMm = 0;
  EdgeState state = EdgeState::sure;
};

std::vector<Sample> samplesOf(const Outline& outline) {
  std::vector<Sample> samples;
  const auto& v = outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const Point a = v[i].at, d = v[(i + 1) % v.size()].at - a;
    const int n = std::max(1, int(norm(d) / kSampleMm));
    for (int k = 0; k < n; ++k)
      samples.push_back({a + ((k + 0.5) / n) * d, v[i].sigmaMm, norm(d) / n, v[i].state});
  }
  return samples;
}

Point nearestOn(const Polygon& p, Point q, Point& normal) {
  Point best;
  double least = 1e18;
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], d = p[(i + 1) % p.size()] - a;
    const double l2 = dot(d, d);
    if (l2 <= 0) continue;
    const Point at = a + std::clamp(dot(q - a, d) / l2, 0.0, 1.0) * d;
    if (const double far = norm(q - at); far < least)
      least = far, best = at, normal = (1 / std::sqrt(l2)) * Point{-d.y, d.x};
  }
  return best;
}

// Point-to-line least squares with Cauchy weights, so that wrong stretches have no say.
Pose layOn(const Polygon& truth, const std::vector<Sample>& samples) {
  Pose pose;
  for (int pass = 0; pass < 12; ++pass) {
    double m[3][4] = {};
    const double scale = pass < 4 ? 4 : 1;
    for (const Sample& s : samples) {
      const Point p = rackside::apply(pose, s.at);
      Point normal;
      const Point q = nearestOn(truth, p, normal);
      const double r = dot(q - p, normal);
      const double w = s.lengthMm / (1 + r * r / (scale * scale));
      const double row[4] = {normal.x, normal.y, cross(p, normal), r};
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 4; ++j) m[i][j] += w * row[i] * row[j];
    }
    for (int i = 0; i < 3; ++i)
      for (int k = 0; k < 3; ++k) {
        if (k == i || m[i][i] == 0) continue;
        const double f = m[k][i] / m[i][i];
        for (int j = 0; j < 4; ++j) m[k][j] -= f * m[i][j];
      }
    const auto x = [&](int i) { return m[i][i] != 0 ? m[i][3] / m[i][i] : 0; };
    const Pose step{{x(0), x(1)}, x(2)};
    pose = {rackside::apply(step, pose.origin), pose.angleRad + step.angleRad};
  }
  return pose;
}

double farthestMiss(const Polygon& from, const Polygon& to) {
  double worst = 0;
  for (const Point& p : from) worst = std::max(worst, distanceToBorder(to, p));
  return worst;
}

void scoreWidths(const Board& board, const BoardTruth& truth, BoardScore& s) {
  std::vector<double> errors;
  for (const auto& [at, width] : truth.widths) {
    const auto w = widthAt(board.outline, at);
    if (!w || at > truth.lengthMm - kClearOfEndsMm) continue;
    errors.push_back(std::abs(w->value - width));
    s.widthsInside += errors.back() <= w->u95;
    s.widthU += w->u95;
  }
  if (errors.empty()) return;
  std::sort(errors.begin(), errors.end());
  s.width95 = errors[size_t(double(errors.size() - 1) * 0.95)];
  s.widthWorst = errors.back();
  s.widthCount = double(errors.size());
  s.widthU /= s.widthCount;
}

void scoreEdges(const Board& board, const BoardTruth& truth, BoardScore& s) {
  const std::vector<Sample> samples = samplesOf(board.outline);
  s.truthFromBoard = layOn(truth.outline, samples);
  double all = 0, sure = 0;
  for (const Sample& e : samples) {
    const double miss = distanceToBorder(truth.outline, rackside::apply(s.truthFromBoard, e.at));
    all += e.lengthMm;
    if (e.state == EdgeState::unsure) s.unsure += e.lengthMm;
    if (e.state == EdgeState::bridged) s.bridged += e.lengthMm;
    if (miss > kWrongMm) s.wrong += e.lengthMm;
    if (e.state != EdgeState::sure) continue;
    if (miss > kWrongMm) s.wrongSure += e.lengthMm;
    sure += e.lengthMm;
    if (miss <= 1.96 * e.sigmaMm) s.edgesInside += e.lengthMm;
  }
  for (double* share : {&s.unsure, &s.bridged, &s.wrong, &s.wrongSure}) *share /= all;
  s.edgesInside /= std::max(1e-9, sure);
  const Polygon laid = rackside::apply(s.truthFromBoard, board.outline.polygon());
  s.outlineWorst = std::max(farthestMiss(laid, truth.outline), farthestMiss(truth.outline, laid));
  s.shift = norm(s.truthFromBoard.origin);
}

}  // namespace

BoardTruth readBoardTruth(const std::filesystem::path& truthFile) {
  std::ifstream in(truthFile);
  const json j = json::parse(in);
  BoardTruth t;
  t.scene = j["scene"];
  for (const auto& p : j["photos"]) t.files.push_back(p["file"]);
  const json& face = j["board"]["faces"][j["seen_face"].get<std::string>()];
  const json& pose = j["board_from_seen"];
  const Pose boardFromSeen{{pose["x"], pose["y"]}, pose["angle_rad"]};
  for (const auto& v : j["outline_seen_mm"])
    t.outline.push_back(
        rackside::apply(boardFromSeen, Point{v[0].get<double>(), v[1].get<double>()}));
  t.lengthMm = face["length_mm"];
  for (const auto& w : face["widths"]) t.widths.emplace_back(w["at_mm"], w["width_mm"]);
  t.thicknessMm = j["board"]["thickness_mm"];
  t.cardThicknessMm = j.value("card_thickness_mm", 0.0);
  for (const auto& c : j["cards"]) t.onBench |= c["on"] == "bench";
  t.bowMm = j["board"].value("bow_mm", 0.0);
  const json& photo = j["photos"].front();
  const json& lens = photo["lens"];
  t.lens.focalPx = lens["focal_px"], t.lens.cx = lens["cx"], t.lens.cy = lens["cy"];
  t.lens.k1 = lens["k1"], t.lens.k2 = lens["k2"];
  t.lens.size = {photo["width_px"].get<int>(), photo["height_px"].get<int>()};
  return t;
}

ScanOptions scanOptionsFor(const BoardTruth& truth) {
  ScanOptions options;
  options.name = truth.scene;
  options.thicknessMm = truth.thicknessMm;
  options.cardsOn = truth.onBench ? CardsOn::bench : CardsOn::board;
  options.cardThicknessMm = truth.cardThicknessMm;
  if (truth.bowMm > kBowSeenMm) options.bowMm = std::round(truth.bowMm);
  return options;
}

Lens calibratedLens(const BoardTruth& truth) {
  const std::array<double, 5> sigma{0.001 * truth.lens.focalPx, 2, 2, 0.001, 1e-4};
  std::mt19937_64 random(std::hash<std::string>{}(truth.scene));
  std::normal_distribution<double> draw;
  Lens lens = truth.lens;
  double* values[] = {&lens.focalPx, &lens.cx, &lens.cy, &lens.k1, &lens.k2};
  for (size_t i = 0; i < sigma.size(); ++i) {
    *values[i] += sigma[i] * draw(random);
    lens.covariance[6 * i] = sigma[i] * sigma[i];
  }
  lens.source = "calibrated";
  return lens;
}

BoardScore scoreBoard(const Board& board, const BoardTruth& truth) {
  BoardScore s;
  s.length = board.lengthMm.value - truth.lengthMm;
  s.lengthU = board.lengthMm.u95;
  s.lengthUTotal = board.lengthMm.u95Total;
  scoreWidths(board, truth, s);
  scoreEdges(board, truth, s);
  return s;
}

}  // namespace rackside::synthetic
