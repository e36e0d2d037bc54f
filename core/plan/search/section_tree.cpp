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
constexpr double kRoundUp = 1 + 1e-6;  // more than a float loses
// A millimetre that an angle leaves open at the end of a blank, across, loses as much as so many
// along.
constexpr double kLeanLoses = 10;
// Ways looked at before all stale ceilings are reckoned at one go.
constexpr int kMostTurns = 400;

}  // namespace

SectionTree::SectionTree(const BoardItems& board, StripPlaces& places, double ripKerfMm)
    : board_(&board),
      places_(&places),
      ripKerfMm_(ripKerfMm),
      columns_(board.map().grid().count),
      finer_(board.job().finer()),
      mayBeBarred_(board.map().hasMetal() || board.map().hasPins()) {
  runOf_.assign(board.items().size(), -1);
  roots_ = board.roots();
  block_ = std::max(1, columns_);
  for (const int root : roots_)
    if (const auto& lengths = board.along(root).lengths; !lengths.empty())
      block_ = std::min(block_, std::max(1, lengths[0]));
  nodesFrom_.resize(static_cast<size_t>(columns_ / block_) + 1);
  addRoots();
}

void SectionTree::addRoots() {
  const double cellMm = board_->job().cellMm;
  const int firstStarts =
      std::clamp(static_cast<int>(kFirstStartsMm / cellMm), 1, kMostFirstStarts);
  const int firstLengths =
      std::clamp(static_cast<int>(kFirstLengthsMm / cellMm), 1, kMostFirstLengths);
  for (const int a : roots_) {
    const auto& lengths = board_->along(a).lengths;
    for (size_t first = 0; first < lengths.size();) {
      size_t last = first;
      while (last + 1 < lengths.size() && lengths[last + 1] - lengths[first] < firstLengths) ++last;
      const int starts = columns_ - lengths[first] + 1;
      for (int from = 0; from < starts; from += firstStarts) {
        Node node;
        node.along = static_cast<int>(a);
        node.from0 = static_cast<int>(from);
        node.from1 = std::min(from + firstStarts, starts) - 1;
        node.length0 = static_cast<int>(first);
        node.length1 = static_cast<int>(last);
        if (leadFits(node)) add(std::move(node));
      }
      first = last + 1;
    }
  }
}

int SectionTree::add(Node node) {
  const int index = static_cast<int>(nodes_.size());
  if (!node.dead)
    for (int block = node.from0 / block_; block <= node.from1 / block_; ++block)
      nodesFrom_[block].push_back(index);
  nodes_.push_back(std::move(node));
  steps_.emplace_back();
  write(index);
  return index;
}

bool SectionTree::leadFits(Node& node) {
  const ItemsAlong& along = board_->along(node.along);
  const int least = along.lengths[node.length0], most = along.lengths[node.length1];
  for (size_t i = 0; i < along.footprints.size(); ++i) {
    const Footprint& f = along.footprints[i];
    if (!f.fits || f.steps < least || f.steps > most) continue;
    const int last = std::min(node.from1, columns_ - f.steps);
    if (last < node.from0) continue;
    found_.clear();
    places_->ceilings(along, pivotOf(node), static_cast<int>(i), node.from0, last,
                      finer_ * kMostChunk, found_);
    if (!found_.empty()) return true;
  }
  return false;
}

// The middle of its sections, about.
double SectionTree::pivotOf(const Node& node) const {
  const auto& lengths = board_->along(node.along).lengths;
  return (node.from0 + node.from1) / 2.0 + (lengths[node.length0] + lengths[node.length1]) / 4.0;
}

// y' of metal that lies in every section of the node.
Intervals SectionTree::metalIn(const Node& node) const {
  const ItemsAlong& along = board_->along(node.along);
  int from = node.from1, to = node.from0 + along.lengths[node.length0];
  if (along.reading == Reading::forBounds) {
    // A section may start up to a column later, and its last crosscut meets no rip.
    const Job& job = board_->job();
    ++from;
    to -= 1 + static_cast<int>(std::ceil(job.shop.crosscutKerfMm / job.cellMm));
  }
  return board_->map().metalOver(along.direction, from, to, {along.leanAColumn, pivotOf(node), 0});
}

void SectionTree::findSpots(const Node& node, int item, bool sharp) {
  const ItemsAlong& along = board_->along(node.along);
  found_.clear();
  const int steps = along.footprints[item].steps;
  const int last = std::min(node.from1 + along.lengths[node.length1], columns_) - steps;
  const int width = node.from1 - node.from0 + 1;
  if (last >= node.from0 && sharp)
    places_->sharpCeilings(along, pivotOf(node), item, node.from0, last, found_);
  else if (last >= node.from0)
    places_->ceilings(along, pivotOf(node), item, node.from0, last,
                      std::clamp(width, kLeastChunk, finer_ * kMostChunk), found_);
  if (board_->map().hasMetal()) places_->keepRipsOff(metalIn(node), along, item, found_);
}

std::span<const Spot> SectionTree::spotsOf(Node& node, int item) {
  if (runOf_[item] < 0) {
    findSpots(node, item, false);
    runOf_[item] = static_cast<int>(node.runs.size());
    node.runs.push_back({item, false, static_cast<std::uint32_t>(found_.size()),
                         static_cast<std::uint32_t>(node.spots.size())});
    node.spots.insert(node.spots.end(), found_.begin(), found_.end());
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
      findSpots(node, run.item, true);
      run.sharp = any = true;
      run.count = static_cast<std::uint32_t>(found_.size());
      run.first = static_cast<std::uint32_t>(node.spots.size());
      node.spots.insert(node.spots.end(), found_.begin(), found_.end());
    }
  if (any) reckon(node);
  node.ceiling = std::min(node.ceiling, before);
  write(index);
  return any;
}

void SectionTree::reckon(Node& node) {
  const ItemsAlong& along = board_->along(node.along);
  const StackOrder& order = this->order(node.along);
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

void SectionTree::write(int index) {
  const Node& node = nodes_[index];
  Step& step = steps_[index];
  step.open = !node.dead && node.child < 0;
  if (!step.open) return;
  const int steps = board_->along(node.along).lengths[node.length0];
  step.from = node.from0;
  step.to = std::min(node.from1, columns_ - steps) + 1;
  step.steps = steps;
  step.pay = node.ceiling;
}

// What is filled when a direction is first looked along at these prices.
const StackOrder& SectionTree::order(int along) {
  StackOrder& order = space_->orders[along];
  if (order.heights == 0) order = orderFor(*places_, board_->along(along), pays_, ripKerfMm_);
  return order;
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
  if (pays_.empty()) pays_.resize(pays.size());
  std::vector<std::vector<float>> rise(board_->directions());
  for (const Node& node : nodes_)
    if (node.child < 0 && !node.dead && rise[node.along].empty())
      rise[node.along] = riseAlong(board_->along(node.along), pays);
  pays_ = pays;
  space.orders.assign(board_->directions(), {});
  for (size_t n = 0; n < nodes_.size(); ++n) {
    Node& node = nodes_[n];
    if (node.child >= 0 || node.dead) continue;
    const double most = order(node.along).mostOf(node.length1);
    node.ceiling = std::min(node.ceiling + rise[node.along][node.length1],
                            static_cast<float>(most * kRoundUp));
    node.stale = true;
    write(static_cast<int>(n));
  }
}

void SectionTree::freshen(int index) {
  Node& node = nodes_[index];
  const float before = node.ceiling;
  reckon(node);
  node.ceiling = std::min(node.ceiling, before);
  node.stale = false;
  write(index);
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
        if (nodes_[n].stale && !nodes_[n].dead && nodes_[n].child < 0) freshen(static_cast<int>(n));
    }
  }
}

bool SectionTree::single(int index) const {
  const Node& n = nodes_[index];
  return n.from0 == n.from1 && n.length0 == n.length1 && halvesOf(n) < 0;
}

bool SectionTree::refine(int index) {
  if (single(index)) return sharpen(index);
  split(index);
  write(index);
  for (int c = nodes_[index].child; c < nodes_[index].child + 2; ++c) {
    Node& child = nodes_[c];
    child.dead = child.dead || !leadFits(child);
    if (!child.dead) {
      reckon(child);
      child.ceiling = std::min(child.ceiling, nodes_[index].ceiling);
      child.stale = false;
    }
    write(c);
  }
  return true;
}

// Where it is loosest: a start or a length that is not known leaves out wood at the ends of blanks,
// an angle wood along them.
void SectionTree::split(int index) {
  Node low;
  {
    const Node& n = nodes_[index];
    low.along = n.along, low.from0 = n.from0, low.from1 = n.from1;
    low.length0 = n.length0, low.length1 = n.length1;
  }
  Node high = low;
  const ItemsAlong& along = board_->along(low.along);
  const int starts = low.from1 - low.from0;
  const int span = along.lengths[low.length1] - along.lengths[low.length0];
  const double reach = (starts + along.lengths[low.length0]) / 2.0;
  const double lean = halvesOf(low) < 0 ? 0 : kLeanLoses * along.leanAColumn * reach;
  if (lean > std::max(starts, span) * board_->job().cellMm || (starts == 0 && span == 0)) {
    const int halves = halvesOf(low);
    turn(low, halves);
    turn(high, halves + 1);
  } else if (starts >= span) {
    low.from1 = (low.from0 + low.from1) / 2;
    high.from0 = low.from1 + 1;
  } else {
    low.length1 = (low.length0 + low.length1) / 2;
    high.length0 = low.length1 + 1;
  }
  const int child = add(std::move(low));
  add(std::move(high));
  nodes_[index].child = child;
  std::vector<Run>().swap(nodes_[index].runs);
  std::vector<Spot>().swap(nodes_[index].spots);
}

// The lower half of the angles that a node stands for; −1: they are not halved.
int SectionTree::halvesOf(const Node& node) const {
  return board_->map().rips().all[node.along].halves;
}

// To one half of its angles, where its sections have other lengths: no shorter than those that led
// it, and with strips beside them that may be longer there, being wider.
void SectionTree::turn(Node& node, int half) const {
  const ItemsAlong &whole = board_->along(node.along), &along = board_->along(half);
  const int least = whole.lengths[node.length0], most = whole.lengths[node.length1];
  int shortest = columns_ + 1, longest = -1;
  for (size_t i = 0; i < whole.footprints.size(); ++i) {
    const Footprint &was = whole.footprints[i], &is = along.footprints[i];
    if (!is.fits || !was.fits || was.steps > most) continue;
    longest = std::max(longest, is.steps);
    if (was.steps >= least) shortest = std::min(shortest, is.steps);
  }
  const auto indexOf = [&](int steps) {
    const auto at = std::lower_bound(along.lengths.begin(), along.lengths.end(), steps);
    return static_cast<int>(at - along.lengths.begin());
  };
  node.along = half;
  node.dead = shortest > columns_;
  if (node.dead) return;
  node.length0 = indexOf(shortest);
  node.length1 = indexOf(longest);
  node.from1 = std::min(node.from1, columns_ - shortest);
  node.dead = node.from1 < node.from0;
}

size_t SectionTree::bytes() const {
  size_t all = nodes_.capacity() * (sizeof(Node) + sizeof(Step));
  for (const Node& n : nodes_)
    all += n.runs.capacity() * sizeof(Run) + n.spots.capacity() * sizeof(Spot);
  return all;
}

}  // namespace rackside
