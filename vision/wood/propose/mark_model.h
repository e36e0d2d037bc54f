// SPDX-License-Identifier: GPL-3.0-or-later
// The file of the network that proposes marks: the network itself, its weights as 8-bit numbers,
// and how sure its answers are. vision/wood/propose/training/ makes it; README.md there has the
// form.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/result.h"

namespace rackside {

// What the network tells apart, in the order of its answers.
enum class RegionKind : uint8_t {
  none,
  liveKnot,
  deadKnot,
  crackedKnot,
  crack,
  gum,
  pith,
  streak,
  hole,
  stain,
  barkPocket,
  wormHole
};
inline constexpr int kRegionKinds = 12;

// Kinds whose pixels make one region together: a knot that is half loose is one knot.
enum class RegionFamily : uint8_t { round, crack, gum, pith, streak, stain };
inline constexpr int kRegionFamilies = 6;
RegionFamily familyOf(RegionKind kind);

// How often a region is right: a logistic law of the log odds of its mean and of its highest
// probability, and of its log area in pixels.
struct RegionTrust {
  double constant = 0, mean = 1, top = 0, logArea = 0;
  double confidence(double meanProbability, double topProbability, double areaPx) const;
};

struct MarkModel {
  std::vector<uint8_t> onnx;
  double evenedMedian = 0.55;  // what the wood's median is brought to, of 1
  std::array<RegionTrust, kRegionFamilies> trust;
  // A pixel belongs to a region where its family is as likely as this.
  std::array<double, kRegionFamilies> level{};
  std::array<double, kRegionFamilies> least{};  // how sure a region has to be to be proposed
};

// Fails on a file of another form or version, or one that was cut short; `file` is named.
Result<MarkModel> markModelFrom(const std::vector<uint8_t>& bytes, const std::string& file);
Result<MarkModel> readMarkModel(const std::filesystem::path& file);
// The one that is part of the program.
const MarkModel& builtInMarkModel();

}  // namespace rackside
