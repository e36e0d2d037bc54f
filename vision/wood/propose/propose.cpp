// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/propose.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/wood/propose/pit_rim.h"

namespace rackside {
namespace {

// Large knots are looked for once more on a coarser picture.
constexpr double kCoarseMmPerPx = 1.25;
constexpr double kCoarseLeastMm2 = 600;  // what is smaller was seen better on the fine one
// The features of so many columns at once, to keep memory small; they reach about 60 px.
constexpr int kTilePx = 1536, kReachPx = 64;

WoodTone columns(const WoodTone& t, int from, int to) {
  const cv::Range all = cv::Range::all(), part(from, to);
  WoodTone out;
  out.detail = t.detail;
  out.light = t.light(all, part), out.red = t.red(all, part), out.yellow = t.yellow(all, part);
  out.faceLight = t.faceLight(all, part), out.faceRed = t.faceRed(all, part);
  out.faceYellow = t.faceYellow(all, part);
  out.wood = t.wood(all, part), out.edgePx = t.edgePx(all, part);
  return out;
}

KindMaps mapsOf(const PixelModel& model, const WoodTone& tone, RunControl& run) {
  KindMaps maps;
  for (cv::Mat& m : maps) m = cv::Mat::zeros(tone.wood.size(), CV_32F);
  maps[0].setTo(1);
  for (int x = 0; x < tone.wood.cols && !run.shouldEnd(); x += kTilePx) {
    const int end = std::min(x + kTilePx, tone.wood.cols), from = std::max(0, x - kReachPx),
              to = std::min(end + kReachPx, tone.wood.cols);
    const WoodTone part = columns(tone, from, to);
    const KindMaps here = kindMaps(model, pixelFeatures(part), part);
    const cv::Range inner(x - from, end - from);
    for (size_t k = 0; k < maps.size(); ++k)
      here[k](cv::Range::all(), inner).copyTo(maps[k](cv::Range::all(), cv::Range(x, end)));
  }
  return maps;
}

FaceToRead sampledAt(const FaceToRead& face, double mmPerPx) {
  FaceToRead out;
  const double scale = face.mmPerPx / mmPerPx;
  const cv::Size size(std::max(1, cvRound(face.bgr.cols * scale)),
                      std::max(1, cvRound(face.bgr.rows * scale)));
  cv::resize(face.bgr, out.bgr, size, 0, 0, scale < 1 ? cv::INTER_AREA : cv::INTER_CUBIC);
  cv::resize(face.wood, out.wood, size, 0, 0, cv::INTER_NEAREST);
  out.mmPerPx = mmPerPx;
  return out;
}

std::vector<JudgedRegion> judgedAt(const FaceToRead& face, double mmPerPx,
                                   const ProposeModel& model, RunControl& run, double share) {
  const FaceToRead sampled = sampledAt(face, mmPerPx);
  const WoodTone tone = woodTone(sampled.bgr, sampled.wood);
  const KindMaps maps = mapsOf(model.pixels, tone, run);
  std::vector<JudgedRegion> judged = judgeRegions(model.judge, findRegions(maps, tone), 0.05);
  judged.erase(std::remove_if(judged.begin(), judged.end(),
                              [&](const JudgedRegion& j) {
                                return j.confidence < share * leastConfidence(j.kind);
                              }),
               judged.end());
  return judged;
}

// The region as it would lie on the fine picture.
void refine(Region& r, double times, cv::Size within) {
  const cv::Rect grown(cvFloor(r.box.x * times), cvFloor(r.box.y * times),
                       cvCeil(r.box.width * times), cvCeil(r.box.height * times));
  cv::resize(r.mask, r.mask, grown.size(), 0, 0, cv::INTER_NEAREST);
  const cv::Rect kept = grown & cv::Rect({0, 0}, within);
  r.mask = r.mask(cv::Rect(kept.tl() - grown.tl(), kept.size())).clone();
  r.box = kept;
  r.areaPx = cv::countNonZero(r.mask);
}

bool sameThing(const Region& a, const Region& b) {
  return overlapPx(a, b) > 0.3 * std::min(a.areaPx, b.areaPx);
}

// A large mark seen on the coarse picture takes the place of its crumbs on the fine one, unless one
// of them is as large and surer.
void addCoarse(std::vector<JudgedRegion>& fine, std::vector<JudgedRegion> coarse, cv::Size within) {
  for (JudgedRegion& c : coarse) {
    if (c.kind == RegionKind::crack) continue;
    if (c.region.areaPx * kCoarseMmPerPx * kCoarseMmPerPx < kCoarseLeastMm2) continue;
    refine(c.region, kCoarseMmPerPx / kProposeMmPerPx, within);
    const bool known = std::any_of(fine.begin(), fine.end(), [&](const JudgedRegion& f) {
      return sameThing(f.region, c.region) &&
             (f.region.areaPx > 0.4 * c.region.areaPx || f.confidence > c.confidence + 0.2);
    });
    if (known || c.region.areaPx < 1) continue;
    fine.erase(std::remove_if(fine.begin(), fine.end(),
                              [&](const JudgedRegion& f) { return sameThing(f.region, c.region); }),
               fine.end());
    fine.push_back(std::move(c));
  }
  std::stable_sort(fine.begin(), fine.end(), [](const JudgedRegion& a, const JudgedRegion& b) {
    return a.confidence > b.confidence;
  });
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

double leastConfidence(RegionKind kind) {
  // Set by cross-validation on the labelled photographs: at these the benchmark's table was made.
  switch (kind) {
    case RegionKind::crack:
      return 0.3;
    case RegionKind::streak:
      return 0.65;
    default:
      return 0.6;
  }
}

std::vector<ProposedMark> proposeMarks(const FaceToRead& face, const ProposeModel& model,
                                       RunControl& run, double shareOfLeast) {
  std::vector<JudgedRegion> judged = judgedAt(face, kProposeMmPerPx, model, run, shareOfLeast);
  const cv::Size fine(cvRound(face.bgr.cols * face.mmPerPx / kProposeMmPerPx),
                      cvRound(face.bgr.rows * face.mmPerPx / kProposeMmPerPx));
  if (!run.shouldEnd())
    addCoarse(judged, judgedAt(face, kCoarseMmPerPx, model, run, shareOfLeast), fine);
  const double s = kProposeMmPerPx / face.mmPerPx, shift = (s - 1) / 2;
  const std::array<double, 6> pictureFromFine{s, 0, shift, 0, s, shift};
  std::vector<ProposedMark> out;
  out.reserve(judged.size());
  for (const JudgedRegion& j : judged)
    out.push_back(
        {j.kind, j.confidence, drawnIn(carried(shapeOf(j.region, j.kind), pictureFromFine), face)});
  return out;
}

}  // namespace rackside
