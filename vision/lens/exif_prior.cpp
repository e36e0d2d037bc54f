// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/exif_prior.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace rackside {
namespace {

constexpr double kFilmDiagonalMm = 43.2666;  // of 36 × 24 mm
constexpr double kPhoneEquivalentMm = 26;

struct Focal {
  double px, relativeSigma;
  std::string source;
};

std::string mmText(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g mm", mm);
  return text;
}

bool usualShape(cv::Size size) {
  const double shape =
      double(std::max(size.width, size.height)) / std::min(size.width, size.height);
  return std::abs(shape - 4.0 / 3) < 0.02 || std::abs(shape - 1.5) < 0.02;
}

Focal focalOf(const Exif& exif, cv::Size size) {
  const double diagonalPx = std::hypot(size.width, size.height);
  if (exif.focalMm && exif.sensorPxPerMm)
    return {*exif.focalMm * *exif.sensorPxPerMm, 0.01,
            "EXIF focal length " + mmText(*exif.focalMm) + " and sensor pitch"};
  if (exif.focal35Mm) {
    const double rounding = 0.5 / std::sqrt(3.0) / *exif.focal35Mm;
    const double cut = usualShape(size) ? 0 : 0.03;
    return {*exif.focal35Mm / kFilmDiagonalMm * diagonalPx, std::hypot(rounding, 0.02, cut),
            "EXIF 35 mm equivalent " + mmText(*exif.focal35Mm) +
                (cut > 0 ? ", picture cut to an unusual shape" : "")};
  }
  return {kPhoneEquivalentMm / kFilmDiagonalMm * diagonalPx, 0.12,
          exif.focalMm ? "guess: EXIF names no sensor size, taken for a phone's main camera"
                       : "guess: no EXIF, taken for a phone's main camera"};
}

}  // namespace

Lens lensPrior(const Exif& exif, cv::Size size) {
  const Focal focal = focalOf(exif, size);
  Lens lens;
  lens.size = size;
  lens.focalPx = focal.px;
  lens.cx = (size.width - 1) / 2.0;
  lens.cy = (size.height - 1) / 2.0;
  lens.source = focal.source;
  const bool wide = exif.focal35Mm && *exif.focal35Mm < 20;
  const double centre = 0.004 * std::hypot(size.width, size.height);
  const double sigma[5] = {focal.px * focal.relativeSigma, centre, centre, wide ? 0.05 : 0.015,
                           wide ? 0.03 : 0.01};
  for (size_t i = 0; i < 5; ++i) lens.covariance[6 * i] = sigma[i] * sigma[i];
  return lens;
}

}  // namespace rackside
