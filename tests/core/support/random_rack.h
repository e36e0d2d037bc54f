// SPDX-License-Identifier: GPL-3.0-or-later
// Racks with every field filled from a random source, for tests that must hold for any of them.
#pragma once

#include <random>

#include "core/document/rack.h"

namespace rackside::tests {

class RandomRack {
 public:
  explicit RandomRack(unsigned seed) : random_(seed) {}

  Rack rack(int boards, int parts);
  Board board();
  Mark mark();
  Part part();
  Shop shop();
  Plan plan(const Rack& of);
  Outline outline();

  double real(double least, double greatest) {
    return std::uniform_real_distribution<double>(least, greatest)(random_);
  }
  int whole(int least, int greatest) {
    return std::uniform_int_distribution<int>(least, greatest)(random_);
  }
  bool maybe(double probability = 0.5) { return real(0, 1) < probability; }

 private:
  std::string word();
  template <class Enum>
  Enum any(int values) {
    return static_cast<Enum>(whole(0, values - 1));
  }
  MarkShape shape();
  Picture picture();
  FaceAllows face();
  nlohmann::json unknown();
  std::string id(const char* prefix);

  std::mt19937 random_;
  unsigned long long next_ = 0;
};

}  // namespace rackside::tests
