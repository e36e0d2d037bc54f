// SPDX-License-Identifier: GPL-3.0-or-later
// Boards graded by hand from the words of the rule, before the program was asked. Kiln-dried 4/4,
// inches along and across; a mark shows on face A unless said. [F] the rule's words were read in a
// published text (the sources stand in core/trade/grade_rules.h), [M] they are from memory.
#include <catch2/catch.hpp>

#include "core/trade/nhla_grade.h"

using namespace rackside;

namespace {

constexpr double in = 25.4;

enum class On { a, b, both };

struct Spot {
  MarkKind kind;
  double x0, y0, x1, y1;
  On on = On::a;
  Soundness soundness = Soundness::unknown;
};

struct Case {
  const char* what;
  const char* species;
  double widthIn, lengthFt;
  std::vector<Spot> marks;
  const char* grade;
  const char* why;
  double rightWidthIn = 0;  // of a taper; 0: the same
  double bowIn = 0, cupIn = 0, twistIn = 0;
  double depthIn = 0;  // of the marks
  bool airDried = false;
};

Board boardOf(const Case& c) {
  Board b;
  b.name = c.what;
  b.species = c.species;
  b.thicknessMm = 25.4;
  const double l = c.lengthFt * 12 * in, right = c.rightWidthIn > 0 ? c.rightWidthIn : c.widthIn;
  for (const Point p : Polygon{{0, 0}, {l, 0}, {l, right * in}, {0, c.widthIn * in}})
    b.outline.vertices.push_back({p, 0, {}});
  b.pictures.resize(2);
  b.pictures[1].face = Face::B;
  b.bowMm = c.bowIn * in, b.cupMm = c.cupIn * in, b.twistMm = c.twistIn * in;
  b.airDried = c.airDried;
  for (const Spot& s : c.marks) {
    Mark m;
    m.kind = s.kind;
    m.soundness = s.soundness;
    const Polygon p = rectangle({s.x0 * in, s.y0 * in, s.x1 * in, s.y1 * in});
    if (s.on != On::b) m.onA = p;
    if (s.on != On::a) m.onB = p;
    if (c.depthIn > 0) m.depthMm = c.depthIn * in;
    b.marks.push_back(m);
  }
  return b;
}

void check(const std::vector<Case>& cases) {
  for (const Case& c : cases) {
    CAPTURE(c.what, c.species, c.why);
    const auto grade = gradeBoard(boardOf(c), {});
    if (!grade) FAIL(grade.error().message);
    if (std::string(c.grade) == "below FAS")
      CHECK(grade->grade > Grade::selects);
    else
      CHECK(std::string(name(grade->grade)) == c.grade);
    CHECK(grade->proven);
  }
}

// `count` marks of a size, evenly along the board at y.
std::vector<Spot> row(MarkKind kind, int count, double sizeIn, double y, double lengthIn,
                      On on = On::a) {
  std::vector<Spot> all;
  for (int i = 0; i < count; ++i) {
    const double x = 14 + (lengthIn - 28) * (i + 0.5) / count;
    all.push_back({kind, x, y, x + sizeIn, y + sizeIn, on});
  }
  return all;
}

using K = MarkKind;

}  // namespace

TEST_CASE("twelve boards on which hand and program once differed") {
  std::vector<Spot> checks = row(K::check, 4, 0.02, 3, 120);
  for (Spot& s : checks) s.x1 = s.x0 + 8;
  check({
      {"5 3/4 in x 8 ft, clear",
       "oak",
       5.75,
       8,
       {},
       "FAS",
       "minimum widths may be 1/4 in scant kiln-dried, NHLA 2023 page 56 [F]"},
      {"tapering 8 to 5 in, 10 ft",
       "oak",
       8,
       10,
       {},
       "Selects",
       "the least width is the narrowest place, 2019 paragraph 10 [F]",
       5},
      {"7 in x 12 ft, knot across at 30-33",
       "oak",
       7,
       12,
       {{K::stain, 30, 0, 33, 7}},
       "FAS",
       "97 % in two full-width cuttings of any length: 82.25 >= 81.48 [F]; a stain for the knot, "
       "whose own size paragraph 60 would bar"},
      {"8 in x 14 ft, wane 1.4 in on each edge of the back",
       "oak",
       8,
       14,
       {{K::wane, 20, 0, 80, 1.4, On::b}, {K::wane, 60, 6.6, 120, 8, On::b}},
       "No. 1 Common",
       "the widest wane of both edges added together, 2.8 > 8/3 [F]"},
      {"cherry, four gum streaks", "cherry", 8, 10, row(K::gum, 4, 4, 2, 120), "FAS",
       "gum without limit in cherry [F]"},
      {"cherry, eight 1/8 in pin knots", "American cherry", 8, 10, row(K::knot, 8, 0.125, 3, 120),
       "FAS", "pin knots to 1/8 in are admitted in cherry [F]"},
      {"walnut 5 in x 7 ft, clear",
       "walnut",
       5,
       7,
       {},
       "FAS",
       "walnut and butternut have smaller least boards [F]"},
      {"four season checks", "oak", 8, 10, checks, "FAS",
       "ordinary season checks are admitted in clear cuttings [M]"},
      {"pith exactly as long as the surface measure",
       "oak",
       8,
       12,
       {{K::pith, 60, 0, 68, 0.25, On::both}},
       "FAS",
       "the limit is reached, not passed"},
      {"wane exactly half an edge, from 20 in on",
       "oak",
       8,
       12,
       {{K::wane, 20, 0, 92, 0.5}},
       "FAS",
       "the limit is reached, not passed, paragraph 57 [F]"},
      {"bow 100 mm, twist 30 mm",
       "oak",
       8,
       12,
       {},
       "below FAS",
       "must surface two sides to standard thickness [F]",
       0,
       100 / 25.4,
       0,
       30 / 25.4},
      {"six pinholes on the back", "oak", 8, 12, row(K::wormHoles, 6, 0.0625, 3, 144, On::b), "FAS",
       "sound cuttings admit pin worm holes, paragraph 31 [F]"},
  });
}

TEST_CASE("a knot across the board is barred by its own size") {
  // The third board above as the list has it, its knot as a knot: 3 x 7 in average 5, more than
  // 7/3.
  check(
      {{"7 in x 12 ft, knot across",
        "oak",
        7,
        12,
        {{K::knot, 30, 0, 33, 7}},
        "FAS One Face",
        "paragraph 60: a knot's average diameter in inches at most a third of the surface measure "
        "[F]; the other face makes FAS, this one No. 1 Common"}});
}

TEST_CASE("further boards graded by hand: sizes and widths") {
  check({
      {"6 in x 8 ft", "oak", 6, 8, {}, "FAS", "the least board [F]"},
      {"5 in x 12 ft", "oak", 5, 12, {}, "Selects", "narrower than FAS, 4 in x 6 ft or more [F]"},
      {"4 in x 6 ft", "oak", 4, 6, {}, "Selects", "surface measure 2, all clear [F]"},
      {"3 3/4 in x 6 ft", "oak", 3.75, 6, {}, "Selects", "1/4 in scant kiln-dried [F]"},
      {"3 in x 4 ft", "oak", 3, 4, {}, "No. 1 Common", "surface measure 1, all clear [F]"},
      {"3 1/2 in x 8 ft", "oak", 3.5, 8, {}, "No. 1 Common", "too narrow for Selects [F]"},
      {"2 1/2 in x 8 ft", "oak", 2.5, 8, {}, "below grade", "narrower than any grade [F]"},
      {"8 in x 3 ft", "oak", 8, 3, {}, "below grade", "shorter than any grade [F]"},
      {"taper 7 to 5.8 in, 10 ft",
       "oak",
       7,
       10,
       {},
       "FAS",
       "5.8 in at its narrowest is within 1/4 in of 6; 58 units of 50 [F]",
       5.8},
      {"5.9 in x 8 ft air-dried",
       "oak",
       5.9,
       8,
       {},
       "Selects",
       "the allowance is for kiln-dried lumber [F]",
       0,
       0,
       0,
       0,
       0,
       true},
      {"walnut 5 1/4 in x 10 ft", "walnut", 5.25, 10, {}, "FAS", "walnut from 5 in [F]"},
      {"butternut 5 1/4 in x 10 ft", "butternut", 5.25, 10, {}, "FAS", "as walnut [F]"},
  });
}

TEST_CASE("further boards graded by hand: cuttings") {
  check({
      {"3 in x 8 ft, stain at 40-43",
       "oak",
       3,
       8,
       {{K::stain, 40, 0, 43, 3, On::both}},
       "No. 2A Common",
       "No. 1 wants 18 units in 1 cutting, 13.25 are there; 2A wants 12 [F]"},
      {"8 in x 12 ft, sound knot of 2 in",
       "oak",
       8,
       12,
       {{K::knot, 70, 3, 72, 5, On::a, Soundness::sound}},
       "FAS",
       "46.7 + 48 units in two cuttings of 80; 2 in is under 8/3 [F]"},
      {"10 in x 8 ft, stain streak 1/4 in high",
       "oak",
       10,
       8,
       {{K::stain, 20, 3, 70, 3.25}},
       "FAS",
       "one cutting gives 54 of 70; with the extra one 54 + 24 of 77 [F]"},
      {"10 in x 8 ft, stain 7 in long",
       "oak",
       10,
       8,
       {{K::stain, 40, 4, 47, 6}},
       "FAS One Face",
       "two cuttings of 5 ft and more give 64, short of 77; No. 1 Common 74 of 56; the back is "
       "clear [F]"},
      {"6 in x 8 ft, stain through at 30-33",
       "oak",
       6,
       8,
       {{K::stain, 30, 0, 33, 6, On::both}},
       "No. 1 Common",
       "31.5 of 32 in one cutting, 46.5 of 36 with the extra one [F]"},
      {"oak, stain streak 20-120",
       "oak",
       8,
       12,
       {{K::stain, 20, 2, 120, 3}},
       "FAS One Face",
       "60 units of 80; No. 1 Common 50 + 16 of 64; the back is clear [F]"},
      {"stained all over one face",
       "oak",
       8,
       12,
       {{K::stain, 0, 0, 144, 8}},
       "No. 3A Common",
       "no clear wood on the poor face, but the other is better than 2A and its back sound [F]"},
      {"stained all over both faces",
       "oak",
       8,
       12,
       {{K::stain, 0, 0, 144, 8, On::both}},
       "No. 2B Common",
       "half of it and more in sound cuttings [F]"},
      {"bark from 50 in on",
       "oak",
       8,
       12,
       {{K::barkPocket, 50, 0, 144, 8, On::both}},
       "No. 3A Common",
       "33.3 units: of 48 for 2A and 2B no, of 32 for 3A yes [F]"},
      {"bark from 40 in on",
       "oak",
       8,
       12,
       {{K::barkPocket, 40, 0, 144, 8, On::both}},
       "No. 3B Common",
       "26.7 units of 32 for 3A no, of 24 for 3B yes [F]"},
      {"bark from 30 in on",
       "oak",
       8,
       12,
       {{K::barkPocket, 30, 0, 144, 8, On::both}},
       "below grade",
       "20 units of 24 [F]"},
      {"cherry, gum the length of both faces",
       "cherry",
       8,
       12,
       {{K::gum, 20, 2, 120, 3, On::both}},
       "FAS",
       "gum without limit in cherry [F]"},
  });
}

TEST_CASE("further boards graded by hand: limits of FAS") {
  check({
      {"knot 4 x 8 in, of unknown soundness",
       "oak",
       8,
       12,
       {{K::knot, 70, 0, 74, 8}},
       "FAS One Face",
       "average 6 in is over 8/3, paragraph 60; the back makes FAS [F]"},
      {"the same on the back",
       "oak",
       8,
       12,
       {{K::knot, 70, 0, 74, 8, On::b}},
       "FAS One Face",
       "the better face is taken whichever it is [F]"},
      {"knot exactly a third of the surface measure",
       "oak",
       12,
       12,
       {{K::knot, 70, 4, 74, 8}},
       "FAS",
       "4 in of 12/3: reached, not passed; 140 units of 120 [F]"},
      {"knot 5 in across within the first foot",
       "oak",
       8,
       12,
       {{K::knot, 2, 0, 8, 4}},
       "FAS",
       "paragraph 60 leaves it to the first foot, a quarter of which may be unsound [F]"},
      {"stain over 9 in of the first foot",
       "oak",
       8,
       12,
       {{K::stain, 0, 0, 9, 8}},
       "FAS One Face",
       "less than half of the first foot is clear, paragraph 59 [F]"},
      {"pith 9 in through, surface measure 8",
       "oak",
       8,
       12,
       {{K::pith, 60, 4, 69, 4.5, On::both}},
       "No. 1 Common",
       "longer in inches than the surface measure, on both faces [F]"},
      {"pith 73 in through",
       "oak",
       8,
       12,
       {{K::pith, 30, 3.75, 103, 4, On::both}},
       "No. 2A Common",
       "over half the length, paragraph 72; cuttings of 48 units beside it [F]"},
      {"split 16 in, surface measure 8",
       "oak",
       8,
       12,
       {{K::split, 0, 4, 16, 4.1, On::both}},
       "FAS",
       "twice the surface measure: reached [F]"},
      {"split 17 in",
       "oak",
       8,
       12,
       {{K::split, 0, 4, 17, 4.1, On::both}},
       "No. 1 Common",
       "more than twice the surface measure [F]"},
      {"wane 73 in of 144 on one face",
       "oak",
       8,
       12,
       {{K::wane, 0, 0, 73, 1}},
       "No. 1 Common",
       "over half an edge for FAS, and for the No. 1 face of FAS One Face, paragraph 64 [F]"},
      {"cup 3/8 in", "oak", 8, 12, {}, "No. 1 Common", "5/8 in is left of 13/16 [F]", 0, 0, 0.375},
      {"cup 1/8 in", "oak", 8, 12, {}, "FAS", "7/8 in is left of 13/16 [F]", 0, 0, 0.125},
      {"deep check the length of one face",
       "oak",
       8,
       12,
       {{K::check, 0, 2, 144, 2.1}},
       "FAS One Face",
       "it does not surface out: 69 units of 80, No. 1 Common 64; sound behind [M]",
       0,
       0,
       0,
       0,
       0.4},
      {"the same check, 1/16 in deep",
       "oak",
       8,
       12,
       {{K::check, 0, 2, 144, 2.1}},
       "FAS",
       "it surfaces out [M]",
       0,
       0,
       0,
       0,
       0.0625},
  });
}

TEST_CASE("further boards graded by hand: walnut by defects") {
  check({
      {"walnut 6 in x 6 ft, one knot of 1 in",
       "walnut",
       6,
       6,
       {{K::knot, 30, 2, 31, 3}},
       "FAS",
       "6 and 7 ft: one standard defect up to 7 in wide [F]"},
      {"walnut 8 in x 7 ft, two knots of 1 1/4 in",
       "walnut",
       8,
       7,
       {{K::knot, 20, 2, 21.25, 3.25}, {K::knot, 50, 4, 51.25, 5.25}},
       "FAS",
       "two from 8 in on [F]"},
      {"walnut 6 in x 6 ft, two knots through",
       "walnut",
       6,
       6,
       {{K::knot, 20, 2, 21, 3, On::both}, {K::knot, 45, 2, 46, 3, On::both}},
       "No. 2A Common",
       "one defect too many; No. 1 wants 24 in one cutting or 27 in two, 2A 18 in one [F]"},
  });
}

TEST_CASE("what cannot be graded says so") {
  Board pine = boardOf({"p", "white pine", 8, 12, {}, "", ""});
  CHECK_FALSE(gradeBoard(pine, {}).ok());
  Board taped = boardOf({"t", "oak", 8, 12, {}, "", ""});
  taped.pictures.clear();
  const auto grade = gradeBoard(taped, {});
  REQUIRE_FALSE(grade.ok());
  CHECK(grade.error().message.find("without a photograph") != std::string::npos);
}

TEST_CASE("a grade does not depend on the machine") {
  // The same steps every time: two gradings of a hard board are one.
  Case c{"hard", "oak", 11, 12, {}, "", ""};
  for (int i = 0; i < 24; ++i)
    c.marks.push_back({K::knot, 5.0 + (i * 37) % 130, 0.5 + (i * 13) % 9, 6.5 + (i * 37) % 130,
                       1.5 + (i * 13) % 9});
  const Board board = boardOf(c);
  const BoardGrade first = *gradeBoard(board, {}), again = *gradeBoard(board, {});
  CHECK(first.grade == again.grade);
  CHECK(first.proven == again.proven);
  CHECK(first.faces[0].units == again.faces[0].units);
}
