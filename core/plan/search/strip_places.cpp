// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/strip_places.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

// Bottoms of a piece with a look are told apart this finely: over it the mean of a map that is as
// lively as curl changes by a percent or two.
constexpr double kLookStepMm = 10, kSharpStepMm = 5;
// Spots are kept as floats; a ceiling must not lose a place to that.
constexpr float kRoundMm = 1e-3F;
// … and starts taken together at least this many columns of 2.5 mm: the map is asked once for all.
constexpr int kLookedChunk = 4;
constexpr size_t kLookBack = 8;
// Starts, or chunks of them, whose worth is bounded together first.
constexpr int kGroup = 8;

void mergeInto(Intervals& all, std::vector<Spot>& out) {
  std::sort(all.begin(), all.end(), [](auto a, auto b) { return a.lo < b.lo; });
  for (const Interval& i : all) {
    const float lo = static_cast<float>(i.lo), hi = static_cast<float>(i.hi);
    if (!out.empty() && lo <= out.back().hi)
      out.back().hi = std::max(out.back().hi, hi);
    else
      out.push_back({lo, hi, 1, 0, 0});
  }
}

// Takes out of sorted spots those that one before them holds and is worth no less than.
void dropNeedless(std::vector<Spot>& spots) {
  size_t kept = 0;
  for (const Spot& s : spots) {
    bool needless = false;
    for (size_t k = kept; k > 0 && kept - k < kLookBack && !needless; --k)
      needless = spots[k - 1].hi >= s.hi && spots[k - 1].gain >= s.gain;
    if (!needless) spots[kept++] = s;
  }
  spots.resize(kept);
}

void sortSpots(std::vector<Spot>& spots) {
  std::sort(spots.begin(), spots.end(), [](const Spot& a, const Spot& b) {
    return a.lo != b.lo ? a.lo < b.lo : a.gain > b.gain;
  });
}

// Every interval, cut where a step of the given length ends.
template <class Use>  // use(lo, hi)
void eachStep(const Intervals& intervals, double stepMm, Use use) {
  for (const Interval& i : intervals)
    for (double lo = i.lo; lo <= i.hi;) {
      const double border = (std::floor(lo / stepMm + 1e-9) + 1) * stepMm;
      const double hi = std::min(i.hi, border);
      use(lo, hi);
      if (hi >= i.hi) break;
      lo = border;
    }
}

}  // namespace

StripPlaces::StripPlaces(const BoardItems& items, double lookWeight, bool blind)
    : board_(&items), lookWeight_(lookWeight) {
  for (const StripItem& item : items.items()) {
    looked_.push_back(item.looked && !blind);
    std::array<LookCeilings*, 2> both{nullptr, nullptr};
    double most = looked_.back() ? 0 : 1;
    for (const int face : {0, 1}) {
      if (item.kindOn[face] < 0) continue;
      const ValueMap* map = blind ? nullptr : items.look(item, static_cast<Face>(face));
      if (map) both[face] = &looks_.try_emplace(map, *map).first->second;
      most = std::max(most, 1 + (map ? lookWeight * both[face]->greatestWorth() : 0.0));
    }
    looksOf_.push_back(both);
    greatestGain_.push_back(most);
  }
}

double StripPlaces::gain(const ItemsAlong& along, int item, int face, Range starts, double bottomMm,
                         double heightMm, bool exact) {
  LookCeilings* looks = looksOf_[item][face];
  if (!looks) return 1;
  const Job& job = board_->job();
  const BlankKind& kind = job.kinds[board_->items()[item].kindOn[face]];
  const double sine = along.sine, cosine = along.cosine;
  const Footprint& f = along.footprints[item];
  const double high = bottomMm + kind.roughWidthMm;
  const double u0 =
      (board_->map().columnX(starts.first) + std::max(bottomMm * sine, high * sine)) / cosine;
  // Bounds also allow for the blank's place within its columns, for its spare length, and for the
  // angles that are taken for this one.
  const bool forBounds = along.reading == Reading::forBounds;
  const double slackX = (starts.last - starts.first + (forBounds ? 2 : 0)) * job.cellMm;
  const double riseY = slackX * sine / cosine;
  const double lean =
      along.leanAColumn * std::max(std::abs(starts.first - starts.pivot),
                                   std::abs(starts.last + f.steps + 1 - starts.pivot));
  const double turn = along.leanAColumn / job.cellMm;
  const double turnX = turn * (f.widthMm + f.roughLengthMm * (std::abs(sine) + turn));
  const LookCeiling& ceiling =
      exact ? looks->exact()
            : looks->covering(slackX + 2 * turnX,
                              heightMm / cosine + std::abs(riseY) + 2 * lean / cosine);
  const double end = (f.roughLengthMm - kind.clearLengthMm) / 2;
  const double v = bottomMm + kind.roughWidthMm / 2;
  double sum = 0;
  for (int i = 0; i < kind.copies; ++i) {
    const double u =
        u0 + end + i * (kind.pieceLengthMm + job.shop.crosscutKerfMm) + kind.pieceLengthMm / 2;
    const Point c{u * cosine - v * sine - turnX,
                  u * sine + v * cosine + std::min(0.0, riseY) - lean / cosine};
    sum += ceiling.mean({c.x - kind.pieceLengthMm / 2, c.y - kind.pieceWidthMm / 2,
                         c.x + kind.pieceLengthMm / 2, c.y + kind.pieceWidthMm / 2});
  }
  return 1 + lookWeight_ * sum / kind.copies;
}

double StripPlaces::gainAt(const ItemsAlong& along, int item, int face, int column,
                           double bottomMm) {
  return gain(along, item, face, {column, column}, bottomMm, 0, true);
}

// Ceilings of one start in finer steps.
void StripPlaces::addLooked(const ItemsAlong& along, int item, int face, Range start,
                            const Intervals& bottoms, std::vector<Spot>& out) {
  eachStep(bottoms, kSharpStepMm, [&](double lo, double hi) {
    const double g = gain(along, item, face, start, lo, hi - lo, false);
    out.push_back({static_cast<float>(lo), static_cast<float>(hi), static_cast<float>(g),
                   start.first, static_cast<std::int8_t>(face)});
  });
}

void StripPlaces::clearSteps(const ItemsAlong& along, int item) {
  steps_.clear();
  if (looked_[item])
    steps_.resize(static_cast<size_t>((along.reach.hi - along.reach.lo) / kLookStepMm) + 3,
                  {1, -1, 0, 0, 0});
}

int StripPlaces::stepOf(const ItemsAlong& along, double y) const {
  const double base = std::floor(along.reach.lo / kLookStepMm);
  return std::clamp(static_cast<int>(std::floor(y / kLookStepMm + 1e-9) - base), 0,
                    static_cast<int>(steps_.size()) - 1);
}

void StripPlaces::begin(const ItemsAlong& along, int face, Range starts) {
  const auto steps = static_cast<size_t>((along.reach.hi - along.reach.lo) / kLookStepMm) + 3;
  groups_[face] = {face, starts, std::move(groups_[face].most)};
  groups_[face].most.assign(steps, -1);
}

float StripPlaces::mostOf(const ItemsAlong& along, int item, Group& group, int step) {
  float& most = group.most[step];
  if (most < 0) {
    const double lo = (std::floor(along.reach.lo / kLookStepMm) + step) * kLookStepMm;
    most = static_cast<float>(gain(along, item, group.face, group.starts, lo, kLookStepMm, false));
  }
  return most;
}

void StripPlaces::raiseSteps(const ItemsAlong& along, int item, int face, Range starts,
                             const Intervals& bottoms) {
  const double base = std::floor(along.reach.lo / kLookStepMm);
  for (const Interval& i : bottoms)
    for (int k = stepOf(along, i.lo); k <= stepOf(along, i.hi); ++k) {
      Spot& step = steps_[k];
      const double border = (base + k) * kLookStepMm;
      const double lo = std::max(i.lo, border), hi = std::min(i.hi, border + kLookStepMm);
      const bool fresh = step.hi < step.lo;
      if (fresh) step = {static_cast<float>(lo), static_cast<float>(hi), 0, 0, 0};
      step.lo = std::min(step.lo, static_cast<float>(lo));
      step.hi = std::max(step.hi, static_cast<float>(hi));
      if (!fresh && mostOf(along, item, groups_[face], k) <= step.gain) continue;
      step.gain = std::max(step.gain,
                           static_cast<float>(gain(along, item, face, starts, lo, hi - lo, false)));
    }
}

// Places of one start, but for those that a place of an earlier one is as good as.
void StripPlaces::addPlaces(const ItemsAlong& along, int item, int face, int start,
                            const Intervals& bottoms, std::vector<Spot>& out) {
  eachStep(bottoms, kLookStepMm, [&](double lo, double hi) {
    const int k = stepOf(along, lo);
    Spot& best = steps_[k];
    const Spot here{static_cast<float>(lo), static_cast<float>(hi), 0, start,
                    static_cast<std::int8_t>(face)};
    const bool inBest = best.lo <= here.lo && here.hi <= best.hi;
    if (inBest && mostOf(along, item, groups_[face], k) <= best.gain) return;
    out.push_back(here);
    out.back().gain =
        static_cast<float>(gain(along, item, face, {start, start}, lo, hi - lo, true));
    if (inBest && out.back().gain <= best.gain)
      out.pop_back();
    else if (here.hi - here.lo >= best.hi - best.lo)
      best = out.back();
  });
}

void StripPlaces::ceilings(const ItemsAlong& along, double pivot, int item, int first, int last,
                           int chunk, std::vector<Spot>& out) {
  Intervals& all = bottoms_;
  all.clear();
  const StripItem& strip = board_->items()[item];
  const Footprint& f = along.footprints[item];
  const int step = std::clamp(chunk, looked_[item] ? kLookedChunk * board_->job().finer() : 1,
                              std::max(1, f.steps / 2));
  clearSteps(along, item);
  for (int from = first, i = 0; from <= last; from += step, ++i) {
    const int to = std::min(last, from + step - 1);
    if (looked_[item] && i % kGroup == 0)
      for (const int face : {0, 1})
        begin(along, face, {from, std::min(last, from + kGroup * step - 1), pivot});
    for (const int face : {0, 1}) {
      if (strip.kindOn[face] < 0) continue;
      if (looked_[item]) all.clear();
      board_->map().bottomsOver(
          strip.kindOn[face], along.direction, {to + f.coverFirst, from + f.coverLast},
          {to + f.clearFirst, from + f.clearLast},
          {f.widthMm, f.sideMm, board_->reading(), {along.leanAColumn, pivot}}, all);
      if (looked_[item]) raiseSteps(along, item, face, {from, to, pivot}, all);
    }
  }
  if (!looked_[item]) mergeInto(all, out);
  for (const Spot& s : steps_)
    if (s.hi >= s.lo) out.push_back(s);
  for (Spot& s : out) s.lo -= kRoundMm, s.hi += kRoundMm;
}

void StripPlaces::sharpCeilings(const ItemsAlong& along, double pivot, int item, int first,
                                int last, std::vector<Spot>& out) {
  Intervals here;
  const StripItem& strip = board_->items()[item];
  const Footprint& f = along.footprints[item];
  for (int from = first; from <= last; ++from)
    for (const int face : {0, 1}) {
      if (strip.kindOn[face] < 0) continue;
      here.clear();
      board_->map().bottomsOver(
          strip.kindOn[face], along.direction, {from + f.coverFirst, from + f.coverLast},
          {from + f.clearFirst, from + f.clearLast},
          {f.widthMm, f.sideMm, board_->reading(), {along.leanAColumn, pivot}}, here);
      addLooked(along, item, face, {from, from, pivot}, here, out);
    }
  for (Spot& s : out) s.lo -= kRoundMm, s.hi += kRoundMm;
  sortSpots(out);
  dropNeedless(out);
}

void StripPlaces::keepRipsOff(const Intervals& metal, const ItemsAlong& along, int item,
                              std::vector<Spot>& spots) const {
  const double width = along.footprints[item].widthMm, kerf = metalKerfMm();
  Intervals barred;
  for (const Interval& m : metal) {
    if (along.reading == Reading::forPlans) {
      barred.push_back({m.lo - width - kerf, m.hi + kerf});
    } else {
      barred.push_back({m.lo, m.hi});
      barred.push_back({m.lo - width, m.hi - width});
    }
  }
  for (const Interval& b : barred) {
    const auto lo = static_cast<float>(b.lo) + 2 * kRoundMm;
    const auto hi = static_cast<float>(b.hi) - 2 * kRoundMm;
    const size_t before = spots.size();
    for (size_t i = 0; i < before; ++i) {
      if (spots[i].hi <= lo || spots[i].lo >= hi) continue;
      Spot above = spots[i];
      spots[i].hi = std::min(spots[i].hi, lo);
      above.lo = std::max(above.lo, hi);
      if (above.lo <= above.hi) spots.push_back(above);
    }
    std::erase_if(spots, [](const Spot& s) { return s.hi < s.lo; });
  }
  sortSpots(spots);
}

double StripPlaces::metalKerfMm() const {
  const Shop& shop = board_->job().shop;
  return std::max(shop.ripKerfMm, shop.firstRipKerfMm);
}

void StripPlaces::places(const ItemsAlong& along, int item, int first, int last,
                         const Intervals& metal, std::vector<Spot>& out, int mostStarts) {
  Intervals here;
  const StripItem& strip = board_->items()[item];
  const Footprint& f = along.footprints[item];
  const double kerf = metalKerfMm();
  const int slack = last - first, starts = std::min(slack, mostStarts);
  const auto startAt = [&](int i) {
    return first + (starts > 0 ? slack * std::min(i, starts) / starts : 0);
  };
  clearSteps(along, item);
  for (int i = 0; i <= starts; ++i) {
    const int column = startAt(i);
    if (looked_[item] && i % kGroup == 0)
      for (const int face : {0, 1}) begin(along, face, {column, startAt(i + kGroup - 1)});
    for (const int face : {0, 1}) {
      if (strip.kindOn[face] < 0) continue;
      here.clear();
      board_->map().bottomsOver(
          strip.kindOn[face], along.direction, {column + f.coverFirst, column + f.coverLast},
          {column + f.clearFirst, column + f.clearLast}, {f.widthMm, f.sideMm}, here);
      for (const Interval& m : metal) here = without(here, m.lo - f.widthMm - kerf, m.hi + kerf);
      if (looked_[item]) {
        addPlaces(along, item, face, column, here, out);
      } else {
        for (const Interval& b : here)
          out.push_back({static_cast<float>(b.lo), static_cast<float>(b.hi), 1, column,
                         static_cast<std::int8_t>(face)});
      }
    }
  }
  sortSpots(out);
  dropNeedless(out);
}

}  // namespace rackside
