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

// for i in 0…count: best[i] = max(best[i], pay[i] + after[i]); apart, so that it is vectorised.
RACKSIDE_WIDE void raise(float* __restrict best, const float* __restrict pay,
                         const float* __restrict after, int count) {
  for (int i = 0; i < count; ++i) {
    const float sum = pay[i] + after[i];
    best[i] = best[i] > sum ? best[i] : sum;
  }
}

}  // namespace

double SectionTree::bestWay(const std::vector<float>& stopPay, std::vector<PathSection>& sections) {
  sections.clear();
  const auto& ceilings = space_->ceilings;
  auto& reach = space_->reach;
  reach = stopPay;
  int shortest = std::max(1, columns_);
  for (const ItemsAlong& along : board_->along()) shortest = std::min(shortest, along.lengths[0]);
  // No section that starts in a block ends inside it, so a block is done at one go.
  std::vector<float> best(static_cast<size_t>(std::max(1, shortest)));
  for (int high = columns_; high > 0; high -= shortest) {
    const int low = std::max(0, high - shortest);
    std::copy(stopPay.begin() + low, stopPay.begin() + high, best.begin());
    for (size_t a = 0; a < ceilings.size(); ++a)
      for (size_t l = 0; l < board_->along()[a].lengths.size(); ++l) {
        const int steps = board_->along()[a].lengths[l];
        const int from = std::max(low, space_->rows[a][l].from);
        const int count = std::min(high, space_->rows[a][l].to) - from;
        if (count > 0)
          raise(&best[from - low], &ceilings[a][l * columns_ + from], &reach[from + steps], count);
      }
    for (int x = high - 1; x >= low; --x) reach[x] = std::max(reach[x + 1], best[x - low]);
  }
  for (int x = 0; x < columns_;) {
    if (reach[x] == stopPay[x]) break;
    if (reach[x] == reach[x + 1]) {
      ++x;
      continue;
    }
    bool found = false;
    for (size_t a = 0; a < ceilings.size() && !found; ++a)
      for (size_t l = 0; l < board_->along()[a].lengths.size() && !found; ++l) {
        const int steps = board_->along()[a].lengths[l];
        if (x + steps > columns_) break;
        const float pay = ceilings[a][l * columns_ + x];
        if (pay + reach[x + steps] != reach[x]) continue;
        sections.push_back({static_cast<int>(a), x, static_cast<int>(l),
                            nodeAt(static_cast<int>(a), x, static_cast<int>(l)), pay});
        x += steps;
        found = true;
      }
    if (!found) break;
  }
  return reach.empty() ? 0 : reach[0];
}

}  // namespace rackside
