// SPDX-License-Identifier: GPL-3.0-or-later
// The best way along a board by the ceilings of its sections.
#include <algorithm>

#include "core/plan/search/section_tree.h"

namespace rackside {
namespace {

// Of compilers that can, once for processors with wide registers.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define RACKSIDE_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define RACKSIDE_WIDE
#endif

// for i in 0…count: best[i] = max(best[i], pay + after[i]); apart, so that it is vectorised.
RACKSIDE_WIDE void raise(float* __restrict best, float pay, const float* __restrict after,
                         int count) {
  for (int i = 0; i < count; ++i) {
    const float sum = pay + after[i];
    best[i] = best[i] > sum ? best[i] : sum;
  }
}

}  // namespace

// Metal bars crosscuts; a bound leaves that out of account. Pinned sections are closed.
bool SectionTree::barred(const ItemsAlong& along, int from, int to) const {
  const BoardMap& map = board_->map();
  if (map.hasPins() && !map.freeOfPins(from, to, along.reading)) return true;
  return map.hasMetal() && along.reading == Reading::forPlans &&
         !(map.mayBegin(from) && map.mayBegin(to));
}

// Of the lengths of one ceiling the shortest serves best, unless something bars it.
template <class Use>  // use(index of the length, its steps)
void SectionTree::eachLength(int index, Use use) const {
  const Node& node = nodes_[index];
  const auto& lengths = board_->along(node.along).lengths;
  for (int l = node.length0; l <= node.length1; ++l) use(l, lengths[l]);
}

void SectionTree::raiseOver(int index, int low, int high, float* best) const {
  const Step& step = steps_[index];
  const auto& reach = space_->reach;
  const int from = std::max<int>(low, step.from);
  if (!mayBeBarred_) {
    const int count = std::min<int>(high, step.to) - from;
    if (count > 0) raise(best + (from - low), step.pay, &reach[from + step.steps], count);
    return;
  }
  const ItemsAlong& along = board_->along(nodes_[index].along);
  eachLength(index, [&](int, int steps) {
    const int to = std::min({high, nodes_[index].from1 + 1, columns_ - steps + 1});
    for (int x = from; x < to; ++x)
      if (!barred(along, x, x + steps))
        best[x - low] = std::max(best[x - low], step.pay + reach[x + steps]);
  });
}

// The section that the best way goes on with at x; node −1: none.
PathSection SectionTree::sectionFrom(int x) const {
  const auto& reach = space_->reach;
  PathSection found;
  found.node = -1;
  for (const int n : nodesFrom_[x / block_]) {
    const Step& step = steps_[n];
    if (!step.open || x < step.from || (x >= step.to && !mayBeBarred_)) continue;
    const ItemsAlong& along = board_->along(nodes_[n].along);
    eachLength(n, [&](int l, int steps) {
      if (found.node >= 0 || x > nodes_[n].from1 || x + steps > columns_) return;
      if (l > nodes_[n].length0 && !mayBeBarred_) return;
      if (step.pay + reach[x + steps] != reach[x]) return;
      if (mayBeBarred_ && barred(along, x, x + steps)) return;
      found = {nodes_[n].along, x, l, n, step.pay};
    });
    if (found.node >= 0) break;
  }
  return found;
}

double SectionTree::bestWay(const std::vector<float>& stopPay, std::vector<PathSection>& sections) {
  sections.clear();
  auto& reach = space_->reach;
  reach = stopPay;
  // No section that starts in a block ends inside it, so a block is done at one go.
  std::vector<float> best(static_cast<size_t>(block_));
  for (int block = static_cast<int>(nodesFrom_.size()) - 1; block >= 0; --block) {
    const int low = block * block_, high = std::min(columns_, low + block_);
    if (low >= high) continue;
    std::copy(stopPay.begin() + low, stopPay.begin() + high, best.begin());
    for (const int n : nodesFrom_[block])
      if (steps_[n].open) raiseOver(n, low, high, best.data());
    for (int x = high - 1; x >= low; --x) reach[x] = std::max(reach[x + 1], best[x - low]);
  }
  for (int x = 0; x < columns_;) {
    if (reach[x] == stopPay[x]) break;
    if (reach[x] == reach[x + 1]) {
      ++x;
      continue;
    }
    const PathSection section = sectionFrom(x);
    if (section.node < 0) break;
    sections.push_back(section);
    x += board_->along(section.along).lengths[section.length];
  }
  return reach.empty() ? 0 : reach[0];
}

}  // namespace rackside
