// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/regions.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kLeastAreaPx = 6;
constexpr double kInside = 0.6;  // what lies by this share in another may be one flaw with it
constexpr double kRing = 4;      // bark round more times a hole's box is not its ring alone

constexpr std::array<RegionKind, kRegionKinds - 1> kKinds{
    RegionKind::liveKnot, RegionKind::deadKnot,   RegionKind::crackedKnot, RegionKind::crack,
    RegionKind::gum,      RegionKind::pith,       RegionKind::streak,      RegionKind::hole,
    RegionKind::stain,    RegionKind::barkPocket, RegionKind::wormHole};

// The family's probability, at half the picture's size.
cv::Mat mapOf(RegionFamily family, const KindMaps& maps) {
  cv::Mat sum = cv::Mat::zeros(maps[0].size(), CV_32F);
  for (const RegionKind k : kKinds)
    if (familyOf(k) == family) sum += maps[static_cast<size_t>(k)];
  return sum;
}

// The likeliest kind of the family over the region.
RegionKind kindOf(const Region& r, RegionFamily family, const KindMaps& maps) {
  const cv::Rect box = cv::Rect(cv::Point(r.box.x / 2, r.box.y / 2),
                                cv::Point((r.box.br().x + 1) / 2, (r.box.br().y + 1) / 2)) &
                       cv::Rect({0, 0}, maps[0].size());
  cv::Mat mask;
  cv::resize(r.mask, mask, box.size(), 0, 0, cv::INTER_AREA);
  RegionKind best = RegionKind::none;
  double most = -1;
  for (const RegionKind k : kKinds) {
    if (familyOf(k) != family) continue;
    const double p = cv::mean(maps[static_cast<size_t>(k)](box), mask)[0];
    if (p > most) most = p, best = k;
  }
  return best;
}

// A part of the picture that holds whole regions of a family: its probability there, and where it
// reaches the level.
struct Patch {
  cv::Rect box;
  cv::Mat probability, within;
};

// Between the half-size pixels probability is interpolated: it reaches the level next to one that
// does, or nowhere. So only there the picture's full size is looked at.
std::vector<Patch> patchesOf(const cv::Mat& half, double level, const cv::Mat& wood) {
  cv::Mat near, labels, stats, middles;
  cv::dilate(half > level, near, cv::Mat::ones(3, 3, CV_8U));
  const int count = cv::connectedComponentsWithStats(near, labels, stats, middles);
  std::vector<Patch> out;
  for (int i = 1; i < count; ++i) {
    const cv::Rect box(stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
                       stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT));
    Patch p;
    const cv::Rect full(2 * box.x, 2 * box.y, 2 * box.width, 2 * box.height);
    cv::resize(half(box), p.probability, full.size(), 0, 0, cv::INTER_LINEAR);
    cv::resize(labels(box) == i, p.within, full.size(), 0, 0, cv::INTER_NEAREST);
    p.box = full & cv::Rect({0, 0}, wood.size());
    const cv::Rect kept({0, 0}, p.box.size());
    p.probability = p.probability(kept);
    p.within = p.within(kept) & (p.probability > level) & wood(p.box);
    out.push_back(std::move(p));
  }
  return out;
}

void cut(RegionFamily family, const KindMaps& maps, const cv::Mat& wood, const MarkModel& model,
         std::vector<Region>& out) {
  const auto f = static_cast<size_t>(family);
  for (const Patch& patch : patchesOf(mapOf(family, maps), model.level[f], wood)) {
    cv::Mat labels, stats, middles;
    const int count = cv::connectedComponentsWithStats(patch.within, labels, stats, middles);
    for (int i = 1; i < count; ++i) {
      Region r;
      r.areaPx = stats.at<int>(i, cv::CC_STAT_AREA);
      if (r.areaPx < kLeastAreaPx) continue;
      const cv::Rect own(stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
                         stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT));
      r.box = own + patch.box.tl();
      r.mask = labels(own) == i;
      const cv::Mat probability = patch.probability(own);
      r.meanProbability = cv::mean(probability, r.mask)[0];
      cv::minMaxLoc(probability, nullptr, &r.topProbability, nullptr, nullptr, r.mask);
      r.kind = kindOf(r, family, maps);
      r.confidence = model.trust[f].confidence(r.meanProbability, r.topProbability, r.areaPx);
      out.push_back(std::move(r));
    }
  }
}

// A check in a knot is told with the knot.
bool isCheckOf(const Region& r, const Region& knot) {
  return r.kind == RegionKind::crack && familyOf(knot.kind) == RegionFamily::round &&
         knot.areaPx > r.areaPx && overlapPx(r, knot) > kInside * r.areaPx;
}

// A hole ringed with bark or gum is told with its ring, whose pixels are not the hole's.
bool isHoleOf(const Region& r, const Region& ring) {
  return r.kind != ring.kind && familyOf(r.kind) == RegionFamily::round &&
         (ring.kind == RegionKind::barkPocket || ring.kind == RegionKind::gum) &&
         ring.box.area() > r.box.area() && ring.box.area() < kRing * r.box.area() &&
         (r.box & ring.box).area() > kInside * r.box.area();
}

void tellOnce(std::vector<Region>& regions) {
  std::vector<Region> kept;
  for (const Region& r : regions)
    if (std::none_of(regions.begin(), regions.end(), [&](const Region& whole) {
          return isCheckOf(r, whole) || isHoleOf(r, whole);
        }))
      kept.push_back(r);
  regions = std::move(kept);
}

}  // namespace

double overlapPx(const Region& a, const Region& b) {
  const cv::Rect both = a.box & b.box;
  if (both.empty()) return 0;
  return cv::countNonZero(a.mask(both - a.box.tl()) & b.mask(both - b.box.tl()));
}

std::vector<Region> findRegions(const KindMaps& maps, const cv::Mat& wood, const MarkModel& model) {
  std::vector<Region> out;
  for (int f = 0; f < kRegionFamilies; ++f)
    cut(static_cast<RegionFamily>(f), maps, wood, model, out);
  tellOnce(out);
  std::stable_sort(out.begin(), out.end(),
                   [](const Region& a, const Region& b) { return a.confidence > b.confidence; });
  return out;
}

}  // namespace rackside
