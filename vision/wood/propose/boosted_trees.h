// SPDX-License-Identifier: GPL-3.0-or-later
// Gradient-boosted decision trees over rows of bytes, with a softmax over several classes.
//
// Trees are complete and of one depth, so that a row is scored without a branch. Friedman, "Greedy
// function approximation: a gradient boosting machine", Annals of Statistics 29, 2001; second-order
// leaf values as is common practice.
#pragma once

#include <cstdint>
#include <vector>

#include "core/base/result.h"

namespace rackside {

// Rows of `width` bytes, one after another.
struct ByteRows {
  const uint8_t* data = nullptr;
  size_t count = 0;
  int width = 0;
  const uint8_t* row(size_t i) const { return data + i * static_cast<size_t>(width); }
};

class BoostedTrees {
 public:
  struct Tree {
    // Complete tree in heap order: 2^depth − 1 splits, 2^depth leaves. Right when byte > threshold.
    std::vector<uint8_t> feature, threshold;
    std::vector<float> leaf;
  };

  int classes() const { return classes_; }
  int depth() const { return depth_; }
  int width() const { return width_; }
  size_t rounds() const { return classes_ > 0 ? trees_.size() / static_cast<size_t>(classes_) : 0; }
  bool empty() const { return trees_.empty(); }

  // Adds every round's values to scores[classes()], which is set to 0 first.
  void score(const uint8_t* row, float* scores) const;
  // Probabilities of the classes; they sum to 1.
  void probabilities(const uint8_t* row, float* out) const;

  // Plain bytes, little-endian; leaves are kept as half-precision steps of 1/1024.
  std::vector<uint8_t> toBytes() const;
  // `at` moves past what was read.
  static Result<BoostedTrees> fromBytes(const std::vector<uint8_t>& bytes, size_t& at);

 private:
  friend class TreeGrower;
  int classes_ = 0, depth_ = 0, width_ = 0;
  std::vector<Tree> trees_;  // round by round, class by class
};

struct BoostOptions {
  int classes = 2;
  int rounds = 60;
  int depth = 6;
  double learningRate = 0.12;
  double rowShare = 0.5;      // of the rows each tree sees
  double columnShare = 0.5;   // of the bytes each tree sees
  double leafPenalty = 4;     // added to a leaf's curvature: larger is smoother
  double leastCurvature = 3;  // of either side of a split
  uint64_t seed = 1;
};

// `labels` below options.classes; `weights` may be empty (all 1).
BoostedTrees growTrees(const ByteRows& rows, const std::vector<uint8_t>& labels,
                       const std::vector<float>& weights, const BoostOptions& options);

}  // namespace rackside
