// SPDX-License-Identifier: GPL-3.0-or-later
// Layouts made on wide columns stay legal on narrow ones.
#include "core/plan/finer_columns.h"

#include <catch2/catch.hpp>

#include "core/plan/checker.h"
#include "core/plan/plan_writer.h"
#include "core/plan/sound_cuts.h"

using namespace rackside;

TEST_CASE("a blank that is shorter on narrow columns is moved off a mark", "[planner]") {
  PlanRequest request;
  request.shop.crosscutKerfMm = request.shop.ripKerfMm = request.shop.firstRipKerfMm = 5;
  request.shop.endTrimMm = 50;
  request.shop.snipeMm = request.shop.widthAllowanceMm = 0;
  request.shop.lengthAllowanceMm = 12;
  request.shop.clearanceMm[MarkKind::avoid] = 0;
  Board board;
  board.id = {"board"};
  board.name = "1";
  board.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, 600, 120}))
    board.outline.vertices.push_back({p, 0, EdgeState::sure});
  Mark m;
  m.id = {"mark"};
  m.kind = MarkKind::avoid;
  m.onA = rectangle({50.5, 0, 59.5, 120});
  board.marks.push_back(m);
  request.boards = {board};
  Part part;
  part.id = {"part"};
  part.name = "part";
  part.lengthMm = 304;
  part.widthMm = 80;
  part.thicknessMm = 19;
  part.showing = Showing::none;
  request.parts = {part};
  const std::vector<BlankKind> kinds = blankKinds(part, 0, request.shop, 1);

  // On columns of 10 mm the blank takes 33 of them, 325 mm and a cut: 10.5 mm beside the part,
  // which clears the mark. On 1.25 mm it is 316.25 mm: 6.1 mm, which would not.
  const Job job{request.parts, kinds, request.shop, 1.25};
  const BoardMap map(board, job);
  int axis = 0;
  while (map.angleRad(axis) != 0) ++axis;
  SectionLayout section{0, 33, axis, {{0, 0, 0}}};
  REQUIRE(toFiner(section, 8, map, job));
  CHECK(section.to == 264);
  CHECK(section.strips[0].column > 0);
  const PlanOptions options;
  PlanWriter writer(request, options, job);
  writer.add(request.boards[0], {writtenSection(map, job, section)});
  Plan plan = writer.take();
  makeCutsSound(request, plan);  // as every plan that is handed out
  plan.bound = plan.value;
  for (const Breach& b : checkPlan(request, plan)) FAIL_CHECK(b.rule << ": " << b.message);
  CHECK(plan.pieces.size() == 1);
}
