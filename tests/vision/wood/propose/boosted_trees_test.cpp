// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/boosted_trees.h"

#include <array>
#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

struct Samples {
  std::vector<uint8_t> rows, labels;
  ByteRows view() const { return {rows.data(), labels.size(), 4}; }
};

// Three classes that no single byte tells apart: by the quadrant of two bytes; the other two bytes
// are noise.
Samples quadrants(size_t count, uint64_t seed) {
  std::mt19937_64 random(seed);
  Samples s;
  for (size_t i = 0; i < count; ++i) {
    const std::array<uint8_t, 4> row{uint8_t(random()), uint8_t(random()), uint8_t(random()),
                                     uint8_t(random())};
    s.rows.insert(s.rows.end(), row.begin(), row.end());
    const bool right = row[0] > 127, high = row[2] > 90;
    s.labels.push_back(right == high ? 0 : right ? 1 : 2);
  }
  return s;
}

BoostOptions options() {
  BoostOptions o;
  o.classes = 3;
  o.rounds = 20;
  o.depth = 3;
  return o;
}

double shareRight(const BoostedTrees& trees, const Samples& s) {
  size_t right = 0;
  std::array<float, 3> p{};
  for (size_t i = 0; i < s.labels.size(); ++i) {
    trees.probabilities(s.view().row(i), p.data());
    right += size_t(std::max_element(p.begin(), p.end()) - p.begin()) == s.labels[i];
  }
  return double(right) / double(s.labels.size());
}

}  // namespace

TEST_CASE("boosted trees learn what no single byte tells") {
  const Samples learned = quadrants(6000, 1), fresh = quadrants(2000, 2);
  const BoostedTrees trees = growTrees(learned.view(), learned.labels, {}, options());
  // The borders of the quadrants fall inside a bin of four bytes: a few in a hundred are undecided.
  CHECK(shareRight(trees, fresh) > 0.95);
  std::array<float, 3> p{};
  trees.probabilities(fresh.view().row(0), p.data());
  CHECK(p[0] + p[1] + p[2] == Approx(1).margin(1e-5));
}

TEST_CASE("the same samples and seed grow the same trees") {
  const Samples s = quadrants(2000, 3);
  const auto once = growTrees(s.view(), s.labels, {}, options()).toBytes();
  CHECK(once == growTrees(s.view(), s.labels, {}, options()).toBytes());
  BoostOptions other = options();
  other.seed = 2;
  CHECK(once != growTrees(s.view(), s.labels, {}, other).toBytes());
}

TEST_CASE("trees come back from their bytes, and broken bytes are refused") {
  const Samples s = quadrants(2000, 4);
  const BoostedTrees trees = growTrees(s.view(), s.labels, {}, options());
  const std::vector<uint8_t> bytes = trees.toBytes();
  size_t at = 0;
  const auto back = BoostedTrees::fromBytes(bytes, at);
  REQUIRE(back);
  CHECK(at == bytes.size());
  std::array<float, 3> p{}, q{};
  for (size_t i = 0; i < 200; ++i) {
    trees.score(s.view().row(i), p.data());
    back->score(s.view().row(i), q.data());
    for (size_t k = 0; k < 3; ++k) CHECK(p[k] == Approx(q[k]).margin(20 * 0.5 / 1024));
  }
  for (const size_t kept : {size_t{0}, size_t{5}, bytes.size() - 1}) {
    size_t from = 0;
    CHECK_FALSE(BoostedTrees::fromBytes({bytes.begin(), bytes.begin() + long(kept)}, from));
  }
  std::vector<uint8_t> wrong = bytes;
  wrong[6] = 200;  // a split on a byte that rows of four have not
  size_t from = 0;
  CHECK_FALSE(BoostedTrees::fromBytes(wrong, from));
}
