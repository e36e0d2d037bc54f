// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/id.h"

#include <catch2/catch.hpp>
#include <set>

using namespace rackside;

TEST_CASE("new ids do not meet again, even on a file system that ignores case") {
  std::set<std::string> seen;
  for (int i = 0; i < 20000; ++i) {
    const std::string id = newIdText("board");
    REQUIRE(id.size() == std::string("board-").size() + 13);
    REQUIRE(id.find_first_not_of("0123456789abcdefghijklmnopqrstuvwxyz-") == std::string::npos);
    REQUIRE(seen.insert(id).second);
  }
}

TEST_CASE("seeded ids follow prefix, seed and index and nothing else") {
  CHECK(seededIdText("cut", 1, 2) == seededIdText("cut", 1, 2));
  std::set<std::string> seen;
  for (const char* prefix : {"cut", "piece"})
    for (unsigned long long seed = 0; seed < 50; ++seed)
      for (unsigned long long index = 0; index < 50; ++index)
        seen.insert(seededIdText(prefix, seed, index).substr(std::string(prefix).size()));
  CHECK(seen.size() == 2 * 50 * 50);
}
