// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/arris_reading.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/support/painted_ribbon.h"

using namespace rackside;
using namespace rackside::test;

namespace {

double medianReading(const EdgeRibbon& r) {
  std::vector<double> offsets;
  for (const OffsetReading& o : readArris(r, std::vector<double>(r.rows.size(), 0.4), 1.5))
    if (o.sigmaMm > 0) offsets.push_back(o.offsetMm);
  REQUIRE(offsets.size() > r.rows.size() / 2);
  std::sort(offsets.begin(), offsets.end());
  return offsets[offsets.size() / 2];
}

}  // namespace

TEST_CASE("an arris is read to a fraction of a pixel") {
  const EdgeRibbon r =
      paintedRibbon(0, [](double offset, int) { return offset < 0 ? kBrownLight : kGreyLight; });
  CHECK(std::abs(medianReading(r)) < 0.2);
}

TEST_CASE("a soft shadow that begins at the arris does not move it") {
  EdgeRibbon r = paintedRibbon(0, [](double offset, int) {
    if (offset < 0) return kBrownLight;
    const double t = std::min(1.0, offset / 4), lit = t * t * (3 - 2 * t);
    return cv::Vec3f(float(0.45 + 0.55 * lit) * kGreyLight);
  });
  constexpr double kBlurMm = 0.7;
  cv::GaussianBlur(r.light, r.light, {}, kBlurMm / kRibbonStepMm, 0.1);
  CHECK(std::abs(medianReading(r)) < 0.3);  // brightness alone says 1.4
}
