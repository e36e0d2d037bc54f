// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan_difference.h"

#include <algorithm>
#include <map>

namespace rackside {
namespace {

std::map<std::pair<BoardId, PartId>, int> counted(const Plan& plan) {
  std::map<std::pair<BoardId, PartId>, int> count;
  for (const Piece& p : plan.pieces) ++count[{p.board, p.part}];
  return count;
}

}  // namespace

double shareElsewhere(const Plan& before, const Plan& after) {
  if (before.pieces.empty()) return 0;
  const auto then = counted(before), now = counted(after);
  int kept = 0;
  for (const auto& [where, count] : then)
    if (const auto found = now.find(where); found != now.end())
      kept += std::min(count, found->second);
  return 1 - static_cast<double>(kept) / static_cast<double>(before.pieces.size());
}

}  // namespace rackside
