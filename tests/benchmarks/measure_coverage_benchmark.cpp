// SPDX-License-Identifier: GPL-3.0-or-later
// How far off the joint adjustment is, and whether the ± it states is true: simulated corner and
// edge sets through the real adjustment. Prints one table.
//   measure_coverage_benchmark [sets a row, default 1000] [only rows whose name holds this text]
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>

#include "tests/support/measure_cases.h"

using namespace rackside;
using namespace rackside::simulation;

namespace {

double quantile(std::vector<double> v, double q) {
  std::sort(v.begin(), v.end());
  return v.empty() ? 0 : v[std::min(v.size() - 1, static_cast<size_t>(q * v.size()))];
}

struct Column {
  std::vector<double> errors, stated;
  int inside = 0;
  void add(double error, double u95) {
    errors.push_back(std::abs(error));
    stated.push_back(u95);
    inside += std::abs(error) <= u95;
  }
  void print() const {
    const double e95 = quantile(errors, 0.95), median = quantile(stated, 0.5);
    std::printf(" | %6.2f %6.2f %5.2f %5.1f", e95, median, median / std::max(e95, 1e-9),
                100.0 * inside / std::max<size_t>(1, errors.size()));
  }
};

void runRow(const Case& c, int sets) {
  Column length, middle, end;
  int failed = 0;
  std::vector<double> seconds;
  for (int i = 0; i < sets; ++i) {
    std::mt19937_64 random(1000003ULL * i + 17);
    const Setup setup = c.make(random);
    const Draw d = draw(setup, random);
    const auto start = std::chrono::steady_clock::now();
    const auto adjusted = adjust(d.sights, setup.options);
    if (!adjusted) {
      if (failed++ == 0) std::printf("  %s\n", adjusted.error().message.c_str());
      continue;
    }
    const Outcome o = measure(setup, d, **adjusted, c.edgeSigmaPx, random);
    seconds.push_back(
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    const auto stated = [&](const Error95& e) { return c.total ? e.u95Total : e.u95; };
    length.add(o.length.error, stated(o.length));
    middle.add(o.widthMiddle.error, stated(o.widthMiddle));
    end.add(o.widthEnd.error, stated(o.widthEnd));
  }
  std::printf("%-46s", c.name.c_str());
  length.print();
  middle.print();
  end.print();
  std::printf(" | %d %6.1f\n", failed, 1000 * quantile(seconds, 0.5));
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const int sets = argc > 1 ? std::atoi(argv[1]) : 1000;
  const std::string only = argc > 2 ? argv[2] : "";
  std::printf(
      "%-46s | length: 95 %% error, median ±, ratio, %% inside | width in the middle | "
      "width at the end | failed, ms\n",
      "case");
  for (const Case& c : measureCases())
    if (c.name.find(only) != std::string::npos) runRow(c, sets);
  return 0;
}
