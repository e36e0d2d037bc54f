// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <numbers>

#include "core/trade/fill_list.h"
#include "core/trade/fill_volume.h"
#include "core/trade/fill_words.h"
#include "core/trade/local_take_off.h"

using namespace rackside;

namespace {

const double pi = std::numbers::pi;

// Sums slices of the hollow from its shape law, 1/2000 of the depth each.
double sliced(FillProfile profile, double areaMm2, double depthMm, double top, double bottom) {
  constexpr int kSlices = 2000;
  const double end = std::min(bottom, depthMm);  // nothing lies beyond its depth
  double sum = 0;
  for (int i = 0; i < kSlices; ++i) {
    const double z = top + (end - top) * (i + 0.5) / kSlices;
    sum += areaMm2 * areaShareAt(profile, z / depthMm) * (end - top) / kSlices;
  }
  return sum;
}

// A 1000 × 200 × 30 board with one blank and one part, milled evenly to 20 mm.
struct Scene {
  Rack rack;
  Plan plan;

  explicit Scene(Mark mark) {
    Board board;
    board.id.text = "board-1";
    board.thicknessMm = 30;
    for (const Point p : rectangle({0, 0, 1000, 200})) board.outline.vertices.push_back({p, 0, {}});
    mark.id.text = "m";
    board.marks = {mark};
    rack.boards = {board};
    Blank blank;
    blank.id.text = "blank-1";
    blank.board = board.id;
    blank.boardFromBlank = {{100, 20}, 0};
    blank.roughLengthMm = 800;
    blank.roughWidthMm = 160;
    blank.finishedThicknessMm = 20;
    blank.takeOffAMm = blank.takeOffBMm = 5;
    Piece piece;
    piece.id.text = "piece-1";
    piece.part.text = "part-1";
    piece.blank = blank.id;
    piece.board = board.id;
    piece.outline = rectangle({110, 25, 890, 175});
    plan.blanks = {blank};
    plan.pieces = {piece};
  }
  FillHabits habits;
  FillList list() const { return fillList(rack, plan, habits); }
  Board& board() { return rack.boards[0]; }
};

Mark hole(double depthMm) {
  Mark m;
  m.kind = MarkKind::holeToFill;
  m.onA = Ellipse{{500, 100}, 10, 10, 0};
  m.depthMm = depthMm;
  return m;
}

}  // namespace

TEST_CASE("volumes of whole hollows are those of the textbook solids") {
  // Half an ellipsoid 2/3·A·d, a prism A·d, a trench with a pointed bottom A·d/2.
  CHECK(hollowVolumeMm3(FillProfile::bowl, 100, 9, 0, 9) == Approx(600));
  CHECK(hollowVolumeMm3(FillProfile::straight, 100, 9, 0, 9) == Approx(900));
  CHECK(hollowVolumeMm3(FillProfile::wedge, 100, 9, 0, 9) == Approx(450));
  CHECK(hollowVolumeMm3(FillProfile::bowl, 100, 0, 0, 0) == 0);
}

TEST_CASE("what is left of a hollow agrees with summed slices") {
  for (const FillProfile profile : {FillProfile::bowl, FillProfile::straight, FillProfile::wedge})
    for (const double top : {0.0, 1.0, 4.0, 8.9})
      for (const double bottom : {9.0, 12.0})
        CHECK(hollowVolumeMm3(profile, 100, 9, top, bottom) ==
              Approx(sliced(profile, 100, 9, top, bottom)).epsilon(0.002));
  CHECK(hollowVolumeMm3(FillProfile::bowl, 100, 9, 9.5, 12) == 0);
}

TEST_CASE("only what remains after milling is filled") {
  // A bowl of 10 mm radius, 8 mm deep, of which 5 mm are planed away.
  const FillList list = Scene(hole(8)).list();
  REQUIRE(list.spots.size() == 1);
  const FillSpot& spot = list.spots[0];
  CHECK(spot.takeOffHereMm == Approx(5));
  CHECK(spot.depthMm == Approx(3));
  CHECK(spot.volumeMl.value ==
        Approx(sliced(FillProfile::bowl, pi * 100, 8, 5, 8) / 1000).epsilon(0.01));
  CHECK(spot.volumeMl.u95 > 0);
  CHECK_FALSE(spot.needsDam);
  // A pit shallower than what is taken vanishes.
  CHECK(Scene(hole(4.9)).list().spots.empty());
}

TEST_CASE("a hole right through is as deep as the finished part and needs a dam") {
  Mark m = hole(1);
  m.depthMm.reset();
  m.through = true;
  const FillList through = Scene(m).list();
  REQUIRE(through.spots.size() == 1);
  CHECK(through.spots[0].needsDam);
  CHECK(through.spots[0].volumeMl.value == Approx(pi * 100 * 20 / 1000).epsilon(0.01));
  // So deep that the far face's planing opens it: likewise.
  const FillList opened = Scene(hole(26)).list();
  REQUIRE(opened.spots.size() == 1);
  CHECK(opened.spots[0].needsDam);
}

TEST_CASE("only the share of a hole inside a part counts") {
  Mark m = hole(8);
  (*m.extra)["profile"] = "straight";
  m.onA = rectangle({80, 90, 140, 110});  // 30 of its 60 mm lie in the part
  const FillList list = Scene(m).list();
  REQUIRE(list.spots.size() == 1);
  CHECK(list.spots[0].volumeMl.value == Approx(30 * 20 * 3 / 1000.0).epsilon(0.001));
  m.onA = rectangle({10, 90, 60, 110});
  CHECK(Scene(m).list().spots.empty());
}

TEST_CASE("bark is dug out wider and deeper") {
  Mark m = hole(8);
  m.kind = MarkKind::barkPocket;
  m.onA = rectangle({400, 90, 440, 110});
  Scene scene(m);
  scene.habits.digOutMm = 2;
  const FillList list = scene.list();
  REQUIRE(list.spots.size() == 1);
  CHECK(list.spots[0].dugOut);
  // Upright walls, 44 × 24 with round corners of 2 mm, 10 − 5 mm deep.
  CHECK(list.spots[0].volumeMl.value == Approx((44 * 24 - (4 - pi) * 4) * 5 / 1000).epsilon(0.005));
}

TEST_CASE("an unknown depth is asked for, and marks that are no hollows are passed over") {
  Mark m = hole(8);
  m.depthMm.reset();
  const FillList list = Scene(m).list();
  REQUIRE(list.spots.size() == 1);
  CHECK(list.spots[0].depthUnknown);
  CHECK(list.needs.empty());
  m = hole(8);
  m.kind = MarkKind::stain;
  CHECK(Scene(m).list().spots.empty());
  m = hole(8);
  m.confirmed = false;
  CHECK(Scene(m).list().spots.empty());
}

TEST_CASE("a profile that was not said widens the ±") {
  Mark said = hole(8);
  (*said.extra)["profile"] = "bowl";
  CHECK(Scene(hole(8)).list().spots[0].volumeMl.u95 > Scene(said).list().spots[0].volumeMl.u95);
}

TEST_CASE("the filler follows the mouth and the depth, its batch the volume") {
  const FillHabits habits;
  const auto nameOf = [&habits](const FillList& list) {
    REQUIRE(list.spots.size() == 1);
    return fillerWord(list.spots[0], habits);
  };
  // A mouth of 20 mm, 3 mm left: nothing for cyanoacrylate; a pour of coating epoxy, 15 ml at
  // least.
  FillList list = Scene(hole(8)).list();
  CHECK(nameOf(list) == "coating epoxy");
  CHECK(list.spots[0].widthMm == Approx(20).margin(0.1));
  REQUIRE(list.needs.size() == 1);
  CHECK(list.needs[0].pours == 1);
  CHECK(list.needs[0].cups == 1);
  CHECK(list.needs[0].mixedMl == Approx(15));
  CHECK(list.needs[0].massG == Approx(15 * 1.11));
  CHECK(list.needs[0].hours == Approx(48));
  // 7 mm left: three pours of at most 3.2 mm.
  list = Scene(hole(12)).list();
  CHECK(nameOf(list) == "coating epoxy");
  CHECK(list.needs[0].pours == 3);
  CHECK(list.needs[0].mixedMl == Approx(45));
  CHECK(list.needs[0].hours == Approx(2 * 6 + 48));
  // A pool 87 mm wide and 3 mm deep.
  Mark pool = hole(8);
  pool.onA = Ellipse{{500, 100}, 43.5, 43.5, 0};
  CHECK(nameOf(Scene(pool).list()) == "coating epoxy");
  // A check 0.4 mm wide, 200 mm long, 7 mm deep once milled: too narrow for epoxy to run into.
  Mark check = hole(9);
  check.kind = MarkKind::check;
  check.onA = Stroke{{{400, 100}, {600, 100}}, 0.4};
  list = Scene(check).list();
  CHECK(list.spots[0].widthMm == Approx(0.4).margin(0.05));
  CHECK(nameOf(list).find("epoxy") == std::string::npos);
  // A pinhole: a drop, no batch and no hours of one.
  Mark pin = hole(8);
  pin.onA = Ellipse{{500, 100}, 1.5, 1.5, 0};
  list = Scene(pin).list();
  CHECK(nameOf(list) == "a drop of thin glue, no batch");
  CHECK(list.needs.empty());
  CHECK(list.drops == 1);
  // No filler of the shop suits it.
  Scene scene(hole(12));
  scene.habits.fillers.resize(1);
  list = scene.list();
  REQUIRE(list.spots.size() == 1);
  CHECK_FALSE(list.spots[0].filler);
  CHECK(list.needs.empty());
}

TEST_CASE("holes on both faces are poured apart, and a great batch is split in cups") {
  Scene scene(hole(12));
  Mark behind = hole(12);
  behind.id.text = "behind";
  behind.onA.reset();
  behind.onB = Ellipse{{600, 100}, 10, 10, 0};
  behind.depthFrom = Face::B;
  scene.board().marks.push_back(behind);
  const FillList list = scene.list();
  REQUIRE(list.spots.size() == 2);
  REQUIRE(list.needs.size() == 1);
  CHECK(list.needs[0].turned);
  CHECK(list.needs[0].pours == 6);
  CHECK(list.needs[0].mixedMl == Approx(6 * 15));
  // Each face hard before the next: twice two gaps of 6 h and twice 48 h.
  CHECK(list.needs[0].hours == Approx(4 * 6 + 2 * 48));
  Scene great(hole(12));
  for (Filler& f : great.habits.fillers)
    if (f.name == "coating epoxy") f.leastBatchMl = 4, f.greatestBatchMl = 5, f.greatestPourMm = 9;
  great.board().marks[0].onA = Ellipse{{500, 100}, 30, 30, 0};
  const FillerNeed need = great.list().needs.at(0);
  CHECK(need.pours == 1);
  CHECK(need.cups == static_cast<int>(std::ceil(need.mixedMl / 5)));
  CHECK(need.cups > 1);
}

TEST_CASE("old worm holes and loose knots are listed, live ones and tight ones are not") {
  Mark m = hole(8);
  m.kind = MarkKind::knot;
  m.soundness = Soundness::loose;
  CHECK(Scene(m).list().spots.size() == 1);
  CHECK(Scene(m).list().spots[0].dugOut);
  m.soundness = Soundness::sound;
  CHECK(Scene(m).list().spots.empty());
  m.kind = MarkKind::wormHoles;
  CHECK(Scene(m).list().spots.size() == 1);
  m.live = true;
  CHECK(Scene(m).list().spots.empty());
}

TEST_CASE("the hollow of a cupped face loses least") {
  Scene scene(hole(8));
  scene.board().cupMm = 3;
  scene.board().sawn = Sawn::flat;
  scene.board().barkSide = Face::A;
  const Blank& blank = scene.plan.blanks[0];
  const auto takeOff = [&](Face face, double y) {
    return localTakeOffMm(scene.board(), blank, face, {500, y});
  };
  // Of the 200 mm board's 3 mm the 160 mm blank has 3·0.64 = 1.92, half above and half below.
  CHECK(takeOff(Face::A, 100) == Approx(5 - 0.96));
  CHECK(takeOff(Face::A, 20) == Approx(5 + 0.96));
  CHECK(takeOff(Face::B, 100) == Approx(5 + 0.96));
  // Both faces together lose the same everywhere.
  for (const double y : {20.0, 50.0, 100.0, 180.0})
    CHECK(takeOff(Face::A, y) + takeOff(Face::B, y) == Approx(10));
  scene.board().barkSide.reset();  // not known: the least is said of either face
  CHECK(takeOff(Face::B, 100) == Approx(5 - 0.96));
}

TEST_CASE("fillers are data of the shop's file") {
  Shop shop;
  REQUIRE(fillHabits(shop).ok());
  CHECK(fillHabits(shop)->fillers.size() == defaultFillers().size());
  for (const Filler& filler : defaultFillers()) CHECK(validate(filler).ok());
  (*shop.extra)["dig_out_mm"] = 2.5;
  (*shop.extra)["fillers"] = {{{"name", "wax"},
                               {"greatest_depth_mm", 2},
                               {"greatest_pour_mm", 2},
                               {"density_g_per_ml", 0.9},
                               {"least_batch_ml", 0},
                               {"mixing_loss", 0.1},
                               {"hours_between_pours", 0},
                               {"hours_before_next_step", 1}}};
  const auto own = fillHabits(shop);
  REQUIRE(own.ok());
  CHECK(own->digOutMm == 2.5);
  REQUIRE(own->fillers.size() == 1);
  CHECK(own->fillers[0].name == "wax");
  (*shop.extra)["fillers"][0]["mixing_loss"] = "some";
  REQUIRE_FALSE(fillHabits(shop).ok());
  CHECK(fillHabits(shop).error().message.find("fillers[0].mixing_loss") != std::string::npos);
  (*shop.extra)["fillers"][0]["mixing_loss"] = 3;
  CHECK_FALSE(fillHabits(shop).ok());
}
