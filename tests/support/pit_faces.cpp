// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/pit_faces.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <random>

#include "core/geometry/polygon.h"
#include "core/trade/fill_volume.h"
#include "tests/support/photo_wear.h"
#include "tests/support/wood_defects.h"

namespace rackside::synthetic {
namespace {

constexpr double kApartMm = 180, kWidthMm = 200;
constexpr double kThicknessMm = 30, kMmPerPx = 0.5;
constexpr int kFiner = 4;  // painted so many times finer than the lens sees

WoodSpec woodWithPits(uint32_t seed, int pits) {
  std::mt19937 draw(seed);
  const auto between = [&](double a, double b) {
    return std::uniform_real_distribution<double>(a, b)(draw);
  };
  static const char* const kSpecies[] = {"cherry", "ash", "walnut", "maple", "oak"};
  WoodSpec spec;
  spec.species = kSpecies[seed % 5];
  spec.seed = seed;
  spec.saw.kind = seed % 3 == 0 ? "circular" : "band";
  spec.saw.pitchMm = between(2.5, 7);
  for (int i = 0; i < pits; ++i) {
    DefectSpec pit;
    pit.kind = "hole";
    pit.x = kApartMm * (i + 0.5) + between(-30, 30);
    pit.y = between(50, 150);
    pit.alongMm = between(4, 22);
    pit.acrossMm = pit.alongMm * between(0.4, 1);
    pit.depthMm = between(2, 15);
    spec.defects.push_back(pit);
  }
  return spec;
}

// A face as a lens gives it: the light itself is blurred and averaged over each pixel, not its code
// in the file (gamma 2.2 stands for sRGB's curve).
cv::Mat throughLens(const cv::Mat& fine, int finer, double blurPx) {
  cv::Mat light;
  fine.convertTo(light, CV_32F, 1 / 255.0);
  cv::pow(light, 2.2, light);
  cv::GaussianBlur(light, light, {}, blurPx * finer);
  cv::resize(light, light, {}, 1.0 / finer, 1.0 / finer, cv::INTER_AREA);
  cv::pow(light, 1 / 2.2, light);
  cv::Mat out;
  light.convertTo(out, CV_8U, 255);
  return out;
}

double volumeMm3(double areaMm2, double depthMm) {
  return hollowVolumeMm3(FillProfile::bowl, areaMm2, depthMm, 0, depthMm);
}

}  // namespace

PitFace renderPitFace(uint32_t seed, int pits) {
  const WoodLog log(woodWithPits(seed, pits), kThicknessMm);
  PaintOptions paint;
  paint.mmPerPx = kMmPerPx / kFiner;
  paint.grey = seed % 2 ? 0.75 : 0.2;
  const PaintedWood painted =
      paintFace(log, {0, 0, kApartMm * pits, kWidthMm}, kThicknessMm, paint);
  PhotoWear wear = randomWear(seed);
  PitFace out;
  out.face.bgr = throughLens(painted.bgr, kFiner, wear.blurPx);
  wear.blurPx = 0;
  out.face.bgr = worn(out.face.bgr, wear);
  out.face.wood = cv::Mat(out.face.bgr.size(), CV_8U, cv::Scalar(255));
  out.face.mmPerPx = kMmPerPx;
  out.truth = trueMarks(log);
  const double middle = (kFiner - 1) / (2.0 * kFiner);  // of the fine pixels that made one
  out.pictureFromBoard = {1 / kMmPerPx,
                          0,
                          -painted.u0 / kMmPerPx - middle,
                          0,
                          -1 / kMmPerPx,
                          painted.v1 / kMmPerPx - middle};
  return out;
}

std::vector<MeasuredPit> measuredPits(const PitFace& c) {
  RunControl run;
  const auto marks = proposeMarks(c.face, builtInMarkModel(), run);
  std::vector<MeasuredPit> pits;
  for (const Mark& truth : c.truth) {
    const auto e = std::get<Ellipse>(carried(*truth.onA, c.pictureFromBoard));
    const auto hit = std::find_if(marks.begin(), marks.end(), [&](const ProposedMark& m) {
      const Polygons shape = polygonsOf(m.shape);
      return !shape.empty() && contains(shape.front(), e.centre);
    });
    if (hit == marks.end()) continue;
    pits.push_back({volumeMm3(area(polygonsOf(*truth.onA)), *truth.depthMm),
                    volumeMm3(area(polygonsOf(hit->shape)) * kMmPerPx * kMmPerPx, *truth.depthMm)});
  }
  return pits;
}

}  // namespace rackside::synthetic
