// SPDX-License-Identifier: GPL-3.0-or-later
// Growing boosted trees: histograms of gradient and curvature, level by level.
#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/core.hpp>
#include <random>

#include "vision/wood/propose/boosted_trees.h"

namespace rackside {
namespace {

// A byte falls in one of so many bins of about equal count: finer splits do not pay.
constexpr int kBins = 64;

struct Binning {
  std::vector<std::array<uint8_t, 256>> binOfByte;    // by feature
  std::vector<std::array<uint8_t, kBins>> lastOfBin;  // largest byte of a bin
};

struct Sum {
  float g = 0, h = 0;
};

Binning binBytes(const ByteRows& rows) {
  const auto width = static_cast<size_t>(rows.width);
  Binning b;
  b.binOfByte.resize(width);
  b.lastOfBin.resize(width);
  std::vector<std::array<size_t, 256>> count(width, std::array<size_t, 256>{});
  for (size_t i = 0; i < rows.count; ++i)
    for (size_t f = 0; f < width; ++f) ++count[f][rows.row(i)[f]];
  for (size_t f = 0; f < width; ++f) {
    size_t seen = 0;
    int bin = 0;
    for (int v = 0; v < 256; ++v) {
      b.binOfByte[f][static_cast<size_t>(v)] = static_cast<uint8_t>(bin);
      b.lastOfBin[f][static_cast<size_t>(bin)] = static_cast<uint8_t>(v);
      seen += count[f][static_cast<size_t>(v)];
      const size_t wanted = (static_cast<size_t>(bin) + 1) * rows.count / kBins;
      if (seen > wanted && bin < kBins - 1) ++bin;
    }
    for (int k = bin + 1; k < kBins; ++k) b.lastOfBin[f][static_cast<size_t>(k)] = 255;
  }
  return b;
}

double gainOf(double g, double h, double penalty) {
  return g * g / (h + penalty);
}

}  // namespace

// One tree for one class of one round.
class TreeGrower {
 public:
  TreeGrower(const std::vector<uint8_t>& bins, int width, const Binning& binning,
             const BoostOptions& options)
      : bins_(bins), width_(static_cast<size_t>(width)), binning_(binning), options_(options) {}

  BoostedTrees::Tree grow(const std::vector<Sum>& gradient, uint64_t seed) {
    std::mt19937_64 random(seed);
    choose(gradient.size(), random);
    node_.assign(rows_.size(), 0);
    BoostedTrees::Tree tree;
    const size_t leaves = size_t{1} << options_.depth;
    tree.feature.assign(leaves - 1, 0);
    tree.threshold.assign(leaves - 1, 255);
    for (int level = 0; level < options_.depth; ++level) {
      fill(gradient, size_t{1} << level);
      split(tree, level);
      descend(tree, level);
    }
    setLeaves(tree, gradient);
    return tree;
  }

  static void assemble(BoostedTrees& out, const BoostOptions& o, int width,
                       std::vector<BoostedTrees::Tree> trees) {
    out.classes_ = o.classes;
    out.depth_ = o.depth;
    out.width_ = width;
    out.trees_ = std::move(trees);
  }

 private:
  void choose(size_t count, std::mt19937_64& random) {
    std::bernoulli_distribution take(options_.rowShare);
    rows_.clear();
    for (size_t i = 0; i < count; ++i)
      if (take(random)) rows_.push_back(static_cast<uint32_t>(i));
    columns_.resize(width_);
    for (size_t f = 0; f < width_; ++f) columns_[f] = f;
    std::shuffle(columns_.begin(), columns_.end(), random);
    const auto kept =
        static_cast<size_t>(std::ceil(options_.columnShare * static_cast<double>(width_)));
    columns_.resize(std::clamp<size_t>(kept, 1, width_));
  }

  void fill(const std::vector<Sum>& gradient, size_t nodes) {
    histogram_.assign(nodes * columns_.size() * kBins, Sum{});
    for (size_t r = 0; r < rows_.size(); ++r) {
      const Sum s = gradient[rows_[r]];
      const uint8_t* row = &bins_[rows_[r] * width_];
      Sum* into = &histogram_[node_[r] * columns_.size() * kBins];
      for (size_t c = 0; c < columns_.size(); ++c, into += kBins) {
        Sum& cell = into[row[columns_[c]]];
        cell.g += s.g;
        cell.h += s.h;
      }
    }
  }

  void split(BoostedTrees::Tree& tree, int level) const {
    const size_t nodes = size_t{1} << level, first = nodes - 1;
    for (size_t n = 0; n < nodes; ++n) {
      double best = 1e-6;
      for (size_t c = 0; c < columns_.size(); ++c) {
        const Sum* cells = &histogram_[(n * columns_.size() + c) * kBins];
        double g = 0, h = 0;
        for (int b = 0; b < kBins; ++b) g += cells[b].g, h += cells[b].h;
        const double whole = gainOf(g, h, options_.leafPenalty);
        double gl = 0, hl = 0;
        for (int b = 0; b < kBins - 1; ++b) {
          gl += cells[b].g, hl += cells[b].h;
          if (hl < options_.leastCurvature || h - hl < options_.leastCurvature) continue;
          const double gain = gainOf(gl, hl, options_.leafPenalty) +
                              gainOf(g - gl, h - hl, options_.leafPenalty) - whole;
          if (gain <= best) continue;
          best = gain;
          tree.feature[first + n] = static_cast<uint8_t>(columns_[c]);
          tree.threshold[first + n] = binning_.lastOfBin[columns_[c]][static_cast<size_t>(b)];
        }
      }
    }
  }

  void descend(const BoostedTrees::Tree& tree, int level) {
    const size_t first = (size_t{1} << level) - 1;
    for (size_t r = 0; r < rows_.size(); ++r) {
      const size_t f = tree.feature[first + node_[r]], t = tree.threshold[first + node_[r]];
      const bool right = t < 255 && bins_[rows_[r] * width_ + f] > binning_.binOfByte[f][t];
      node_[r] = static_cast<uint16_t>(2 * node_[r] + (right ? 1 : 0));
    }
  }

  void setLeaves(BoostedTrees::Tree& tree, const std::vector<Sum>& gradient) const {
    std::vector<double> g(size_t{1} << options_.depth), h(g.size());
    for (size_t r = 0; r < rows_.size(); ++r) {
      g[node_[r]] += gradient[rows_[r]].g;
      h[node_[r]] += gradient[rows_[r]].h;
    }
    for (size_t l = 0; l < g.size(); ++l)
      tree.leaf.push_back(
          static_cast<float>(-options_.learningRate * g[l] / (h[l] + options_.leafPenalty)));
  }

  const std::vector<uint8_t>& bins_;
  size_t width_;
  const Binning& binning_;
  const BoostOptions& options_;
  std::vector<uint32_t> rows_;
  std::vector<size_t> columns_;
  std::vector<uint16_t> node_;
  std::vector<Sum> histogram_;
};

namespace {

// Gradient and curvature of the log loss for one class.
void gradientOf(const std::vector<float>& scores, const std::vector<uint8_t>& labels,
                const std::vector<float>& weights, int classes, int k, std::vector<Sum>& out) {
  for (size_t i = 0; i < labels.size(); ++i) {
    const float* s = &scores[i * static_cast<size_t>(classes)];
    float top = s[0], sum = 0;
    for (int c = 1; c < classes; ++c) top = std::max(top, s[c]);
    for (int c = 0; c < classes; ++c) sum += std::exp(s[c] - top);
    const float p = std::exp(s[k] - top) / sum, w = weights.empty() ? 1.0F : weights[i];
    out[i] = {w * (p - (labels[i] == k ? 1.0F : 0.0F)), w * std::max(p * (1 - p), 1e-6F)};
  }
}

float valueOf(const BoostedTrees::Tree& tree, int depth, const uint8_t* row) {
  size_t node = 0;
  for (int level = 0; level < depth; ++level)
    node = 2 * node + 1 + static_cast<size_t>(row[tree.feature[node]] > tree.threshold[node]);
  return tree.leaf[node - ((size_t{1} << depth) - 1)];
}

}  // namespace

BoostedTrees growTrees(const ByteRows& rows, const std::vector<uint8_t>& labels,
                       const std::vector<float>& weights, const BoostOptions& o) {
  const Binning binning = binBytes(rows);
  const auto width = static_cast<size_t>(rows.width);
  const auto classes = static_cast<size_t>(o.classes);
  std::vector<uint8_t> bins(rows.count * width);
  for (size_t i = 0; i < rows.count; ++i)
    for (size_t f = 0; f < width; ++f) bins[i * width + f] = binning.binOfByte[f][rows.row(i)[f]];
  std::vector<float> scores(rows.count * classes, 0.0F);
  std::vector<BoostedTrees::Tree> trees;
  for (int round = 0; round < o.rounds; ++round) {
    std::vector<BoostedTrees::Tree> fresh(classes);
    cv::parallel_for_({0, o.classes}, [&](const cv::Range& range) {
      std::vector<Sum> gradient(rows.count);
      for (int k = range.start; k < range.end; ++k) {
        gradientOf(scores, labels, weights, o.classes, k, gradient);
        TreeGrower grower(bins, rows.width, binning, o);
        fresh[static_cast<size_t>(k)] =
            grower.grow(gradient, o.seed * 7919 + static_cast<uint64_t>(round) * 131 +
                                      static_cast<uint64_t>(k));
      }
    });
    for (size_t i = 0; i < rows.count; ++i)
      for (size_t k = 0; k < classes; ++k)
        scores[i * classes + k] += valueOf(fresh[k], o.depth, rows.row(i));
    for (auto& tree : fresh) trees.push_back(std::move(tree));
  }
  BoostedTrees out;
  TreeGrower::assemble(out, o, rows.width, std::move(trees));
  return out;
}

}  // namespace rackside
