// SPDX-License-Identifier: GPL-3.0-or-later
// How near the volume of a pit comes to the truth when its depth is known: faces with pits are
// rendered, worn as a photograph wears them, and looked at; each pit's mouth as proposed gives its
// volume. `fill_benchmark [FACES]`.
#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "tests/support/figure_score.h"
#include "tests/support/pit_faces.h"

using namespace rackside::synthetic;

namespace {

double shareWithin(const std::vector<double>& sizes, double limit) {
  const auto count =
      std::count_if(sizes.begin(), sizes.end(), [&](double e) { return e <= limit; });
  return 100.0 * static_cast<double>(count) /
         static_cast<double>(std::max<size_t>(sizes.size(), 1));
}

}  // namespace

int main(int argc, char** argv) {
  const int faces = argc > 1 ? std::atoi(argv[1]) : 40;
  std::vector<double> errors, sizes, byFace;
  size_t pits = 0;
  for (int i = 0; i < faces; ++i) {
    const PitFace c = renderPitFace(static_cast<uint32_t>(900 + i), 5);
    pits += c.truth.size();
    double trueSum = 0, sum = 0;
    for (const MeasuredPit& pit : measuredPits(c)) {
      errors.push_back(pit.mm3 / pit.trueMm3 - 1);
      sizes.push_back(std::abs(errors.back()));
      trueSum += pit.trueMm3, sum += pit.mm3;
    }
    if (trueSum > 0) byFace.push_back(std::abs(sum / trueSum - 1));
  }
  std::printf("%zu pits rendered, %zu proposed; volume with the true depth given:\n", pits,
              errors.size());
  std::printf(
      "bias %+.1f %%, median error %.1f %%, 95 %% of errors %.1f %%, within 10 %%: %.0f %%\n",
      100 * quantile(errors, 0.5), 100 * quantile(sizes, 0.5), 100 * quantile(sizes, 0.95),
      shareWithin(sizes, 0.1));
  std::printf("sum of a face: 95 %% of errors %.1f %%, within 10 %%: %.0f %%\n",
              100 * quantile(byFace, 0.95), shareWithin(byFace, 0.1));
}
