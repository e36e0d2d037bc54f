// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan_difference.h"

#include <algorithm>
#include <cstdio>
#include <map>
#include <set>

namespace rackside {
namespace {

std::map<std::pair<BoardId, PartId>, int> counted(const Plan& plan) {
  std::map<std::pair<BoardId, PartId>, int> count;
  for (const Piece& p : plan.pieces) ++count[{p.board, p.part}];
  return count;
}

std::set<BoardId> boardsOf(const Plan& plan) {
  std::set<BoardId> boards;
  for (const Piece& p : plan.pieces) boards.insert(p.board);
  return boards;
}

double looksOf(const Plan& plan) {
  for (const ScoreTerm& term : plan.score)
    if (term.name == "looks") return term.value;
  return 0;
}

std::string percent(double share) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f %%", 100 * share);
  return text;
}

std::string fewer(size_t before, size_t after, const std::string& what) {
  const size_t by = before - after;
  return std::to_string(by) + " " + what + (by > 1 ? "s" : "") + " fewer";
}

}  // namespace

double shareElsewhere(const Plan& before, const Plan& after) {
  if (before.pieces.empty()) return 0;
  const auto then = counted(before), now = counted(after);
  std::map<PartId, int> was, is, stays;
  for (const auto& [where, count] : then) was[where.second] += count;
  for (const auto& [where, count] : now) {
    is[where.second] += count;
    if (const auto found = then.find(where); found != then.end())
      stays[where.second] += std::min(count, found->second);
  }
  int moved = 0;
  for (const auto& [part, count] : was) moved += std::min(count, is[part]) - stays[part];
  return static_cast<double>(moved) / static_cast<double>(before.pieces.size());
}

std::vector<std::string> betterAt(const std::vector<Board>& boards, const Plan& plan,
                                  const Plan& other) {
  constexpr double kWorthTelling = 0.001;
  std::vector<std::string> better;
  if (other.value > plan.value * (1 + kWorthTelling))
    better.push_back("worth " + percent(other.value / plan.value - 1) + " more");
  if (other.pieces.size() > plan.pieces.size())
    better.push_back("places " + std::to_string(other.pieces.size() - plan.pieces.size()) +
                     " pieces more");
  const std::set<BoardId> then = boardsOf(plan), now = boardsOf(other);
  std::string whole;
  for (const Board& board : boards)
    if (then.count(board.id) && !now.count(board.id))
      whole += (whole.empty() ? "" : ", ") + board.name;
  if (!whole.empty()) better.push_back("leaves board " + whole + " whole");
  if (other.stockMm2 < plan.stockMm2 * (1 - kWorthTelling))
    better.push_back("uses " + percent(1 - other.stockMm2 / plan.stockMm2) + " less wood");
  if (looksOf(other) > looksOf(plan) * (1 + kWorthTelling) + 1e-9)
    better.push_back("its parts look better");
  if (other.cuts.size() < plan.cuts.size())
    better.push_back(fewer(plan.cuts.size(), other.cuts.size(), "cut"));
  if (other.blanks.size() < plan.blanks.size())
    better.push_back(fewer(plan.blanks.size(), other.blanks.size(), "blank") + " to mill");
  return better;
}

}  // namespace rackside
