// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/propose_training.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <random>

namespace rackside::test {

PixelKind pixelKindOf(int label) {
  switch (label) {
    case 1:
    case 2:
    case 3:
    case 8:
      return PixelKind::knot;
    case 4:
      return PixelKind::crack;
    case 5:
      return PixelKind::gum;
    case 6:
      return PixelKind::pith;
    case 7:
      return PixelKind::streak;
    case 9:
      return PixelKind::stain;
    default:
      return PixelKind::clear;
  }
}

RegionKind regionKindOf(int label) {
  static constexpr RegionKind kinds[] = {
      RegionKind::none,  RegionKind::liveKnot, RegionKind::deadKnot, RegionKind::crackedKnot,
      RegionKind::crack, RegionKind::gum,      RegionKind::pith,     RegionKind::streak,
      RegionKind::hole,  RegionKind::stain};
  return label >= 0 && label < 10 ? kinds[label] : RegionKind::none;
}

void PixelSamples::append(const PixelSamples& other) {
  rows.insert(rows.end(), other.rows.begin(), other.rows.end());
  kinds.insert(kinds.end(), other.kinds.begin(), other.kinds.end());
  width = other.width;
}

PixelSamples samplePixels(const LabelledWood& half, const PixelFeatures& features, int ofEachMark,
                          int clear, uint64_t seed) {
  std::vector<std::vector<cv::Point>> places(kPixelKinds);
  for (int y = 0; y < half.labels.rows; ++y)
    for (int x = 0; x < half.labels.cols; ++x)
      if (half.wood.at<uint8_t>(y, x))
        places[static_cast<size_t>(pixelKindOf(half.labels.at<uint8_t>(y, x)))].emplace_back(x, y);
  PixelSamples out;
  out.width = features.width;
  std::mt19937_64 random(seed);
  for (size_t k = 0; k < places.size(); ++k) {
    std::shuffle(places[k].begin(), places[k].end(), random);
    const auto most = static_cast<size_t>(k == 0 ? clear : ofEachMark);
    if (places[k].size() > most) places[k].resize(most);
    for (const cv::Point p : places[k]) {
      const uint8_t* row = features.at(p.y, p.x);
      out.rows.insert(out.rows.end(), row, row + features.width);
      out.kinds.push_back(static_cast<uint8_t>(k));
    }
  }
  return out;
}

PixelModel trainPixels(const PixelSamples& samples, uint64_t seed) {
  const ByteRows rows{samples.rows.data(), samples.kinds.size(), samples.width};
  PixelModel model;
  BoostOptions o;
  o.classes = kPixelKinds;
  o.rounds = 60;
  o.depth = 6;
  o.rowShare = 0.3;
  o.columnShare = 0.4;
  o.seed = seed;
  model.kinds = growTrees(rows, samples.kinds, {}, o);
  std::vector<uint8_t> any(samples.kinds);
  for (uint8_t& k : any) k = k > 0;
  o.classes = 2;
  o.rounds = 12;
  o.depth = 5;
  o.learningRate = 0.3;
  model.gate = growTrees(rows, any, {}, o);
  return model;
}

bool countsFor(const cv::Rect& box, const cv::Mat& mask, const LabelRegion& label) {
  const cv::Rect both = box & label.box;
  const double own = cv::countNonZero(mask);
  if (both.empty() || own == 0) return false;
  const double shared = cv::countNonZero(mask(both - box.tl()) & label.mask(both - label.box.tl()));
  if (shared >= 0.3 * (own + label.areaPx - shared)) return true;
  const cv::Moments m = cv::moments(mask, true);
  const cv::Point middle(box.x + cvRound(m.m10 / m.m00), box.y + cvRound(m.m01 / m.m00));
  return own <= 3 * label.areaPx && label.areaPx <= 3 * own && label.box.contains(middle) &&
         label.mask.at<uint8_t>(middle - label.box.tl()) > 0;
}

void addRegions(const std::vector<Region>& regions, const LabelledWood& half, RegionSamples& out) {
  const std::vector<LabelRegion> labels = labelRegions(half.labels, kLeastLabelPx / 4);
  for (const Region& r : regions) {
    RegionKind kind = RegionKind::none;
    for (const LabelRegion& l : labels) {
      const bool crack = l.label == 4;
      if (crack != (r.source == PixelKind::crack)) continue;
      if (crack) {  // a piece of the crack is enough
        const cv::Rect both = r.box & l.box;
        if (both.empty()) continue;
        const double shared =
            cv::countNonZero(r.mask(both - r.box.tl()) & l.mask(both - l.box.tl()));
        if (shared >= 0.5 * r.areaPx) kind = RegionKind::crack;
      } else if (countsFor(r.box, r.mask, l)) {
        kind = regionKindOf(l.label);
      }
    }
    out.rows.insert(out.rows.end(), r.features.begin(), r.features.end());
    out.kinds.push_back(static_cast<uint8_t>(kind));
  }
}

BoostedTrees trainJudge(const RegionSamples& samples, uint64_t seed) {
  const ByteRows rows{samples.rows.data(), samples.kinds.size(), regionFeatureCount()};
  BoostOptions o;
  o.classes = kRegionKinds;
  o.rounds = 80;
  o.depth = 4;
  o.learningRate = 0.08;
  o.rowShare = 0.6;
  o.columnShare = 0.3;
  o.leafPenalty = 3;
  o.leastCurvature = 1;
  o.seed = seed;
  return growTrees(rows, samples.kinds, {}, o);
}

}  // namespace rackside::test
