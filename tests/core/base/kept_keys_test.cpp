// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/kept_keys.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace rackside;

TEST_CASE("kept keys are a value of their own") {
  KeptKeys first;
  CHECK(first->empty());
  (*first)["colour"] = "grey";
  KeptKeys copy = first;
  (*copy)["colour"] = "brown";
  CHECK((*first)["colour"] == "grey");
  first = copy;
  CHECK((*first)["colour"] == "brown");
  const KeptKeys moved = std::move(copy);
  CHECK(moved->at("colour") == "brown");
  first = KeptKeys();
  CHECK(first->empty());
}

TEST_CASE("what is no object holds no keys") {
  CHECK(KeptKeys(nlohmann::json()).operator*() == nlohmann::json::object());
  CHECK(KeptKeys(nlohmann::json::array({1, 2}))->empty());
}
