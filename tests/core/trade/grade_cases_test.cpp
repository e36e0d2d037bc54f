// SPDX-License-Identifier: GPL-3.0-or-later
// Boards graded by hand from the words of the rule, before the program was asked
// (graded_boards.json). Kiln-dried 4/4 unless said, inches along and across; a mark shows on face A
// unless said. [F] the rule's words were read in a published text (the sources stand in
// core/trade/grade_rules.h), [M] they are from memory. Those "by another hand" were graded by
// somebody who had not seen the program, from the rule alone.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/trade/nhla_grade.h"

using namespace rackside;
using nlohmann::json;

namespace {

constexpr double in = 25.4;

Mark markOf(const json& j) {
  Mark m;
  // Rot has no kind of its own; to the rule bark is as unsound.
  const std::string kind = j.at("kind") == "rot" ? "bark-pocket" : j.at("kind").get<std::string>();
  m.kind = markKindFromName(kind).value();
  const std::string soundness = j.value("soundness", "unknown");
  m.soundness = soundness == "sound"   ? Soundness::sound
                : soundness == "loose" ? Soundness::loose
                                       : Soundness::unknown;
  const auto& b = j.at("box");
  const auto at = [&b](size_t i) { return b.at(i).get<double>() * in; };
  const Polygon p = rectangle({at(0), at(1), at(2), at(3)});
  const std::string on = j.value("on", "a");
  if (on != "b") m.onA = p;
  if (on != "a") m.onB = p;
  if (j.contains("depthIn")) m.depthMm = j.at("depthIn").get<double>() * in;
  return m;
}

Board boardOf(const json& j) {
  Board b;
  b.name = j.at("what");
  b.species = j.at("species");
  b.thicknessMm = j.value("thicknessIn", 1.0) * in;
  const double l = j.at("lengthFt").get<double>() * 12 * in, left = j.at("widthIn");
  const double right = j.value("rightWidthIn", left);
  for (const Point p : Polygon{{0, 0}, {l, 0}, {l, right * in}, {0, left * in}})
    b.outline.vertices.push_back({p, 0, {}});
  b.pictures.resize(2);
  b.pictures[1].face = Face::B;
  b.bowMm = j.value("bowIn", 0.0) * in;
  b.cupMm = j.value("cupIn", 0.0) * in;
  b.twistMm = j.value("twistIn", 0.0) * in;
  b.airDried = j.value("airDried", false);
  for (const json& mark : j.value("marks", json::array())) b.marks.push_back(markOf(mark));
  return b;
}

Board plainBoard(const char* species, double widthIn) {
  return boardOf({{"what", "b"}, {"species", species}, {"widthIn", widthIn}, {"lengthFt", 12}});
}

void checkAll(const char* group) {
  std::ifstream file(RACKSIDE_SOURCE_DIR "/tests/core/trade/graded_boards.json");
  const json boards = json::parse(file).at(group);
  REQUIRE_FALSE(boards.empty());
  for (const json& j : boards) {
    const std::string what = j.at("what"), wanted = j.at("grade"), why = j.at("why");
    CAPTURE(what, why);
    const auto grade = gradeBoard(boardOf(j), {});
    if (!grade) FAIL(grade.error().message);
    if (wanted == "below FAS")
      CHECK(grade->grade > Grade::selects);
    else
      CHECK(std::string(name(grade->grade)) == wanted);
    CHECK(grade->proven);
  }
}

}  // namespace

// The board with a knot right across it is there twice: as the list had it, with a stain, and as a
// knot, whose own size paragraph 60 bars from FAS (3 x 7 in average 5, more than 7/3).
TEST_CASE("boards on which hand and program once differed") {
  checkAll("once_differed");
}

TEST_CASE("boards graded by hand") {
  checkAll("by_hand");
}

TEST_CASE("boards graded by another hand") {
  checkAll("by_another_hand");
}

TEST_CASE("what cannot be graded says so") {
  CHECK_FALSE(gradeBoard(plainBoard("white pine", 8), {}).ok());
  Board taped = plainBoard("oak", 8);
  taped.pictures.clear();
  const auto grade = gradeBoard(taped, {});
  REQUIRE_FALSE(grade.ok());
  CHECK(grade.error().message.find("without a photograph") != std::string::npos);
}

TEST_CASE("a grade does not depend on the machine") {
  // The same steps every time: two gradings of a hard board are one.
  Board board = plainBoard("oak", 11);
  for (int i = 0; i < 24; ++i) {
    const double x = 5.0 + (i * 37) % 130, y = 0.5 + (i * 13) % 9;
    board.marks.push_back(markOf({{"kind", "knot"}, {"box", {x, y, x + 1.5, y + 1}}}));
  }
  const BoardGrade first = *gradeBoard(board, {}), again = *gradeBoard(board, {});
  CHECK(first.grade == again.grade);
  CHECK(first.proven == again.proven);
  CHECK(first.faces[0].units == again.faces[0].units);
}
