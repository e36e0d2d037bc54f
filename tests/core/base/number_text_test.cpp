// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number_text.h"

#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>

using namespace rackside;

TEST_CASE("numbers are read with a point or a comma, whole or not at all") {
  CHECK(numberFrom("99,8") == 99.8);
  CHECK(numberFrom(" 99.8 ") == 99.8);
  CHECK(numberFrom("-3") == -3.0);
  for (const char* wrong :
       {"", " ", "99,8 of", "1,2,3", "1.200,5", "1e999", "nan", "inf", "--1", "1 2"})
    CHECK_FALSE(numberFrom(wrong));
}

TEST_CASE("numbers are written alike in any locale") {
  const std::string before = std::setlocale(LC_ALL, nullptr);
  for (const char* locale : {"C", "de_DE.UTF-8", "de_DE.utf8"}) {
    std::setlocale(LC_ALL, locale);  // stays as it is where the system lacks the locale
    CHECK(fixedText(1234.5, 2) == "1234.50");
    CHECK(fixedText(-0.001, 2) == "0.00");
    CHECK(fixedText(-1.005, 1) == "-1.0");
    CHECK(fixedText(1e308, 0).size() == 309);
    CHECK(numberFrom("1.5") == 1.5);
  }
  std::setlocale(LC_ALL, before.c_str());
}
