// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/boosted_trees.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kLeafSteps = 1024;  // a stored leaf is a whole number of these
constexpr uint8_t kVersion = 1;

void put16(std::vector<uint8_t>& out, int v) {
  out.push_back(static_cast<uint8_t>(v & 255));
  out.push_back(static_cast<uint8_t>((v >> 8) & 255));
}

int get16(const std::vector<uint8_t>& in, size_t at) {
  return in[at] | (in[at + 1] << 8);
}

}  // namespace

void BoostedTrees::score(const uint8_t* row, float* scores) const {
  std::fill(scores, scores + classes_, 0.0F);
  const size_t splits = (size_t{1} << depth_) - 1;
  int k = 0;
  for (const Tree& tree : trees_) {
    size_t node = 0;
    for (int level = 0; level < depth_; ++level)
      node = 2 * node + 1 + static_cast<size_t>(row[tree.feature[node]] > tree.threshold[node]);
    scores[k] += tree.leaf[node - splits];
    if (++k == classes_) k = 0;
  }
}

void BoostedTrees::probabilities(const uint8_t* row, float* out) const {
  score(row, out);
  const float top = *std::max_element(out, out + classes_);
  float sum = 0;
  for (int k = 0; k < classes_; ++k) sum += out[k] = std::exp(out[k] - top);
  for (int k = 0; k < classes_; ++k) out[k] /= sum;
}

std::vector<uint8_t> BoostedTrees::toBytes() const {
  std::vector<uint8_t> out{kVersion, static_cast<uint8_t>(classes_), static_cast<uint8_t>(depth_),
                           static_cast<uint8_t>(width_)};
  put16(out, static_cast<int>(trees_.size()));
  for (const Tree& tree : trees_) {
    out.insert(out.end(), tree.feature.begin(), tree.feature.end());
    out.insert(out.end(), tree.threshold.begin(), tree.threshold.end());
    for (const float v : tree.leaf)
      put16(out, static_cast<int>(std::lround(std::clamp(v * kLeafSteps, -32767.0, 32767.0))));
  }
  return out;
}

Result<BoostedTrees> BoostedTrees::fromBytes(const std::vector<uint8_t>& bytes, size_t& at) {
  const Error broken{"The model of the marks is broken: build the program again."};
  if (at + 6 > bytes.size() || bytes[at] != kVersion) return broken;
  BoostedTrees trees;
  trees.classes_ = bytes[at + 1];
  trees.depth_ = bytes[at + 2];
  trees.width_ = bytes[at + 3];
  const auto count = static_cast<size_t>(get16(bytes, at + 4));
  at += 6;
  if (trees.classes_ < 1 || trees.depth_ < 1 || trees.depth_ > 12) return broken;
  const size_t leaves = size_t{1} << trees.depth_, splits = leaves - 1;
  if (at + count * (2 * splits + 2 * leaves) > bytes.size()) return broken;
  for (size_t i = 0; i < count; ++i) {
    Tree tree;
    const auto from = bytes.begin() + static_cast<std::ptrdiff_t>(at);
    const auto n = static_cast<std::ptrdiff_t>(splits);
    tree.feature.assign(from, from + n);
    tree.threshold.assign(from + n, from + 2 * n);
    if (std::any_of(tree.feature.begin(), tree.feature.end(),
                    [&](uint8_t f) { return f >= trees.width_; }))
      return broken;
    at += 2 * splits;
    for (size_t l = 0; l < leaves; ++l, at += 2)
      tree.leaf.push_back(static_cast<float>(static_cast<int16_t>(get16(bytes, at)) / kLeafSteps));
    trees.trees_.push_back(std::move(tree));
  }
  return trees;
}

}  // namespace rackside
