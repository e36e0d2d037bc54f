// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/milling_route.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/trade/joint_check.h"

using namespace rackside;

namespace {

struct Job {
  Board board;
  Blank blank;
  std::vector<Part> parts;
  std::vector<Piece> pieces;
  Shop shop;

  Job(double lengthMm, double widthMm, double thicknessMm, int copies = 1) {
    board.thicknessMm = thicknessMm + 8;
    Part part;
    part.id.text = "part-1";
    part.name = "Rail";
    part.lengthMm = lengthMm;
    part.widthMm = widthMm;
    part.thicknessMm = thicknessMm;
    parts = {part};
    blank.roughLengthMm = copies * (lengthMm + 3.2) + 25;
    blank.roughWidthMm = widthMm + 6.4;
    pieces.resize(static_cast<size_t>(copies));
    for (Piece& p : pieces) {
      p.part = part.id;
      p.lengthMm = lengthMm;
      p.widthMm = widthMm;
    }
  }
  MillingRoute route() const {
    const auto r = millingRoute(board, blank, pieces, parts, shop);
    if (!r) FAIL(r.error().message);
    return *r;
  }
};

bool has(const MillingRoute& route, MillingStepKind kind) {
  return std::any_of(route.steps.begin(), route.steps.end(),
                     [kind](const MillingStep& s) { return s.kind == kind; });
}

void checkSizes(const MillingRoute& route, const Part& part) {
  MillingSize before = route.rough;
  for (const MillingStep& step : route.steps) {
    CHECK(step.after.lengthMm <= before.lengthMm);
    CHECK(step.after.widthMm <= before.widthMm);
    CHECK(step.after.thicknessMm <= before.thicknessMm);
    // No step goes below what is wanted.
    CHECK(step.after.widthMm >= part.widthMm - 1e-9);
    CHECK(step.after.thicknessMm >= part.thicknessMm - 1e-9);
    before = step.after;
  }
  CHECK(before.lengthMm == part.lengthMm);
  CHECK(before.widthMm == part.widthMm);
  CHECK(before.thicknessMm == part.thicknessMm);
}

}  // namespace

TEST_CASE("every route ends at the finished size and never passes it") {
  for (const double thickness : {12.0, 22.0, 45.0})
    for (const double width : {45.0, 90.0, 280.0})
      for (const double length : {200.0, 600.0, 1800.0}) {
        CAPTURE(length, width, thickness);
        const Job job(length, width, thickness);
        checkSizes(job.route(), job.parts[0]);
      }
}

TEST_CASE("a strip of a panel is milled to its own width, not the panel's") {
  Job job(600, 90, 22);
  job.parts[0].widthMm = 420;  // the whole panel
  job.pieces[0].kind = PieceKind::panelStrip;
  job.pieces[0].strip = 2;
  const MillingRoute route = job.route();
  CHECK(route.steps.back().after.widthMm == 90);
  CHECK(route.steps.back().what.find("strip 2") != std::string::npos);
}

TEST_CASE("the route follows the machines of the shop") {
  CHECK(has(Job(600, 90, 22).route(), MillingStepKind::face));
  const MillingRoute wide = Job(600, 280, 22).route();
  CHECK(has(wide, MillingStepKind::sledFace));
  CHECK(has(wide, MillingStepKind::turn));
  CHECK_FALSE(has(wide, MillingStepKind::face));
  CHECK(has(Job(200, 90, 22).route(), MillingStepKind::gang));
  CHECK_FALSE(has(Job(600, 90, 22).route(), MillingStepKind::gang));
}

TEST_CASE("no blank goes where the machine's width forbids, no rough edge against a fence") {
  for (const double width : {45.0, 90.0, 280.0, 470.0, 800.0})
    for (const double thickness : {22.0, 45.0}) {
      CAPTURE(width, thickness);
      const Job job(900, width, thickness);
      const MillingRoute route = job.route();
      bool edgeIsTrue = false;
      for (const MillingStep& step : route.steps) {
        const bool planer =
            step.kind == MillingStepKind::sledFace || step.kind == MillingStepKind::turn ||
            step.kind == MillingStepKind::thickness || step.kind == MillingStepKind::final;
        if (planer) CHECK(step.after.widthMm <= job.shop.planerWidthMm);
        if (step.kind == MillingStepKind::face)
          CHECK(step.after.widthMm <= job.shop.jointerWidthMm);
        if (step.what.find("along the fence") != std::string::npos) CHECK(edgeIsTrue);
        edgeIsTrue = edgeIsTrue || step.kind == MillingStepKind::edge;
      }
      checkSizes(route, job.parts[0]);
    }
  const MillingRoute wide = Job(900, 470, 22).route();
  REQUIRE(has(wide, MillingStepKind::byHand));
  const auto byHand = std::find_if(wide.steps.begin(), wide.steps.end(), [](const MillingStep& s) {
    return s.kind == MillingStepKind::byHand;
  });
  CHECK(byHand->what.find("hand planes") != std::string::npos);
  CHECK(byHand->what.find("halves") != std::string::npos);
  CHECK(byHand->what.find("elsewhere") != std::string::npos);
  const MillingRoute widest = Job(900, 800, 22).route();  // halves are too wide too
  for (const MillingStep& s : widest.steps) CHECK(s.what.find("halves") == std::string::npos);
}

TEST_CASE("wet wood is dried to size before it is milled") {
  Job job(600, 90, 22);
  CHECK_FALSE(has(job.route(), MillingStepKind::dry));
  job.board.species = "black walnut";
  job.board.sawn = Sawn::flat;
  job.board.moisture.push_back({12, {}, {}, "", {}});
  const MillingRoute route = job.route();
  REQUIRE(has(route, MillingStepKind::dry));
  const auto dry = std::find_if(route.steps.begin(), route.steps.end(), [](const MillingStep& s) {
    return s.kind == MillingStepKind::dry;
  });
  // Wood Handbook eq. 13-2 with Table 13-5's coefficients, 12 to 8 %.
  CHECK(dry->after.widthMm == Approx(route.rough.widthMm * (1 - 4 * 0.00274)));
  CHECK(dry->after.thicknessMm == Approx(route.rough.thicknessMm * (1 - 4 * 0.00190)));
  checkSizes(route, job.parts[0]);
}

TEST_CASE("legs are brought square by turns") {
  const MillingRoute leg = Job(430, 45, 45).route();
  CHECK(has(leg, MillingStepKind::square));
  CHECK_FALSE(has(leg, MillingStepKind::final));
  CHECK_FALSE(has(Job(430, 90, 45).route(), MillingStepKind::square));
}

TEST_CASE("the label is written again before its end is cut off") {
  const MillingRoute route = Job(600, 90, 22).route();
  const auto place = [&route](MillingStepKind kind) {
    return std::find_if(route.steps.begin(), route.steps.end(),
                        [kind](const MillingStep& s) { return s.kind == kind; }) -
           route.steps.begin();
  };
  CHECK(place(MillingStepKind::relabel) < place(MillingStepKind::length));
  CHECK(place(MillingStepKind::thickness) < place(MillingStepKind::rest));
  CHECK(place(MillingStepKind::rest) < place(MillingStepKind::final));
}

TEST_CASE("a tapered part is cut in a jig, a cut step warns of the blade") {
  Job job(600, 90, 22);
  job.parts[0].outline = Polygon{{0, 0}, {600, 20}, {600, 70}, {0, 90}};
  const MillingRoute route = job.route();
  REQUIRE(route.steps.back().kind == MillingStepKind::taper);
  CHECK(route.steps.back().caution.find("jig") != std::string::npos);
  for (const MillingStep& step : route.steps)
    if (step.kind == MillingStepKind::rip || step.kind == MillingStepKind::length)
      CHECK(step.caution.find("150 mm") != std::string::npos);
}

TEST_CASE("a blank that no longer fits its part is refused") {
  Job job(600, 90, 22);
  job.parts[0].thicknessMm = 40;
  CHECK_FALSE(millingRoute(job.board, job.blank, job.pieces, job.parts, job.shop).ok());
  CHECK_FALSE(millingRoute(job.board, job.blank, {}, job.parts, job.shop).ok());
  CHECK_FALSE(millingRoute(job.board, job.blank, job.pieces, {}, job.shop).ok());
}

TEST_CASE("mortises are checked before they break through") {
  // Plain subtraction; the least floor is common practice, no source.
  const LengthStyle mm;
  const auto one = checkMortise({20, 15, 0}, mm);
  REQUIRE(one.ok());
  CHECK(one->leftMm == Approx(5));
  CHECK_FALSE(one->breaksThrough);
  const auto both = checkMortise({30, 15, 15}, mm);
  REQUIRE(both.ok());
  CHECK(both->breaksThrough);
  CHECK(checkMortise({20, 18, 0}, mm)->tooThin);
  CHECK_FALSE(checkMortise({0, 18, 0}, mm).ok());
  CHECK_FALSE(checkMortise({20, NAN, 0}, mm).ok());
}

TEST_CASE("the shallower mortise for a loose tenon goes in the thinner member") {
  const LengthStyle mm;
  // 34 mm tenon, 1 mm for glue at each end: 36 mm in all, of which a 20 mm member takes 17.
  const auto r = checkLooseTenon({45, 20, 34, 0, 1}, mm);
  REQUIRE(r.ok());
  CHECK(r->fits);
  CHECK(r->depthInThinnerMm == Approx(17));
  CHECK(r->depthInThickerMm == Approx(19));
  CHECK(r->leftInThinnerMm == Approx(3));
  CHECK(r->leastEngagedMm == Approx(34 - kTenonShortMm - 19));
  const auto measured = checkLooseTenon({20, 45, 34, 33, 1}, mm);
  CHECK(measured->depthInThinnerMm + measured->depthInThickerMm == Approx(35));
  const auto tight = checkLooseTenon({16, 16, 30, 30, 1}, mm);
  CHECK_FALSE(tight->fits);
  CHECK(tight->shortenByMm == Approx(6));
  CHECK_FALSE(checkLooseTenon({16, 16, 0, 0, 1}, mm).ok());
}

TEST_CASE("pieces side by side are ripped from the milled blank") {
  Job job(700, 12, 19, 2);
  job.blank.roughLengthMm = 730;
  job.blank.roughWidthMm = 33.6;
  job.pieces[0].outline = rectangle({15, 3.2, 715, 15.2});
  job.pieces[1].outline = rectangle({15, 18.4, 715, 30.4});
  const MillingRoute route = job.route();
  const auto rip = std::find_if(route.steps.begin(), route.steps.end(), [](const MillingStep& s) {
    return s.kind == MillingStepKind::rip;
  });
  REQUIRE(rip != route.steps.end());
  CHECK(rip->what.find("in turn") != std::string::npos);
  checkSizes(route, job.parts[0]);
  job.blank.roughWidthMm = 20;  // not both
  CHECK_FALSE(millingRoute(job.board, job.blank, job.pieces, job.parts, job.shop).ok());
}
