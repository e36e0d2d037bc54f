// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/small_board.h"

#include <algorithm>
#include <numeric>

namespace rackside {
namespace {

constexpr size_t kMostBoards = 3;
constexpr int kMostCopies = 8;
constexpr int kNowhere = 1 << 20;

}  // namespace

bool isSmall(const RackProblem& problem) {
  if (problem.maps.size() > kMostBoards) return false;
  const Demand& demand = problem.demand;
  int copies = std::accumulate(demand.left.begin(), demand.left.end(), 0);
  // Of the ways to make a panel only that in most strips counts.
  for (const WantedPanel& panel : demand.panels) {
    int most = 0;
    for (const PanelWay& way : panel.ways) {
      copies -= demand.left[way.part];
      most = std::max(most, demand.left[way.part]);
    }
    copies += most;
  }
  return copies <= kMostCopies;
}

SmallBoard::SmallBoard(const BoardMap& map, const RackProblem& problem)
    : problem_(problem),
      items_(map, problem.job, problem.worth, Reading::forPlans),
      places_(items_, problem.lookWeight),
      wanted_(problem.demand.left) {
  for (const int copies : wanted_) {
    radix_.push_back(sets_);
    sets_ *= copies + 1;
  }
}

bool SmallBoard::contains(int set, int subset) const {
  for (size_t p = 0; p < wanted_.size(); ++p)
    if (copiesIn(subset, static_cast<int>(p)) > copiesIn(set, static_cast<int>(p))) return false;
  return true;
}

// Do the narrowest strips that could hold the set lie side by side?
bool SmallBoard::wideEnough(int set, const ItemsAlong& along) const {
  const double kerf = problem_.job.shop.ripKerfMm;
  double width = -kerf;
  for (size_t p = 0; p < wanted_.size(); ++p) {
    const int copies = copiesIn(set, static_cast<int>(p));
    if (copies == 0) continue;
    double least = 1e9;  // a strip that holds them all is as narrow as one that holds one
    for (size_t i = 0; i < items_.items().size(); ++i)
      if (items_.items()[i].part == static_cast<int>(p) && along.footprints[i].fits)
        least = std::min(least, along.footprints[i].widthMm);
    width += least + kerf;
  }
  return width <= along.reach.hi - along.reach.lo + 1e-6;
}

const std::vector<Spot>& SmallBoard::spots(const Section& s, int item) {
  Spots& here = spots_[{s.along, s.steps, s.from}];
  const ItemsAlong& along = items_.along(s.along);
  if (here.empty()) {
    here.resize(items_.items().size());
    const BoardMap& map = items_.map();
    const Intervals metal =
        map.hasMetal() ? map.metalOver(along.direction, s.from, s.from + s.steps) : Intervals{};
    for (size_t i = 0; i < here.size(); ++i) {
      const Footprint& f = along.footprints[i];
      if (f.fits && f.steps <= s.steps &&
          items_.items()[i].copies <= wanted_[items_.items()[i].part])
        places_.places(along, static_cast<int>(i), s.from, s.from + s.steps - f.steps, metal,
                       here[i], StripPlaces::kEveryStart);
    }
  }
  return here[item];
}

bool SmallBoard::ripped(const Section& section, double y, int set,
                        std::vector<StripLayout>* strips) {
  if (set == 0) return true;
  const ItemsAlong& along = items_.along(section.along);
  for (size_t i = 0; i < items_.items().size(); ++i) {
    const StripItem& item = items_.items()[i];
    if (copiesIn(set, item.part) < item.copies) continue;
    for (const Spot& spot : spots(section, static_cast<int>(i))) {
      if (spot.hi < y) continue;
      const double bottom = std::max(y, static_cast<double>(spot.lo));
      const double next = bottom + along.footprints[i].widthMm + problem_.job.shop.ripKerfMm;
      if (!ripped(section, next, set - item.copies * radix_[item.part], strips)) break;
      if (strips) strips->push_back({item.kindOn[spot.face], spot.column, bottom});
      return true;
    }
  }
  return false;
}

// The first start from section.from on where the set can be ripped; past the board when none is.
int SmallBoard::nextStart(const Section& section) {
  const BoardMap& map = items_.map();
  Section at = section;
  for (; at.from + at.steps <= map.grid().count; ++at.from) {
    if (!map.freeOfPins(at.from, at.from + at.steps, Reading::forPlans)) continue;
    if (!map.mayBegin(at.from) || !map.mayBegin(at.from + at.steps)) continue;
    const auto [known, fresh] = canRip_.try_emplace({at.along, at.steps, at.from, at.set}, false);
    if (fresh) known->second = ripped(at, items_.along(at.along).reach.lo - 1, at.set, nullptr);
    if (known->second) return at.from;
  }
  return kNowhere;
}

void SmallBoard::extend(int set, int subset) {
  const int rest = set - subset;
  if (reached_[rest].end < 0) return;
  for (int a = 0; a < items_.map().directions(); ++a) {
    const ItemsAlong& along = items_.along(a);
    if (!wideEnough(subset, along)) continue;
    for (size_t i = 0; i < items_.items().size(); ++i) {
      const StripItem& item = items_.items()[i];
      const Footprint& f = along.footprints[i];
      if (!f.fits || copiesIn(subset, item.part) < item.copies) continue;
      const Reached& now = reached_[set];
      if (now.end >= 0 && reached_[rest].end + f.steps >= now.end) continue;
      Section section{subset, a, f.steps, reached_[rest].end};
      section.from = nextStart(section);
      if (section.from == kNowhere) continue;
      const int end = section.from + f.steps;
      if (now.end < 0 || end < now.end) reached_[set] = {end, section};
    }
  }
}

Offer SmallBoard::offerOf(int set, int board) {
  Offer offer;
  offer.board = board;
  for (int rest = set; rest > 0; rest -= reached_[rest].last.set) {
    const Section& s = reached_[rest].last;
    const ItemsAlong& along = items_.along(s.along);
    SectionLayout layout{s.from, s.from + s.steps, along.direction, {}};
    ripped(s, along.reach.lo - 1, s.set, &layout.strips);
    std::reverse(layout.strips.begin(), layout.strips.end());
    for (const StripLayout& strip : layout.strips)
      for (size_t i = 0; i < items_.items().size(); ++i) {
        const StripItem& item = items_.items()[i];
        const int face = item.kindOn[0] == strip.kind ? 0 : 1;
        if (item.kindOn[face] != strip.kind) continue;
        offer.pay += item.plainValue *
                     places_.gainAt(along, static_cast<int>(i), face, strip.column, strip.bottomMm);
        offer.parts.insert(offer.parts.end(), item.copies, item.part);
      }
    offer.layout.sections.insert(offer.layout.sections.begin(), std::move(layout));
  }
  std::sort(offer.parts.begin(), offer.parts.end());
  return offer;
}

std::vector<Offer> SmallBoard::offers(int board, const std::function<bool()>& shouldEnd) {
  std::vector<Offer> all;
  if (items_.empty()) return all;
  reached_.assign(sets_, {});
  reached_[0].end = 0;
  for (int set = 1; set < sets_ && !shouldEnd(); ++set) {
    for (int subset = 1; subset <= set; ++subset)
      if (contains(set, subset)) extend(set, subset);
    if (reached_[set].end >= 0) all.push_back(offerOf(set, board));
  }
  return all;
}

}  // namespace rackside
