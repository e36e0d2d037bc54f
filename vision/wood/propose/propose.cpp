// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/propose.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/wood/propose/pit_rim.h"

namespace rackside {
namespace {

FaceToRead sampledAt(const FaceToRead& face, double mmPerPx) {
  if (face.mmPerPx == mmPerPx) return face;
  FaceToRead out;
  const double scale = face.mmPerPx / mmPerPx;
  const cv::Size size(std::max(2, cvRound(face.bgr.cols * scale)),
                      std::max(2, cvRound(face.bgr.rows * scale)));
  cv::resize(face.bgr, out.bgr, size, 0, 0, scale < 1 ? cv::INTER_AREA : cv::INTER_CUBIC);
  cv::resize(face.wood, out.wood, size, 0, 0, cv::INTER_NEAREST);
  out.mmPerPx = mmPerPx;
  return out;
}

// Past these the lessons did not go (training/lessons.py).
constexpr double kCoarsestMmPerPx = 1.1;
constexpr double kDarkestLuma = 30;  // of 255, the wood's median
constexpr double kLeastSharpness = 0.1;

// How lively the finest detail is beside that of four times its size: about a half in a sharp
// picture, nothing in a blurred one.
double sharpnessOf(const FaceToRead& sampled) {
  cv::Mat grey, fine, middle, coarse;
  cv::cvtColor(sampled.bgr, grey, cv::COLOR_BGR2GRAY);
  grey.convertTo(grey, CV_32F);
  cv::GaussianBlur(grey, fine, {}, 1);
  cv::GaussianBlur(grey, middle, {}, 2);
  cv::GaussianBlur(grey, coarse, {}, 4);
  cv::Mat inner;  // the outline itself is sharp however blurred the wood is
  cv::erode(sampled.wood, inner, cv::getStructuringElement(cv::MORPH_RECT, {17, 17}));
  cv::Scalar mean, small, large;
  cv::meanStdDev(fine - middle, mean, small, inner);
  cv::meanStdDev(middle - coarse, mean, large, inner);
  return large[0] > 0 ? small[0] / large[0] : 1;
}

// Crayon gives one colour of light back as the wood does, and takes another. Marks of the wood
// darken all of it: brown keeps less than kKept of the red, blue stain more than kTaken of it.
constexpr double kKept = 0.85, kTaken = 0.55;

bool isPigment(const Region& r, const cv::Mat& bgr, const cv::Vec3d& wood) {
  const cv::Scalar mean = cv::mean(bgr(r.box), r.mask);
  const double blue = mean[0] / wood[0], green = mean[1] / wood[1], red = mean[2] / wood[2];
  return (red > kKept && green < kTaken * red) || (blue > kKept && red < kTaken * blue);
}

// To the rim, where it is a hollow.
MarkShape drawnIn(MarkShape shape, const FaceToRead& face) {
  if (std::holds_alternative<Stroke>(shape)) return shape;
  const Polygons rough = polygonsOf(shape);
  if (rough.size() != 1) return shape;
  if (auto rim = pitRim(face.bgr, face.mmPerPx, rough.front())) return *std::move(rim);
  return shape;
}

}  // namespace

std::vector<ProposedMark> proposeMarks(const FaceToRead& face, const MarkModel& model,
                                       RunControl& run, double shareOfLeast) {
  const FaceToRead sampled = sampledAt(face, kProposeMmPerPx);
  const KindMaps maps = kindMaps(model, sampled.bgr, sampled.wood, run);
  const double s = kProposeMmPerPx / face.mmPerPx, shift = (s - 1) / 2;
  const std::array<double, 6> pictureFromSampled{s, 0, shift, 0, s, shift};
  const cv::Vec3d wood = medianOfWood(sampled.bgr, sampled.wood);
  std::vector<ProposedMark> out;
  for (const Region& r : findRegions(maps, sampled.wood, model)) {
    if (r.confidence < shareOfLeast * model.least[static_cast<size_t>(familyOf(r.kind))] ||
        isPigment(r, sampled.bgr, wood))
      continue;
    out.push_back(
        {r.kind, r.confidence, drawnIn(carried(shapeOf(r, r.kind), pictureFromSampled), face)});
  }
  return out;
}

std::optional<std::string> weaknessOf(const FaceToRead& face) {
  if (face.mmPerPx > kCoarsestMmPerPx) return "the picture is too coarse";
  const FaceToRead sampled = sampledAt(face, kProposeMmPerPx);
  const cv::Vec3d median = medianOfWood(sampled.bgr, sampled.wood);
  if (0.114 * median[0] + 0.587 * median[1] + 0.299 * median[2] < kDarkestLuma)
    return "the wood is darker in the picture than any that was learned from";
  if (sharpnessOf(sampled) < kLeastSharpness) return "the picture is blurred";
  return std::nullopt;
}

}  // namespace rackside
