// SPDX-License-Identifier: GPL-3.0-or-later
// Layouts put together from known sections, against trying every set of them.
#include "core/plan/search/section_shelf.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

constexpr int kColumns = 12, kParts = 3;

struct Case {
  std::vector<Part> parts = std::vector<Part>(kParts);
  std::vector<BlankKind> kinds;
  Shop shop;
  std::vector<SectionLayout> sections;
  std::vector<float> stopPay = std::vector<float>(kColumns + 1, 0.0F);
  Prices prices;
  Job job{parts, kinds, shop};
};

// Kind 0 and 1 are one copy of parts 0 and 1, kind 2 is two of part 2.
void fillAtRandom(Case& c, unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](int lo, int hi) {
    return lo + static_cast<int>(random() % (hi - lo + 1));
  };
  for (int part = 0; part < kParts; ++part) {
    BlankKind kind;
    kind.part = part;
    kind.copies = part == 2 ? 2 : 1;
    c.kinds.push_back(kind);
    c.prices.ofPart.push_back(between(0, 6));
  }
  for (int x = 1; x <= kColumns; ++x)
    c.stopPay[x] = c.stopPay[x - 1] - static_cast<float>(between(0, 2));
  for (int i = between(1, 7); i > 0; --i) {
    const int from = between(0, kColumns - 2);
    SectionLayout section{from, between(from + 1, kColumns), 0, {}};
    for (int s = between(1, 3); s > 0; --s)
      section.strips.push_back(
          {between(0, kParts - 1), from, 10.0 * s, static_cast<double>(between(1, 12))});
    c.sections.push_back(section);
  }
}

// A case from a seed, its sections on a shelf.
struct Shelved {
  Case c;
  SectionShelf shelf{c.job};
  explicit Shelved(unsigned seed) {
    fillAtRandom(c, seed);
    for (const SectionLayout& section : c.sections) shelf.add(section);
  }
};

// The most that sections one after the other pay when any of their strips may be left out.
double mostOf(const Case& c, int from, const std::vector<int>& left) {
  double most = c.stopPay[from];
  for (const SectionLayout& section : c.sections) {
    if (section.from < from) continue;
    for (unsigned set = 1; set < 1U << section.strips.size(); ++set) {
      double pay = 0;
      std::vector<int> after = left;
      for (size_t i = 0; i < section.strips.size(); ++i) {
        if (!(set >> i & 1)) continue;
        const BlankKind& kind = c.kinds[section.strips[i].kind];
        after[kind.part] -= kind.copies;
        pay += section.strips[i].worth - kind.copies * c.prices.ofPart[kind.part];
      }
      if (std::all_of(after.begin(), after.end(), [](int n) { return n >= 0; }))
        most = std::max(most, pay + mostOf(c, section.to, after));
    }
  }
  return most;
}

double payOf(const Case& c, const BoardLayout& layout, std::vector<int>& left) {
  double pay = layout.value;
  for (const SectionLayout& section : layout.sections)
    for (const StripLayout& strip : section.strips) {
      const BlankKind& kind = c.kinds[strip.kind];
      left[kind.part] -= kind.copies;
      pay -= kind.copies * c.prices.ofPart[kind.part];
    }
  return pay;
}

}  // namespace

TEST_CASE("known sections are put together to the layout that pays most", "[plan][shelf]") {
  int several = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const Shelved shelved(seed);
    const Case& c = shelved.c;
    std::vector<int> left(kParts, 100);
    const BoardLayout layout = shelved.shelf.best(c.prices, left, c.stopPay);
    INFO("seed " << seed);
    CHECK(payOf(c, layout, left) == Approx(mostOf(c, 0, std::vector<int>(kParts, 100))));
    for (size_t i = 1; i < layout.sections.size(); ++i)
      CHECK(layout.sections[i - 1].to <= layout.sections[i].from);
    several += layout.sections.size() > 1 ? 1 : 0;
  }
  CHECK(several > 30);
}

TEST_CASE("a layout of known sections keeps to the copies wanted", "[plan][shelf]") {
  int limited = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    const Shelved shelved(seed);
    const Case& c = shelved.c;
    const std::vector<int> wanted{1, 0, 2};
    std::vector<int> left = wanted;
    const double pay = payOf(c, shelved.shelf.best(c.prices, left, c.stopPay), left);
    INFO("seed " << seed);
    CHECK(std::all_of(left.begin(), left.end(), [](int n) { return n >= 0; }));
    const double most = mostOf(c, 0, wanted);
    CHECK(pay <= most + 1e-9);
    CHECK(pay >= 0);
    limited += most < mostOf(c, 0, std::vector<int>(kParts, 100)) - 1e-9 ? 1 : 0;
  }
  CHECK(limited > 30);
}
