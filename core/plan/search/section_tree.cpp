// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/section_tree.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

// Boxes to begin with: large enough to be few, small enough that a blank covers some columns
// wherever in the box it starts.
constexpr double kFirstStartsMm = 240, kFirstLengthsMm = 320;
constexpr int kMostFirstStarts = 96, kMostFirstLengths = 128;
constexpr int kLeastChunk = 1, kMostChunk = 24;
constexpr float kBarred = -1e9F;
constexpr double kRoundUp = 1 + 1e-6;  // more than a float loses
// Ways looked at before all stale ceilings are reckoned at one go.
constexpr int kMostTurns = 40;

}  // namespace

SectionTree::SectionTree(const BoardItems& board, StripPlaces& places, double ripKerfMm)
    : board_(&board),
      places_(&places),
      ripKerfMm_(ripKerfMm),
      columns_(board.map().grid().count),
      finer_(board.job().finer()) {
  runOf_.assign(board.items().size(), -1);
  addRoots();
  roots_ = nodes_.size();
}

void SectionTree::addRoots() {
  const double cellMm = board_->job().cellMm;
  const int firstStarts =
      std::clamp(static_cast<int>(kFirstStartsMm / cellMm), 1, kMostFirstStarts);
  const int firstLengths =
      std::clamp(static_cast<int>(kFirstLengthsMm / cellMm), 1, kMostFirstLengths);
  for (size_t a = 0; a < board_->along().size(); ++a) {
    const auto& lengths = board_->along()[a].lengths;
    for (size_t first = 0; first < lengths.size();) {
      size_t last = first;
      while (last + 1 < lengths.size() && lengths[last + 1] - lengths[first] < firstLengths) ++last;
      const int starts = columns_ - lengths[first] + 1;
      for (int from = 0; from < starts; from += firstStarts) {
        Node node;
        node.along = static_cast<int>(a);
        node.from0 = from;
        node.from1 = std::min(from + firstStarts, starts) - 1;
        node.length0 = static_cast<int>(first);
        node.length1 = static_cast<int>(last);
        node.dead = !leadFits(node);
        if (!node.dead) nodes_.push_back(std::move(node));
      }
      first = last + 1;
    }
  }
}

bool SectionTree::leadFits(Node& node) {
  const ItemsAlong& along = board_->along()[node.along];
  const int least = along.lengths[node.length0], most = along.lengths[node.length1];
  static thread_local std::vector<Spot> spots;
  for (size_t i = 0; i < along.footprints.size(); ++i) {
    const Footprint& f = along.footprints[i];
    if (!f.fits || f.steps < least || f.steps > most) continue;
    const int last = std::min(node.from1, columns_ - f.steps);
    if (last < node.from0) continue;
    spots.clear();
    places_->ceilings(along, static_cast<int>(i), node.from0, last, finer_ * kMostChunk, spots);
    if (!spots.empty()) return true;
  }
  return false;
}

// y' of metal that lies in every section of the node.
Intervals SectionTree::metalIn(const Node& node) const {
  const ItemsAlong& along = board_->along()[node.along];
  int from = node.from1, to = node.from0 + along.lengths[node.length0];
  if (board_->reading() == Reading::forBounds) {
    // A section may start up to a column later, and its last crosscut meets no rip.
    const Job& job = board_->job();
    ++from;
    to -= 1 + static_cast<int>(std::ceil(job.shop.crosscutKerfMm / job.cellMm));
  }
  return board_->map().metalOver(along.direction, from, to);
}

// Serves until the next call.
std::vector<Spot>& SectionTree::findSpots(const Node& node, int item, bool sharp) {
  const ItemsAlong& along = board_->along()[node.along];
  static thread_local std::vector<Spot> spots;
  spots.clear();
  const int steps = along.footprints[item].steps;
  const int last = std::min(node.from1 + along.lengths[node.length1], columns_) - steps;
  const int width = node.from1 - node.from0 + 1;
  if (last >= node.from0 && sharp)
    places_->sharpCeilings(along, item, node.from0, last, spots);
  else if (last >= node.from0)
    places_->ceilings(along, item, node.from0, last,
                      std::clamp(width, kLeastChunk, finer_ * kMostChunk), spots);
  if (board_->map().hasMetal()) places_->keepRipsOff(metalIn(node), along, item, spots);
  return spots;
}

std::span<const Spot> SectionTree::spotsOf(Node& node, int item) {
  if (runOf_[item] < 0) {
    const std::vector<Spot>& spots = findSpots(node, item, false);
    runOf_[item] = static_cast<int>(node.runs.size());
    node.runs.push_back({item, false, static_cast<std::uint32_t>(spots.size()),
                         static_cast<std::uint32_t>(node.spots.size())});
    node.spots.insert(node.spots.end(), spots.begin(), spots.end());
  }
  const Run& run = node.runs[runOf_[item]];
  return {node.spots.data() + run.first, run.count};
}

// Finds the spots of what the best rip holds anew, from each start by itself.
bool SectionTree::sharpen(int index) {
  Node& node = nodes_[index];
  const float before = node.ceiling;
  reckon(node);
  bool any = false;
  for (const StripStack::State& s : stack_.chain())
    for (Run& run : node.runs) {
      if (run.item != s.item || run.sharp || !places_->looked(run.item)) continue;
      const std::vector<Spot>& spots = findSpots(node, run.item, true);
      run.sharp = any = true;
      run.count = static_cast<std::uint32_t>(spots.size());
      run.first = static_cast<std::uint32_t>(node.spots.size());
      node.spots.insert(node.spots.end(), spots.begin(), spots.end());
    }
  if (any) reckon(node);
  node.ceiling = std::min(node.ceiling, before);
  write(node);
  return any;
}

void SectionTree::reckon(Node& node) {
  const ItemsAlong& along = board_->along()[node.along];
  const StackOrder& order = space_->orders[node.along];
  for (size_t r = 0; r < node.runs.size(); ++r) runOf_[node.runs[r].item] = static_cast<int>(r);
  node.ceiling = static_cast<float>(stack_.best(
      along, order, node.length1, ripKerfMm_,
      [&](const StackItem& item) { return spotsOf(node, item.item); },
      [](int, const StackItem&) { return true; }));
  for (const Run& run : node.runs) runOf_[run.item] = -1;
}

void SectionTree::countParts(int index, std::vector<int>& copies) {
  Node& node = nodes_[index];
  const float kept = node.ceiling;  // may be lower, from the node it was split from
  reckon(node);
  node.ceiling = kept;
  for (const StripStack::State& s : stack_.chain())
    copies[board_->items()[s.item].part] += board_->items()[s.item].copies;
}

// Metal bars crosscuts; a bound leaves that out of account. Pinned sections are closed.
bool SectionTree::barred(int from, int to) const {
  const BoardMap& map = board_->map();
  if (!map.freeOfPins(from, to, board_->reading())) return true;
  return map.hasMetal() && board_->reading() == Reading::forPlans &&
         !(map.mayBegin(from) && map.mayBegin(to));
}

// Of starts and lengths of one ceiling the shortest length serves best, unless something bars it.
void SectionTree::write(const Node& node) {
  const BoardMap& map = board_->map();
  const bool mayBeBarred = map.hasMetal() || map.hasPins();
  for (int l = node.length0; l <= (mayBeBarred ? node.length1 : node.length0); ++l) {
    const int steps = board_->along()[node.along].lengths[l];
    const int last = std::min(node.from1, columns_ - steps);
    if (last < node.from0) continue;
    PathSpace::Row& row = space_->rows[node.along][l];
    row.from = std::min(row.from, node.from0);
    row.to = std::max(row.to, last + 1);
    float* const ceilings = &space_->ceilings[node.along][static_cast<size_t>(l) * columns_];
    std::fill(ceilings + node.from0, ceilings + last + 1, node.dead ? kBarred : node.ceiling);
    for (int from = node.from0; mayBeBarred && from <= last; ++from)
      if (barred(from, from + steps)) ceilings[from] = kBarred;
  }
}

// The most that a rip along a direction can pay more than before, by index of its longest length:
// all its width filled with what gained most a millimetre.
std::vector<float> SectionTree::riseAlong(const ItemsAlong& along,
                                          const std::vector<ItemPay>& pays) const {
  std::vector<float> rise(along.lengths.size(), 0);
  for (size_t i = 0; i < pays.size(); ++i) {
    const Footprint& f = along.footprints[i];
    if (!f.fits || pays[i].most <= 0) continue;
    const bool before = pays_[i].most > 0;
    const double more =
        before ? std::min(pays_[i].cost - pays[i].cost, pays[i].most) : pays[i].most;
    const auto at = std::lower_bound(along.lengths.begin(), along.lengths.end(), f.steps);
    float& here = rise[at - along.lengths.begin()];
    here = std::max(here, static_cast<float>(more / (f.widthMm + ripKerfMm_)));
  }
  for (size_t i = 1; i < rise.size(); ++i) rise[i] = std::max(rise[i], rise[i - 1]);
  for (float& r : rise) r *= static_cast<float>(widthOf(along));
  return rise;
}

// Of all that may be stacked, with the slack that a stack has.
double SectionTree::widthOf(const ItemsAlong& along) const {
  return along.reach.hi - along.reach.lo + kBelowMm + kAboveMm + ripKerfMm_;
}

void SectionTree::setPays(const std::vector<ItemPay>& pays, PathSpace& space) {
  space_ = &space;
  space.orders.clear();
  space.ceilings.resize(board_->along().size());
  space.rows.resize(board_->along().size());
  const bool first = pays_.empty();
  if (first) pays_.resize(pays.size());
  std::vector<std::vector<float>> rise;
  for (size_t a = 0; a < board_->along().size(); ++a) {
    const ItemsAlong& along = board_->along()[a];
    space.orders.push_back(orderFor(*places_, along, pays, ripKerfMm_));
    space_->ceilings[a].assign(along.lengths.size() * columns_, kBarred);
    space_->rows[a].assign(along.lengths.size(), {columns_, 0});
    rise.push_back(riseAlong(along, pays));
  }
  for (Node& node : nodes_) {
    if (node.child >= 0 || node.dead) continue;
    const double most = space.orders[node.along].mostOf(node.length1);
    node.ceiling = std::min(node.ceiling + rise[node.along][node.length1],
                            static_cast<float>(most * kRoundUp));
    node.stale = true;
    write(node);
  }
  pays_ = pays;
}

void SectionTree::freshen(int index) {
  Node& node = nodes_[index];
  const float before = node.ceiling;
  reckon(node);
  node.ceiling = std::min(node.ceiling, before);
  node.stale = false;
  write(node);
}

double SectionTree::path(const std::vector<float>& stopPay, std::vector<PathSection>& sections) {
  for (int turn = 0;; ++turn) {
    const double pay = bestWay(stopPay, sections);
    const bool any = std::any_of(sections.begin(), sections.end(),
                                 [&](const PathSection& s) { return nodes_[s.node].stale; });
    if (!any) return pay;
    if (turn < kMostTurns) {
      for (const PathSection& s : sections)
        if (nodes_[s.node].stale) freshen(s.node);
    } else {
      for (size_t n = 0; n < nodes_.size(); ++n)
        if (nodes_[n].stale && nodes_[n].child < 0) freshen(static_cast<int>(n));
    }
  }
}

bool SectionTree::single(int index) const {
  const Node& n = nodes_[index];
  return n.from0 == n.from1 && n.length0 == n.length1;
}

bool SectionTree::refine(int index) {
  if (single(index)) return sharpen(index);
  split(index);
  for (int c = nodes_[index].child; c < nodes_[index].child + 2; ++c) {
    Node& child = nodes_[c];
    child.dead = !leadFits(child);
    if (!child.dead) {
      reckon(child);
      child.ceiling = std::min(child.ceiling, nodes_[index].ceiling);
      child.stale = false;
    }
    write(child);
  }
  return true;
}

void SectionTree::split(int index) {
  Node low = {};
  {
    const Node& n = nodes_[index];
    low.along = n.along, low.from0 = n.from0, low.from1 = n.from1;
    low.length0 = n.length0, low.length1 = n.length1;
  }
  Node high = low;
  const auto& lengths = board_->along()[low.along].lengths;
  const int starts = low.from1 - low.from0, span = lengths[low.length1] - lengths[low.length0];
  if (starts >= span) {
    low.from1 = (low.from0 + low.from1) / 2;
    high.from0 = low.from1 + 1;
  } else {
    low.length1 = (low.length0 + low.length1) / 2;
    high.length0 = low.length1 + 1;
  }
  const int child = static_cast<int>(nodes_.size());
  nodes_.push_back(std::move(low));
  nodes_.push_back(std::move(high));
  nodes_[index].child = child;
  std::vector<Run>().swap(nodes_[index].runs);
  std::vector<Spot>().swap(nodes_[index].spots);
}

int SectionTree::nodeAt(int along, int from, int length) const {
  const auto holds = [&](const Node& n) {
    return n.along == along && n.from0 <= from && from <= n.from1 && n.length0 <= length &&
           length <= n.length1;
  };
  for (size_t r = 0; r < roots_; ++r) {
    if (!holds(nodes_[r])) continue;
    int at = static_cast<int>(r);
    while (nodes_[at].child >= 0) at = nodes_[at].child + (holds(nodes_[nodes_[at].child]) ? 0 : 1);
    return at;
  }
  return -1;
}

size_t SectionTree::bytes() const {
  size_t all = nodes_.capacity() * sizeof(Node);
  for (const Node& n : nodes_)
    all += n.runs.capacity() * sizeof(Run) + n.spots.capacity() * sizeof(Spot);
  return all;
}

}  // namespace rackside
