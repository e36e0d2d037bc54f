// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/nhla_grade.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace rackside;

namespace {

constexpr double in = 25.4, ft = 304.8;

Board plank(double widthIn, double lengthFt) {
  Board b;
  b.name = "plank";
  for (const Point p : rectangle({0, 0, lengthFt * ft, widthIn * in}))
    b.outline.vertices.push_back({p, 0, {}});
  b.pictures.resize(2);
  b.pictures[1].face = Face::B;
  return b;
}

Mark defect(double x0In, double y0In, double x1In, double y1In, MarkKind kind = MarkKind::knot) {
  Mark m;
  m.kind = kind;
  m.onA = rectangle({x0In * in, y0In * in, x1In * in, y1In * in});
  return m;
}

BoardGrade graded(const Board& board) {
  const auto grade = gradeBoard(board, {});
  if (!grade) FAIL(grade.error().message);
  return *grade;
}

int cuttingsAllowed(Grade grade, int sm) {
  return demands(grade, sm).front().cuttings;
}

}  // namespace

TEST_CASE("the worked example of the handbook: No. 1 Common, and not FAS") {
  // Wood Handbook, figure 6-1 (figure number from memory): a board 12 in × 12 ft, surface
  // measure 12. No. 1 Common allows 4 cuttings and needs 96 units; 3½ in × 4½ ft = 15¾, 8½ × 4½ =
  // 38¼, 4½ × 4½ = 20¼, 6 × 5⅔ = 34, together 108¼: it passes. FAS allows 3 and needs 120: it
  // fails.
  Board board = plank(12, 12);
  // The four cuttings as the clear wood of a map, defects round them. Two of them share their
  // length and touch, so that three cuttings may do the work of the text's four: the units are the
  // same.
  board.marks = {defect(54, 0, 64, 12), defect(64, 10.5, 144, 12), defect(118, 0, 144, 4.5),
                 defect(64, 4.5, 76, 10.5)};
  // Sound ones, so that the other face has sound wood behind its cuttings.
  for (Mark& m : board.marks) m.soundness = Soundness::sound;
  const BoardGrade grade = graded(board);
  CHECK(grade.surfaceMeasureFt2 == 12);
  CHECK(demands(Grade::common1, 12).front().units == 96);
  CHECK(cuttingsAllowed(Grade::common1, 12) == 4);
  CHECK(demands(Grade::fas, 12).front().units == 120);
  CHECK(cuttingsAllowed(Grade::fas, 12) == 3);
  const FaceGrade& face = grade.faces.at(0);
  CHECK(face.grade == Grade::common1);
  CHECK(face.units >= 96);
  CHECK(face.proven);
  CHECK(grade.poorFace == Face::A);
  CHECK(grade.faces.at(1).grade == Grade::fas);  // nothing shows on face B
  // All the clear wood there is, in four cuttings of the least sizes.
  std::vector<Polygon> defects;
  for (const Mark& m : board.marks) defects.push_back(std::get<Polygon>(*m.onA));
  const GradeMap map = gradeMap(board.outline, defects);
  const CuttingResult best = bestCuttings(map.clear, {{{24, 16}, {36, 12}}, 4, -1, 100000});
  CHECK(static_cast<double>(best.cells) / kCellsPerUnit == Approx(108.25));
  CHECK(best.bound == best.cells);
}

TEST_CASE("numbers of cuttings follow the published examples") {
  // portablesawmill.info, lumber grading: 6 in × 8 ft, surface measure 4: FAS 1 cutting, No. 1
  // Common 1; surface measure 8: FAS 2. hooddistribution.com and goodwoodcorp.com: surface measure
  // 5, No. 1 Common: 2 cuttings, 40 units.
  CHECK(cuttingsAllowed(Grade::fas, 4) == 1);
  CHECK(cuttingsAllowed(Grade::common1, 4) == 1);
  CHECK(cuttingsAllowed(Grade::fas, 8) == 2);
  CHECK(cuttingsAllowed(Grade::common1, 5) == 2);
  CHECK(demands(Grade::common1, 5).front().units == 40);
  CHECK(cuttingsAllowed(Grade::fas, 40) == 4);
  CHECK(cuttingsAllowed(Grade::common1, 40) == 5);
  CHECK(cuttingsAllowed(Grade::common2A, 40) == 7);
  // The extra cutting: FAS from 6 to 15 at 11 units a foot.
  CHECK(demands(Grade::fas, 5).size() == 1);
  CHECK(demands(Grade::fas, 6).at(1).units == 66);
  CHECK(demands(Grade::fas, 16).size() == 1);
}

TEST_CASE("a clear board is FAS if it is large enough") {
  CHECK(graded(plank(6, 8)).grade == Grade::fas);
  CHECK(graded(plank(8, 12)).grade == Grade::fas);
  CHECK(graded(plank(5, 8)).grade == Grade::selects);  // less than 6 in, at least 4 in × 6 ft
  CHECK(graded(plank(3.5, 8)).grade == Grade::common1);
  CHECK(graded(plank(8, 3)).grade == Grade::below);
}

TEST_CASE("the poor face decides, a good one makes FAS One Face") {
  Board board = plank(8, 10);
  // Face B: knots that leave No. 1 Common; sound ones, so that face A's cuttings are sound behind.
  for (const double x : {30.0, 75.0}) {
    Mark m = defect(x, 0, x + 4, 8);
    m.onB = m.onA;
    m.onA.reset();
    m.soundness = Soundness::sound;
    board.marks.push_back(m);
  }
  BoardGrade grade = graded(board);
  CHECK(grade.poorFace == Face::B);
  CHECK(grade.faces.at(1).grade == Grade::common1);
  CHECK(grade.grade == Grade::fasOneFace);
  // Loose, they spoil the back of face A's cuttings too: for FAS, not for FAS One Face, where each
  // face is graded by itself (NHLA 2019 ¶64, Rules Corner).
  for (Mark& m : board.marks) m.soundness = Soundness::loose;
  grade = graded(board);
  CHECK(grade.faces.at(0).grade != Grade::fas);
  CHECK(grade.grade == Grade::fasOneFace);
}

TEST_CASE("limits besides the cuttings hold FAS back") {
  const auto with = [](const Mark& m) {
    Board board = plank(10, 12);  // surface measure 10
    board.marks = {m};
    return graded(board).faces.at(0);
  };
  CHECK(with(defect(60, 0, 62, 1)).grade == Grade::fas);
  CHECK(with(defect(60, 0, 62, 1, MarkKind::sapwood)).grade == Grade::fas);
  CHECK(with(defect(60, 0, 72, 0.5, MarkKind::pith)).grade != Grade::fas);   // 12 in > 10
  CHECK(with(defect(60, 0, 68, 0.5, MarkKind::pith)).grade == Grade::fas);   // 8 in
  CHECK(with(defect(60, 0, 82, 0.2, MarkKind::split)).grade != Grade::fas);  // 22 in > 20
  CHECK(with(defect(0, 0, 80, 0.5, MarkKind::wane)).grade != Grade::fas);    // over half of an edge
  CHECK(with(defect(60, 0, 65, 4)).grade != Grade::fas);                     // 4.5 in > 10/3
  CHECK(with(defect(0, 0, 9, 9, MarkKind::stain)).grade != Grade::fas);      // the first foot
  const FaceGrade pith = with(defect(60, 0, 72, 0.5, MarkKind::pith));
  CHECK(pith.whyNotHigher.at(0).find("pith") != std::string::npos);
}

TEST_CASE("an unseen face is not graded, and a board without outline not at all") {
  Board board = plank(8, 12);
  board.pictures.resize(1);
  const BoardGrade grade = graded(board);
  CHECK_FALSE(grade.bothFacesSeen);
  CHECK(grade.faces.size() == 1);
  CHECK_FALSE(gradeBoard(Board{}, {}).ok());
}

TEST_CASE("the map never flatters: a cell touched by a defect or the border is not clear") {
  Board board = plank(8, 12);
  const GradeMap clear = gradeMap(board.outline, {});
  CHECK(clear.wood.columns == 144);
  CHECK(clear.wood.rows == 32);
  CHECK(std::count(clear.clear.clear.begin(), clear.clear.clear.end(), 1) == 144 * 32);
  const GradeMap spotted =
      gradeMap(board.outline, {rectangle({10.5 * in, 1.1 * in, 11.5 * in, 1.2 * in})});
  CHECK(std::count(spotted.clear.clear.begin(), spotted.clear.clear.end(), 1) == 144 * 32 - 2);
  Outline slanted;
  for (const Point p : Polygon{{0, 0}, {144 * in, 0}, {144 * in, 8 * in}, {0, 7.9 * in}})
    slanted.vertices.push_back({p, 0, {}});
  const GradeMap tapered = gradeMap(slanted, {});
  CHECK_FALSE(tapered.wood.at(0, 31));
  CHECK(tapered.wood.at(0, 30));
}

TEST_CASE("a board of thirty marks is graded") {
  std::mt19937 random(30);
  std::uniform_real_distribution<double> any(0, 1);
  for (int i = 0; i < 5; ++i) {
    Board board = plank(11, 12);
    for (int k = 0; k < 30; ++k) {
      const double x = any(random) * 140, y = any(random) * 10;
      board.marks.push_back(defect(x, y, x + 0.5 + any(random) * 2, y + 0.3 + any(random)));
    }
    const BoardGrade grade = graded(board);
    CHECK(grade.faces.size() == 2);
    // More steps can only prove more or grade higher.
    GradeOptions patient;
    patient.limitSteps = 1200;
    const BoardGrade longer = *gradeBoard(board, patient);
    CHECK(longer.grade <= grade.grade);
    if (grade.proven) CHECK(longer.grade == grade.grade);
  }
}
