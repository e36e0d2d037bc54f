// SPDX-License-Identifier: GPL-3.0-or-later
// The figures on a board's sheet against a plan laid by hand, whose figures are known.
#include "app/sheets/board_work.h"

#include <catch2/catch.hpp>

#include "tests/app/bench_rack.h"

using namespace rackside;
using namespace rackside::sheets;

namespace {

const LengthStyle kTenths{UnitSystem::millimetres, 1, 16};

}  // namespace

TEST_CASE("lengths run from the fresh end") {
  const Rack rack = tests::benchRack();
  const BoardWork work = boardWork(rack, rack.boards[1], kTenths);
  REQUIRE(work.steps.size() == 1 + 3 + 3 * 4);
  CHECK(work.freshCut != nullptr);
  CHECK(work.freshIsLeft);
  CHECK(work.freshXMm == Approx(50));
  CHECK(work.steps[0].what == "Trim");
  CHECK(work.steps[0].where.find("50.0 mm off the rough left end") == 0);
  // 600 and the kerf of 3.2 before each next section.
  CHECK(*work.steps[1].runningMm == Approx(600));
  CHECK(*work.steps[2].runningMm == Approx(1203.2));
  CHECK(*work.steps[3].runningMm == Approx(1806.4));
  CHECK(work.sections.size() == 4);  // three with pieces, and the far end
}

TEST_CASE("the first rip is laid by its offsets, later widths run off its edge") {
  const Rack rack = tests::benchRack();
  const BoardWork work = boardWork(rack, rack.boards[1], kTenths);
  const CutStep& first = work.steps[4];
  CHECK(first.what == "First rip");
  CHECK(first.section == 1);
  CHECK(first.where.find("12.0 mm in from the near edge at the left") != std::string::npos);
  CHECK(work.steps[5].what == "Rip");
  CHECK(work.steps[5].where.find("60.0 mm from the straight edge of cut 5") == 0);
  // The next strip starts a kerf on, so its width is again measured from the edge just sawn.
  CHECK(work.steps[6].where.find("60.0 mm from the straight edge of cut 6") == 0);
  CHECK(work.steps[5].freed.size() == 1);
}

TEST_CASE("waste, offcuts and pieces make up the board less the kerfs") {
  const Rack rack = tests::benchRack();
  const Board& board = rack.boards[1];
  const BoardWork work = boardWork(rack, board, kTenths);
  const Polygon outline = board.outline.polygon();
  double rough = 0, kerfs = 0;
  for (const Blank& b : rack.plan->blanks)
    if (b.board == board.id) rough += b.roughLengthMm * b.roughWidthMm;
  // Each kerf by itself: the strip to the right of its line, as far as there is wood.
  for (const Cut& c : rack.plan->cuts) {
    if (c.board != board.id) continue;
    const Point along = c.line.to - c.line.from;
    const Point right = (c.kerfMm / norm(along)) * Point{along.y, -along.x};
    const Polygon strip{c.line.from, c.line.from + right, c.line.to + right, c.line.to};
    kerfs += area(intersect({outline}, {strip}));
  }
  // 50 mm² of 490000: the clipping grid of a thousandth of a millimetre along some 20 m of borders.
  CHECK(rough + area(work.waste) + area(work.offcuts) + kerfs ==
        Approx(area({outline})).margin(50));
  REQUIRE(work.offcuts.size() == 1);
  CHECK(bounds(work.offcuts[0]).x1 == Approx(2400));
}

TEST_CASE("a trim at the right end turns the measuring round") {
  Rack rack = tests::benchRack();
  rack.plan->cuts.clear();
  rack.plan->blanks.clear();
  rack.plan->pieces.clear();
  Cut trim;
  trim.id = {"c1"};
  trim.board = rack.boards[1].id;
  trim.order = 1;
  trim.line = {{2340, 0}, {2340, 210}};  // upwards: the kept wood is on the left
  trim.kerfMm = 3.2;
  trim.wasteIsRight = true;
  Cut end = trim;
  end.id = {"c2"};
  end.order = 2;
  end.parent = trim.id;
  end.line = {{1500, 210}, {1500, 0}};
  end.wasteIsRight = true;
  rack.plan->cuts = {trim, end};
  const BoardWork work = boardWork(rack, rack.boards[1], kTenths);
  CHECK_FALSE(work.freshIsLeft);
  CHECK(work.freshXMm == Approx(2340));
  CHECK(*work.steps[1].runningMm == Approx(840));
  CHECK(work.steps[1].where.find("Keep the offcut: left") != std::string::npos);
}
