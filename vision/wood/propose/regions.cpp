// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/regions.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kLeastAreaPx = 8;
constexpr int kRingPx = 5;  // how far "round about" a region reaches
constexpr int kFeatures = 59;

class Bytes {
 public:
  void add(double v, double steps, double middle = 0) {
    bytes_.push_back(cv::saturate_cast<uint8_t>(v * steps + middle));
  }
  std::vector<uint8_t> take() { return std::move(bytes_); }

 private:
  std::vector<uint8_t> bytes_;
};

void addShape(Bytes& b, const Region& r) {
  b.add(static_cast<double>(r.source), 10);
  b.add(r.level, 200);
  b.add(std::log2(r.areaPx), 14);
  b.add(r.box.width, 1);
  b.add(r.box.height, 1);
  const cv::Moments m = cv::moments(r.mask, true);
  const double xx = m.mu20 / m.m00, yy = m.mu02 / m.m00, xy = m.mu11 / m.m00;
  const double root = std::hypot((xx - yy) / 2, xy), mean = (xx + yy) / 2;
  b.add(std::sqrt((mean + root + 0.1) / (std::max(mean - root, 0.0) + 0.1)), 16);
  b.add((xx - yy) / (xx + yy + 0.1), 120, 128);
  b.add(std::sqrt(mean + root), 6);
  b.add(std::sqrt(std::max(mean - root, 0.0)), 10);
  std::vector<std::vector<cv::Point>> outlines;
  cv::findContours(r.mask, outlines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  std::vector<cv::Point> hull;
  cv::convexHull(outlines.front(), hull);
  b.add(r.areaPx / (cv::contourArea(hull) + 0.5 * static_cast<double>(hull.size()) + 1), 150);
  b.add(r.areaPx / r.box.area(), 250);
}

struct Surroundings {
  cv::Rect box;
  cv::Mat inside, ring, far;
};

// The region, what lies close round it and what lies farther, as masks of one box.
Surroundings surroundingsOf(const Region& r, const cv::Mat& wood) {
  Surroundings s;
  const int reach = 3 * kRingPx;
  s.box = cv::Rect(r.box.x - reach, r.box.y - reach, r.box.width + 2 * reach,
                   r.box.height + 2 * reach) &
          cv::Rect({0, 0}, wood.size());
  s.inside = cv::Mat::zeros(s.box.size(), CV_8U);
  r.mask.copyTo(s.inside(cv::Rect(r.box.tl() - s.box.tl(), r.box.size())));
  const auto grown = [&](int px) {
    cv::Mat out;
    const cv::Mat disc = cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * px + 1, 2 * px + 1});
    cv::dilate(s.inside, out, disc);
    return out;
  };
  const cv::Mat near = grown(1), ring = grown(kRingPx), far = grown(reach);
  s.ring = ring & ~near & wood(s.box);
  s.far = far & ~ring & wood(s.box);
  return s;
}

void addMaps(Bytes& b, const Surroundings& s, const KindMaps& maps) {
  for (const cv::Mat& map : maps) {
    double top = 0;
    cv::minMaxLoc(map(s.box), nullptr, &top, nullptr, nullptr, s.inside);
    b.add(cv::mean(map(s.box), s.inside)[0], 250);
    b.add(top, 250);
    b.add(cv::mean(map(s.box), s.ring)[0], 250);
  }
}

void addTones(Bytes& b, const Surroundings& s, const WoodTone& tone) {
  const cv::Mat* planes[] = {&tone.light, &tone.red, &tone.yellow};
  for (const cv::Mat* plane : planes) {
    cv::Scalar mean, spread;
    cv::meanStdDev((*plane)(s.box), mean, spread, s.inside);
    const double ring = cv::mean((*plane)(s.box), s.ring)[0],
                 far = cv::mean((*plane)(s.box), s.far)[0];
    b.add(mean[0], 3, 128);
    b.add(mean[0] - ring, 4, 128);
    b.add(mean[0] - far, 4, 128);
    b.add(spread[0], 12);
  }
  double darkest = 0, palest = 0;
  cv::minMaxLoc(tone.light(s.box), &darkest, &palest, nullptr, nullptr, s.inside);
  b.add(darkest, 3, 128 + 100);
  b.add(palest, 3, 128);
  b.add(darkest / tone.detail, 6, 128 + 100);
  b.add(tone.detail, 30);
  for (const cv::Mat* plane : {&tone.faceLight, &tone.faceRed, &tone.faceYellow}) {
    b.add(cv::mean((*plane)(s.box), s.inside)[0], 3, 128);
    b.add(cv::mean((*plane)(s.box), s.far)[0], 3, 128);
  }
}

void addPlace(Bytes& b, const Region& r, const Surroundings& s, const WoodTone& tone,
              const KindMaps& maps) {
  double nearest = 0;
  cv::minMaxLoc(tone.edgePx(s.box), &nearest, nullptr, nullptr, nullptr, s.inside);
  b.add(nearest, 8);
  b.add(cv::mean(tone.edgePx(s.box), s.inside)[0], 8);
  const cv::Size size = tone.wood.size();
  const int border =
      std::min({r.box.x, r.box.y, size.width - r.box.br().x, size.height - r.box.br().y});
  b.add(border, 8);
  // How much of the region stands at a higher level: a sharp border keeps its area.
  const cv::Mat& map = maps[static_cast<size_t>(r.source)];
  const cv::Mat part = r.source == PixelKind::clear ? cv::Mat(1 - map(s.box)) : map(s.box);
  for (const double more : {0.15, 0.3})
    b.add(cv::countNonZero((part > r.level + more) & s.inside) / r.areaPx, 250);
}

void describe(Region& r, const KindMaps& maps, const WoodTone& tone) {
  Bytes b;
  const Surroundings s = surroundingsOf(r, tone.wood);
  addShape(b, r);
  addMaps(b, s, maps);
  addTones(b, s, tone);
  addPlace(b, r, s, tone, maps);
  r.features = b.take();
  CV_Assert(r.features.size() == kFeatures);
}

void cutAt(const cv::Mat& map, PixelKind source, float level, std::vector<Region>& out) {
  cv::Mat labels, stats, middles;
  const int count = cv::connectedComponentsWithStats(map > level, labels, stats, middles, 8);
  for (int i = 1; i < count; ++i) {
    Region r;
    r.areaPx = stats.at<int>(i, cv::CC_STAT_AREA);
    if (r.areaPx < kLeastAreaPx) continue;
    r.box = {stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
             stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT)};
    r.source = source;
    r.level = level;
    r.mask = labels(r.box) == i;
    out.push_back(std::move(r));
  }
}

// The same piece cut from two maps or levels is one.
void dropTwins(std::vector<Region>& regions) {
  std::vector<Region> kept;
  for (Region& r : regions) {
    const bool twin = std::any_of(kept.begin(), kept.end(), [&](const Region& k) {
      const double both = overlapPx(r, k);
      return both > 0.9 * (r.areaPx + k.areaPx - both);
    });
    if (!twin) kept.push_back(std::move(r));
  }
  regions = std::move(kept);
}

}  // namespace

int regionFeatureCount() {
  return kFeatures;
}

double overlapPx(const Region& a, const Region& b) {
  const cv::Rect both = a.box & b.box;
  if (both.empty()) return 0;
  return cv::countNonZero(a.mask(both - a.box.tl()) & b.mask(both - b.box.tl()));
}

std::vector<Region> findRegions(const KindMaps& maps, const WoodTone& tone) {
  std::vector<Region> out;
  const cv::Mat any = 1 - maps[0];
  const auto map = [&](PixelKind k) { return maps[static_cast<size_t>(k)]; };
  for (const float level : {0.2F, 0.35F, 0.5F, 0.65F, 0.8F}) {
    cutAt(map(PixelKind::knot), PixelKind::knot, level, out);
    cutAt(any - map(PixelKind::crack), PixelKind::clear, level, out);
  }
  for (const float level : {0.2F, 0.4F, 0.6F})
    cutAt(map(PixelKind::crack), PixelKind::crack, level, out);
  for (const PixelKind k : {PixelKind::gum, PixelKind::pith, PixelKind::streak, PixelKind::stain})
    for (const float level : {0.3F, 0.55F}) cutAt(map(k), k, level, out);
  dropTwins(out);
  for (Region& r : out) describe(r, maps, tone);
  return out;
}

}  // namespace rackside
