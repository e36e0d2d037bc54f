// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/offset_smoother.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>
#include <random>

using namespace rackside;

namespace {

constexpr double kStepMm = 3, kNoiseMm = 0.4;

double sawn(double x) {
  return 2 + 3e-7 * x * x;
}
double live(double x) {
  return 6 * std::sin(x / 60);
}

// Errors that neighbours within 5 mm share in part, as grain beside an edge makes them.
std::vector<double> errors(uint32_t seed, int count) {
  constexpr int kShared = 2;
  std::mt19937 random(seed);
  std::normal_distribution<double> noise(0, kNoiseMm / std::sqrt(kShared));
  std::vector<double> own(size_t(count + kShared - 1)), out;
  out.reserve(size_t(count));
  for (double& e : own) e = noise(random);
  for (auto first = own.begin(); first + kShared <= own.end(); ++first)
    out.push_back(std::accumulate(first, first + kShared, 0.0));
  return out;
}

std::vector<OffsetReading> readings(double (*edge)(double), uint32_t seed, int count = 600) {
  const std::vector<double> error = errors(seed, count);
  std::vector<OffsetReading> out;
  out.reserve(error.size());
  for (int i = 0; i < count; ++i) out.push_back({edge(i * kStepMm) + error[size_t(i)], kNoiseMm});
  return out;
}

}  // namespace

TEST_CASE("an offset's stated sigma holds its error") {
  double (*edge)(double) = GENERATE(sawn, live);
  double inside = 0, all = 0;
  for (uint32_t seed = 1; seed <= 20; ++seed) {
    const auto line = smoothOffsets(readings(edge, seed), kStepMm);
    for (size_t i = 0; i < line.size(); ++i, ++all)
      inside += std::abs(line[i].offsetMm - edge(double(i) * kStepMm)) <= 1.96 * line[i].sigmaMm;
  }
  CHECK(inside / all > 0.90);
  CHECK(inside / all < 0.995);
}

TEST_CASE("a straight side gains from its length, a wavy one is followed") {
  const auto straight = smoothOffsets(readings(sawn, 3), kStepMm);
  CHECK(straight[300].sigmaMm < kNoiseMm / 3);
  const auto wavy = smoothOffsets(readings(live, 3), kStepMm);
  for (size_t i = 0; i < wavy.size(); ++i)
    CHECK(std::abs(wavy[i].offsetMm - live(double(i) * kStepMm)) < 4 * kNoiseMm);
}

TEST_CASE("wild readings are set aside and a gap is bridged with a wider sigma") {
  auto given = readings(live, 5);
  for (size_t i = 50; i < given.size(); i += 25) given[i].offsetMm += 8;
  for (size_t i = 300; i < 330; ++i) given[i].sigmaMm = 0;
  const auto line = smoothOffsets(given, kStepMm);
  for (size_t i = 0; i < line.size(); ++i)
    if (i < 300 || i >= 330) CHECK(std::abs(line[i].offsetMm - live(double(i) * kStepMm)) < 2);
  CHECK(line[315].sigmaMm > 2 * line[200].sigmaMm);
  CHECK(std::abs(line[315].offsetMm - live(315 * kStepMm)) < 3 * line[315].sigmaMm);
}

TEST_CASE("nothing read gives nothing smoothed") {
  CHECK(smoothOffsets({}, kStepMm).empty());
}
