// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/exif_prior.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace rackside;

namespace {
double relativeSigma(const Lens& lens) {
  return std::sqrt(lens.covariance[0]) / lens.focalPx;
}
}  // namespace

TEST_CASE("the 35 mm equivalent gives the focal length by the diagonal", "[lens]") {
  Exif exif;
  exif.focal35Mm = 26;
  const Lens lens = lensPrior(exif, {4000, 3000});
  // 26 mm on a diagonal of √(36² + 24²) = 43.2666 mm, 5000 px: 3004.6 px.
  CHECK(lens.focalPx == Approx(26 / std::hypot(36, 24) * 5000));
  CHECK(relativeSigma(lens) == Approx(0.0229).margin(0.001));
  CHECK(lens.cx == Approx(1999.5));
  CHECK(lens.source.find("26 mm") != std::string::npos);
}

TEST_CASE("less knowledge means more spread", "[lens]") {
  Exif pitch, equivalent, nothing, wide;
  pitch.focalMm = 35;
  pitch.sensorPxPerMm = 170;
  equivalent.focal35Mm = 26;
  wide.focal35Mm = 13;
  const cv::Size size(4000, 3000), cut(4000, 2250);
  CHECK(lensPrior(pitch, size).focalPx == Approx(5950));
  CHECK(relativeSigma(lensPrior(pitch, size)) < relativeSigma(lensPrior(equivalent, size)));
  CHECK(relativeSigma(lensPrior(equivalent, size)) < relativeSigma(lensPrior(equivalent, cut)));
  CHECK(relativeSigma(lensPrior(equivalent, cut)) < relativeSigma(lensPrior(nothing, size)));
  CHECK(lensPrior(nothing, size).source.find("no EXIF") != std::string::npos);
  CHECK(lensPrior(wide, size).covariance[18] > lensPrior(equivalent, size).covariance[18]);
}
