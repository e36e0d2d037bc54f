// SPDX-License-Identifier: GPL-3.0-or-later
// Cut day: ticks, defects that come to light, miscuts, and a new plan round what is sawn.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "core/document/cut_order.h"
#include "core/plan/blank_kind.h"
#include "core/plan/checker.h"
#include "core/plan/cut_tree.h"
#include "core/plan/made_cuts.h"
#include "core/plan/planner.h"
#include "core/plan/spare_stock.h"
#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

Result<Plan> planIn(const PlanRequest& request, double seconds, bool onlyWhatIsLost = false) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = seconds;
  options.onlyWhatIsLost = onlyWhatIsLost;
  return makePlan(request, options, control);
}

Plan planned(const PlanRequest& request) {
  const Result<Plan> plan = planIn(request, 0.3);
  REQUIRE(plan.ok());
  return *plan;
}

std::string faults(const PlanRequest& request, const Plan& plan) {
  std::string all;
  for (const Breach& b : checkPlan(request, plan)) all += b.rule + ": " + b.message + "\n";
  return all;
}

const Board& boardOf(const PlanRequest& request, const BoardId& id) {
  return *std::find_if(request.boards.begin(), request.boards.end(),
                       [&](const Board& b) { return b.id == id; });
}

// About `share` of the cuts of each board, every one after the cut that frees its wood.
Plan partlyCut(Plan plan, double share, std::mt19937_64& dice) {
  std::set<CutId> made;
  for (Cut& cut : plan.cuts) {
    const bool free = !cut.parent || made.count(*cut.parent);
    if (!free || static_cast<double>(dice() % 1000) > share * 1000) continue;
    cut.made = true;
    made.insert(cut.id);
  }
  return plan;
}

bool isFree(const Plan& plan, const Piece& piece) {
  for (const Blank& blank : plan.blanks)
    if (blank.id == piece.blank)
      for (const Cut& cut : plan.cuts)
        if (cut.id == blank.lastCut) return cut.made;
  return false;
}

Mark hidden(const Point at) {
  Mark m;
  m.id = {"came-to-light"};
  m.kind = MarkKind::knot;
  m.through = true;
  m.onA = m.onB = Ellipse{at, 9, 9, 0};
  return m;
}

Point middle(const Polygon& p) {
  const Rect box = bounds(p);
  return {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

}  // namespace

TEST_CASE("a cut is ticked after the cut that frees its wood, and taken back before it",
          "[cut day]") {
  const PlanRequest request = randomRack({1, 6, 4, 0.8});
  const Plan plan = planned(request);
  const Board& board = request.boards[0];
  REQUIRE(plan.cuts.size() >= 3);
  const Cut& inner = *std::find_if(plan.cuts.begin(), plan.cuts.end(),
                                   [](const Cut& c) { return c.parent.has_value(); });
  const Cut& outer = *std::find_if(plan.cuts.begin(), plan.cuts.end(),
                                   [&](const Cut& c) { return c.id == *inner.parent; });
  CHECK_FALSE(withCutsMade(plan, board, {inner.order}).ok());
  CHECK_FALSE(withCutsMade(plan, board, {99}).ok());
  CHECK_FALSE(withCutsTakenBack(plan, board, {outer.order}).ok());
  const Plan one = withCutsMade(plan, board, {outer.order}).value();
  CHECK_FALSE(withCutsMade(one, board, {outer.order}).ok());
  const Plan two = withCutsMade(one, board, {inner.order}).value();
  CHECK_FALSE(withCutsTakenBack(two, board, {outer.order}).ok());
  CHECK_FALSE(hasMadeCuts(withCutsTakenBack(two, board, {inner.order, outer.order}).value()));
  CHECK(withCutsMade(plan, board, {inner.order, outer.order}).ok());
}

TEST_CASE("a defect that comes to light moves what it hits and nothing that is sawn", "[cut day]") {
  int moved = 0, kept = 0;
  for (unsigned seed = 1; seed <= 14; ++seed) {
    PlanRequest request = randomRack({4, 24, seed, 0.75});
    std::mt19937_64 dice(seed);
    const Plan before = partlyCut(planned(request), 0.7, dice);
    if (!hasMadeCuts(before) || before.pieces.empty()) continue;
    const Piece& hit = before.pieces[dice() % before.pieces.size()];
    const Mark knot = hidden(middle(hit.outline));
    for (Board& b : request.boards)
      if (b.id == hit.board) b.marks.push_back(knot);
    request.current = &before;
    const Result<Plan> after = planIn(request, 0.2, seed % 2 == 0);
    INFO("seed " << seed);
    if (!after) FAIL(after.error().message);
    REQUIRE(after.ok());
    INFO(faults(request, *after));
    CHECK(checkPlan(request, *after).empty());
    const Rect struck = bounds(polygonsOf(*knot.onA)[0]);
    for (const Piece& was : before.pieces) {
      if (!isFree(before, was)) continue;
      const auto stays =
          std::any_of(after->pieces.begin(), after->pieces.end(), [&](const auto& p) {
            return p.id == was.id && p.copy == was.copy && p.outline == was.outline;
          });
      const Rect box = bounds(was.outline);
      // Far from the knot a piece that was free stays free. Pieces that are milled as one go
      // together.
      const bool far =
          was.blank != hit.blank &&
          (was.board != hit.board || box.x0 > struck.x1 + 30 || box.x1 < struck.x0 - 30 ||
           box.y0 > struck.y1 + 30 || box.y1 < struck.y0 - 30);
      if (far) CHECK(stays);
      kept += far ? 1 : 0;
    }
    const auto same = [&](const Piece& p) { return p.id == hit.id && p.outline == hit.outline; };
    if (std::none_of(after->pieces.begin(), after->pieces.end(), same)) ++moved;
  }
  CHECK(moved >= 8);
  CHECK(kept >= 20);
}

namespace {

// What the saw takes away, whichever of its two sides the line is drawn on.
Rect kerfOf(const Cut& cut) {
  const Segment other = borderOf(cut, false);
  return bounds({cut.line.from, cut.line.to, other.from, other.to});
}

bool isSame(const Rect& a, const Rect& b) {
  const double exactMm = 1e-6;
  return std::abs(a.x0 - b.x0) < exactMm && std::abs(a.x1 - b.x1) < exactMm &&
         std::abs(a.y0 - b.y0) < exactMm && std::abs(a.y1 - b.y1) < exactMm;
}

}  // namespace

TEST_CASE("ids of cuts, blanks and pieces never come back for something else", "[cut day]") {
  PlanRequest request = randomRack({3, 20, 7, 0.8});
  std::mt19937_64 dice(7);
  Plan current = partlyCut(planned(request), 0.5, dice);
  std::map<std::string, Rect> kerfs;
  for (int round = 0; round < 3; ++round) {
    for (const Cut& cut : current.cuts) {
      const auto known = kerfs.find(cut.id.text);
      if (known != kerfs.end()) CHECK(isSame(known->second, kerfOf(cut)));
      kerfs[cut.id.text] = kerfOf(cut);
    }
    const Piece& hit = current.pieces[dice() % current.pieces.size()];
    for (Board& b : request.boards)
      if (b.id == hit.board) {
        b.marks.push_back(hidden(middle(hit.outline)));
        b.marks.back().id.text += std::to_string(round);
      }
    request.current = &current;
    Plan next = planIn(request, 0.2).value();
    current = std::move(next);
  }
}

TEST_CASE("after a miscut the plan goes on from where the saw went", "[cut day]") {
  int tried = 0, lost = 0;
  for (unsigned seed = 20; seed < 32; ++seed) {
    PlanRequest request = randomRack({3, 18, seed, 0.75});
    const Plan plan = planned(request);
    // The first cut of a board that ends a section, 40 mm short.
    const auto end = std::find_if(plan.cuts.begin(), plan.cuts.end(), [&](const Cut& c) {
      return c.order == 2 && c.kind == CutKind::crosscut && c.parent;
    });
    if (end == plan.cuts.end()) continue;
    const Board& board = boardOf(request, end->board);
    const Plan begun = withCutsMade(plan, board, {1}).value();
    const Result<Plan> cut = withMiscut(begun, board, 2, {-40, std::nullopt});
    REQUIRE(cut.ok());
    const Cut& sawn = *std::find_if(cut->cuts.begin(), cut->cuts.end(),
                                    [&](const Cut& c) { return c.id == end->id; });
    CHECK(sawn.made);
    CHECK(sawn.planned == end->line);
    CHECK(std::abs(sawn.line.from.x - (end->line.from.x - 40)) < 1e-6);
    request.current = &*cut;
    const Result<Plan> after = planIn(request, 0.2);
    REQUIRE(after.ok());
    INFO("seed " << seed << ": " << faults(request, *after));
    CHECK(checkPlan(request, *after).empty());
    // Nothing lies across the line that was sawn.
    for (const Piece& p : after->pieces) {
      if (p.board != board.id) continue;
      const Rect box = bounds(p.outline);
      CHECK((box.x1 <= sawn.line.from.x + 0.01 || box.x0 >= sawn.line.from.x));
    }
    ++tried;
    if (after->pieces.size() < plan.pieces.size()) ++lost;
  }
  CHECK(tried >= 6);
  INFO("lost pieces in " << lost << " of " << tried);
}

TEST_CASE("a full plan keeps what is free and plans all else anew", "[cut day]") {
  PlanRequest request = randomRack({3, 18, 5, 0.8});
  std::mt19937_64 dice(5);
  const Plan half = partlyCut(planned(request), 0.8, dice);
  const Plan cut = onlyWhatIsCut(half);
  request.current = &cut;
  const Plan after = planned(request);
  INFO(faults(request, after));
  CHECK(checkPlan(request, after).empty());
  for (const Piece& was : cut.pieces) {
    CHECK(isFree(half, was));
    CHECK(std::any_of(after.pieces.begin(), after.pieces.end(),
                      [&](const Piece& p) { return p.id == was.id && p.outline == was.outline; }));
  }
}

TEST_CASE("show parts are cut first, as far as the tree of cuts allows", "[cut day]") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const PlanRequest request = randomRack({4, 24, seed, 0.75});
    Rack rack;
    rack.boards = request.boards;
    rack.parts = request.parts;
    rack.plan = planned(request);
    rack.plan->spares = spareStock(request, *rack.plan);
    const auto turns = cutsByRisk(rack);
    CHECK(turns.size() == rack.plan->cuts.size());
    std::map<CutId, size_t> at;
    for (size_t i = 0; i < turns.size(); ++i) at[turns[i].cut->id] = i;
    CHECK(at.size() == turns.size());
    const auto shows = [&](const Blank& blank) {
      for (const Piece& p : rack.plan->pieces)
        if (p.blank == blank.id) return rack.findPart(p.part)->showing != Showing::none;
      return false;
    };
    std::set<CutId> onTheWay;  // to a blank that shows
    size_t lastShown = 0;
    for (const Blank& blank : rack.plan->blanks) {
      if (!shows(blank)) continue;
      lastShown = std::max(lastShown, at.at(blank.lastCut));
      std::optional<CutId> id = blank.lastCut;
      while (id) {
        onTheWay.insert(*id);
        id = std::find_if(rack.plan->cuts.begin(), rack.plan->cuts.end(), [&](const Cut& c) {
               return c.id == *id;
             })->parent;
      }
    }
    for (const CutTurn& turn : turns) {
      if (turn.cut->parent) CHECK(at.at(*turn.cut->parent) < at.at(turn.cut->id));
      // Nothing else comes before the last piece that shows is free.
      if (!onTheWay.count(turn.cut->id)) CHECK(at.at(turn.cut->id) > lastShown);
    }
  }
}

TEST_CASE("spare stock named for a show part is wood that nothing else is planned on",
          "[cut day]") {
  int offcuts = 0, boards = 0;
  for (unsigned seed = 1; seed <= 8; ++seed) {
    PlanRequest request = randomRack({6, 12, seed, 0.3});
    request.worth.clear();
    const Plan plan = planned(request);
    std::set<PartId> asked;
    for (const Spare& spare : spareStock(request, plan)) {
      const Piece& piece = *std::find_if(plan.pieces.begin(), plan.pieces.end(),
                                         [&](const Piece& p) { return p.id == spare.piece; });
      if (!spare.board || !asked.insert(piece.part).second) continue;
      INFO("seed " << seed << ", " << piece.part.text << " on " << spare.board->text);
      const Board& board = boardOf(request, *spare.board);
      const Polygon box = rectangle(spare.place);
      for (const Blank& blank : plan.blanks)
        if (blank.board == board.id) CHECK(area(intersect({box}, {blank.roughOutline()})) < 1);
      // The box goes round a rough outline that may be turned by the grain's tolerance: of such a
      // box so much is not of the outline, and may be off the board.
      const auto shown = std::find_if(request.parts.begin(), request.parts.end(),
                                      [&](const Part& p) { return p.id == piece.part; });
      const double turned = std::min(grainToleranceRad(*shown), std::numbers::pi / 4);
      const double corners =
          (std::pow(spare.place.width(), 2) + std::pow(spare.place.height(), 2)) *
          std::sin(turned) * std::cos(turned);
      CHECK(area(subtract({box}, {board.outline.polygon()})) < 1 + corners);
      CHECK(spare.place.width() >= std::min(piece.lengthMm, piece.widthMm));
      (spare.wholeBoard ? boards : offcuts) += 1;
      if (!spare.wholeBoard) continue;
      // Everything stays where it is, and one copy more is wanted.
      PlanRequest more = request;
      more.current = &plan;
      for (Part& part : more.parts)
        if (part.id == piece.part) ++part.copies;
      for (const Piece& p : plan.pieces) more.pinned.push_back(p.id);
      CHECK(planned(more).pieces.size() > plan.pieces.size());
    }
  }
  CHECK(offcuts >= 5);
  INFO(boards << " whole boards");
}
