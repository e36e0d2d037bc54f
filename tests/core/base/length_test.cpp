// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/length.h"

#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

struct Typed {
  const char* text;
  UnitSystem bare;
  double mm;
};
constexpr auto mm = UnitSystem::millimetres;
constexpr auto in = UnitSystem::inches;

std::string refusal(const char* text, UnitSystem bare) {
  const Result<double> read = parseLengthMm(text, bare);
  return read.ok() ? std::string() : read.error().message;
}

}  // namespace

TEST_CASE("lengths are read as makers type them") {
  const auto typed =
      GENERATE(Typed{"600", mm, 600}, Typed{"600mm", in, 600}, Typed{"60 cm", in, 600},
               Typed{"1.2m", in, 1200}, Typed{"1,2 m", mm, 1200}, Typed{"600,5", mm, 600.5},
               Typed{"1 m 20 cm 3 mm", in, 1203}, Typed{"23 5/8", in, 23.625 * 25.4},
               Typed{"23-5/8\"", mm, 23.625 * 25.4}, Typed{"7/8 in", mm, 0.875 * 25.4},
               Typed{"2' 3 1/2\"", mm, 27.5 * 25.4}, Typed{"2'-3 1/2\"", mm, 27.5 * 25.4},
               Typed{"10'9\"", mm, 129 * 25.4}, Typed{"2' 3", mm, 27 * 25.4},
               Typed{"8 ft", mm, 96 * 25.4}, Typed{"23.625in", mm, 23.625 * 25.4},
               Typed{"23,625 in", mm, 23.625 * 25.4}, Typed{"0", mm, 0},
               Typed{"0,125 in", mm, 0.125 * 25.4}, Typed{"3 feet 2 inches", mm, 38 * 25.4},
               Typed{"0,125", mm, 0.125}, Typed{"600.125", mm, 600.125}, Typed{" 19 MM ", in, 19});
  CAPTURE(typed.text);
  const Result<double> read = parseLengthMm(typed.text, typed.bare);
  REQUIRE(read.ok());
  CHECK(*read == Approx(typed.mm).epsilon(1e-12));
}

TEST_CASE("typographic fractions, primes, dashes and spaces are read") {
  const auto typed =
      GENERATE(Typed{"23⅝″", mm, 23.625 * 25.4}, Typed{"23 ⅝ in", mm, 23.625 * 25.4},
               Typed{"⅞", in, 0.875 * 25.4}, Typed{"2′ 3½″", mm, 27.5 * 25.4},
               Typed{"2’ 3½”", mm, 27.5 * 25.4}, Typed{"2' 3 1/2''", mm, 27.5 * 25.4},
               Typed{"23 7⁄16″", mm, 23.4375 * 25.4}, Typed{"23⁷⁄₁₆″", mm, 23.4375 * 25.4},
               Typed{"23–5/8\"", mm, 23.625 * 25.4}, Typed{"600\u00a0mm", in, 600},
               Typed{"10′9″", mm, 129 * 25.4});
  CAPTURE(typed.text);
  const Result<double> read = parseLengthMm(typed.text, typed.bare);
  REQUIRE(read.ok());
  CHECK(*read == Approx(typed.mm).epsilon(1e-12));
}

TEST_CASE("what is no length is refused with what to type") {
  const char* text =
      GENERATE("", "   ", "abc", "-5", "5 parsecs", "3/0 in", "1/2/3 in", "2 3", "1.2.3",
               "5 in 2 ft", "5 in 20 mm", "23 9/8 in", "2.5 1/2 in", "12 in 5", "nan", "inf", "1e5",
               "in", "/8", "5 mm mm", "99999999 m", "0x10", "23 5/", "'");
  CAPTURE(text);
  const std::string message = refusal(text, mm);
  REQUIRE_FALSE(message.empty());
  CHECK(message.find("Type something like") != std::string::npos);
}

TEST_CASE("a comma that may mean thousands, and a bare fraction of a millimetre, are questioned") {
  CHECK(refusal("1,200", mm).find("thousands") != std::string::npos);
  CHECK(refusal("1,200 mm", mm).find("thousands") != std::string::npos);
  CHECK(refusal("23 5/8", mm).find("fraction without a unit") != std::string::npos);
  CHECK(parseLengthMm("23 5/8 mm", mm).ok());
}

TEST_CASE("lengths are shown in millimetres or reduced fractions") {
  LengthStyle metric;
  CHECK(formatLength(595.4, metric) == "595 mm");
  CHECK(formatLength(-0.2, metric) == "0 mm");
  metric.decimals = 1;
  CHECK(formatLength(595.44, metric, false) == "595.4");
  LengthStyle imperial{UnitSystem::inches, 0, 16};
  CHECK(formatLength(23.4375 * 25.4, imperial) == "23 7/16\"");
  CHECK(formatLength(0.5 * 25.4, imperial) == "1/2\"");
  CHECK(formatLength(24 * 25.4, imperial, false) == "24");
  CHECK(formatLength(23.99 * 25.4, imperial) == "24\"");  // rounds over into the whole
  CHECK(formatLength(0, imperial) == "0\"");
  CHECK(formatLength(-25.4 * 1.5, imperial) == "-1 1/2\"");
  imperial.denominator = 12;
  CHECK_THROWS_AS(formatLength(1, imperial), std::logic_error);
}

TEST_CASE("what is shown is read back within half of the last division") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> anyLength(0, 6000);
  for (int i = 0; i < 2000; ++i) {
    const double length = anyLength(random);
    const int denominator = 1 << (i % 7);
    const LengthStyle style{i % 2 == 0 ? mm : in, i % 3, denominator};
    const double half =
        style.system == mm ? 0.5 * std::pow(10, -style.decimals) : 0.5 * 25.4 / denominator;
    const Result<double> back = parseLengthMm(formatLength(length, style), mm);
    REQUIRE(back.ok());
    CHECK(std::abs(*back - length) <= half + 1e-9);
    REQUIRE(parseLengthMm(formatLength(length, style, false), style.system).ok());
  }
}

TEST_CASE("what may mean two things is asked about, and what people type is read") {
  const auto fails = [](const char* text, UnitSystem bare, const char* word) {
    const auto mm = parseLengthMm(text, bare);
    CAPTURE(text);
    REQUIRE_FALSE(mm.ok());
    CHECK(mm.error().message.find(word) != std::string::npos);
    CHECK(mm.error().message.find("something like") != std::string::npos);
  };
  const UnitSystem mm = UnitSystem::millimetres, inches = UnitSystem::inches;
  fails("1'000", mm, "groups of digits");
  fails("5,", mm, "no decimals behind");
  fails("5.", inches, "no decimals behind");
  fails("2'-", mm, "dash");
  fails("1.125", mm, "add the unit");
  CHECK(*parseLengthMm("1.125", inches) == Approx(28.575));
  CHECK(*parseLengthMm("1.125 mm", mm) == Approx(1.125));
  CHECK(*parseLengthMm("12.5", mm) == Approx(12.5));
  CHECK(*parseLengthMm("12 in.", mm) == Approx(304.8));
  CHECK(*parseLengthMm("8 ft.", mm) == Approx(2438.4));
  CHECK(*parseLengthMm("1 000 mm", mm) == Approx(1000));
  CHECK(*parseLengthMm("12 000", mm) == Approx(12000));
  CHECK(*parseLengthMm("5 100/128 in", mm) == Approx((5 + 100.0 / 128) * 25.4));
  CHECK(*parseLengthMm("1/4", inches) == Approx(6.35));
  CHECK(*parseLengthMm("23 5/8", inches) == Approx(600.075));
}
