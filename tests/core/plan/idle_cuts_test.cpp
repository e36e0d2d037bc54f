// SPDX-License-Identifier: GPL-3.0-or-later
// Cuts that free nothing: found by a twin of the checker's rule, written apart from it.
#include "core/plan/idle_cuts.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "core/plan/checker.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

const Cut* cutOf(const Plan& plan, const CutId& id) {
  for (const Cut& c : plan.cuts)
    if (c.id == id) return &c;
  return nullptr;
}

double aside(const Segment& line, Point p) {
  const Point d = line.to - line.from;
  return (d.x * (p.y - line.from.y) - d.y * (p.x - line.from.x)) / std::hypot(d.x, d.y);
}

// How far p lies on the side of the cut that a blank is on.
double within(const Cut& cut, bool left, Point p) {
  return left ? aside(cut.line, p) : -aside(cut.line, p) - cut.kerfMm;
}

// A cut works when some blank owes a border to it: no other cut of its kind on the way to that
// blank, made later, takes all that this one takes.
bool worksFor(const Plan& plan, const Cut& cut, const Blank& blank) {
  const Polygon rough = blank.roughOutline();
  const Point centre = 0.5 * (rough[0] + rough[2]);
  std::vector<std::pair<const Cut*, bool>> way;
  const Cut* at = cutOf(plan, blank.lastCut);
  for (bool left = aside(at->line, centre) > 0; at;) {
    way.push_back({at, left});
    left = at->leftOfParent;
    at = at->parent ? cutOf(plan, *at->parent) : nullptr;
  }
  const auto own = std::find_if(way.begin(), way.end(),
                                [&](const auto& step) { return step.first->id == cut.id; });
  if (own == way.end()) return false;
  return std::none_of(way.begin(), own, [&](const auto& later) {
    return later.first->kind == cut.kind && within(*later.first, later.second, cut.line.from) < 0 &&
           within(*later.first, later.second, cut.line.to) < 0;
  });
}

std::vector<std::string> idleByHand(const Plan& plan) {
  std::vector<std::string> idle;
  for (const Cut& cut : plan.cuts)
    if (!cut.made && std::none_of(plan.blanks.begin(), plan.blanks.end(), [&](const Blank& b) {
          return b.board == cut.board && worksFor(plan, cut, b);
        }))
      idle.push_back(cut.id.text);
  return idle;
}

Plan planned(const PlanRequest& request, double seconds) {
  PlanOptions options;
  options.limitSeconds = seconds;
  RunControl control;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  return plan.value();
}

std::string faults(const PlanRequest& request, const Plan& plan) {
  std::string all;
  for (const Breach& b : checkPlan(request, plan))
    if (b.rule != "accounted" && b.rule != "value") all += b.rule + ": " + b.message + "\n";
  return all;
}

// Pieces and their blanks gone, the cuts left.
Plan withoutPieces(Plan plan, const std::set<PieceId>& out) {
  std::erase_if(plan.pieces, [&](const Piece& p) { return out.count(p.id) > 0; });
  std::erase_if(plan.blanks, [&](const Blank& b) {
    return std::none_of(plan.pieces.begin(), plan.pieces.end(),
                        [&](const Piece& p) { return p.blank == b.id; });
  });
  return plan;
}

std::set<PieceId> somePieces(const Plan& plan, std::mt19937_64& dice) {
  std::set<PieceId> some;
  for (const Piece& p : plan.pieces)
    if (dice() % 3 == 0) some.insert(p.id);
  return some;
}

}  // namespace

TEST_CASE("what takes pieces out of a plan takes out their cuts", "[planner][idle]") {
  int idle = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const PlanRequest request = randomRack({4, 24, seed, 0.85});
    const Plan whole = planned(request, 0.2);
    INFO("seed " << seed);
    CHECK(idleByHand(whole).empty());
    std::mt19937_64 dice(seed);
    for (int round = 0; round < 4; ++round) {
      const std::set<PieceId> out = somePieces(whole, dice);
      const Plan left = withoutPieces(whole, out);
      const bool isIdle = !idleByHand(left).empty();
      CHECK(isIdle == breaks(request, left, "idle"));
      idle += isIdle ? 1 : 0;
      Plan clean = whole;
      takeOut(out, clean);
      CHECK(clean.pieces.size() == left.pieces.size());
      CHECK(idleByHand(clean).empty());
      CHECK(faults(request, clean) == "");
    }
  }
  CHECK(idle >= 30);
}

TEST_CASE("cuts that were made stay, whatever is taken out", "[planner][idle]") {
  const PlanRequest request = randomRack({2, 12, 5, 0.8});
  Plan plan = planned(request, 0.2);
  std::set<PieceId> all;
  for (const Piece& p : plan.pieces) all.insert(p.id);
  for (Cut& cut : plan.cuts) cut.made = cut.order <= 2;
  const auto made =
      std::count_if(plan.cuts.begin(), plan.cuts.end(), [](const Cut& c) { return c.made; });
  takeOut(all, plan);
  CHECK(plan.blanks.empty());
  CHECK(static_cast<long>(plan.cuts.size()) == made);
}

TEST_CASE("plans with panels saw up no wood for strips that no panel takes",
          "[planner][idle][panel]") {
  for (const unsigned seed : {3U, 5U, 6U, 8U}) {
    const PlanRequest request = randomRack({5, 18, seed, 0.7, false, true});
    const Plan plan = planned(request, 0.5);
    INFO("seed " << seed);
    CHECK(idleByHand(plan).empty());
    CHECK(faults(request, plan) == "");
  }
}
