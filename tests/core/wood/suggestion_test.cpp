// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/suggestion.h"

#include <catch2/catch.hpp>

#include "core/document/edits.h"
#include "core/geometry/polygon.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

using namespace rackside;

namespace {

Mark knotAt(const char* id, double x, double semiMm = 10) {
  Mark m;
  m.id.text = id;
  m.kind = MarkKind::knot;
  m.onA = Ellipse{{x, 80}, semiMm, semiMm, 0};
  m.author = MarkAuthor::proposal;
  m.confirmed = false;
  m.confidence = 0.7;
  return m;
}

Mark lineFrom(const char* id, double x0, double x1, double y) {
  Mark m = knotAt(id, 0);
  m.kind = MarkKind::check;
  m.onA = Stroke{{{x0, y}, {x1, y}}, 0.5};
  return m;
}

Rack rackOfOne() {
  Rack rack;
  Board board;
  board.id.text = "b";
  board.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, 1000, 160}))
    board.outline.vertices.push_back({p, 0.1, EdgeState::sure});
  rack.boards.push_back(board);
  return rack;
}

const Board& only(const Rack& rack) {
  return rack.boards.front();
}

}  // namespace

TEST_CASE("two marks are one thing when they cover one place") {
  CHECK(sameThing(knotAt("a", 100), knotAt("b", 104)));
  CHECK_FALSE(sameThing(knotAt("a", 100), knotAt("b", 130)));
  // A pin knot inside a large stain is a thing of its own.
  Mark stain = knotAt("c", 100, 60);
  stain.kind = MarkKind::stain;
  CHECK_FALSE(sameThing(knotAt("a", 100, 4), stain));
  CHECK(sameThing(lineFrom("a", 0, 200, 80), lineFrom("b", 120, 220, 81)));
  CHECK_FALSE(sameThing(lineFrom("a", 0, 200, 80), lineFrom("b", 0, 200, 90)));
  CHECK_FALSE(sameThing(lineFrom("a", 90, 110, 80), knotAt("b", 100)));
  Mark far = knotAt("a", 100);
  far.onB = far.onA;
  far.onA.reset();
  CHECK_FALSE(sameThing(far, knotAt("b", 100)));
}

TEST_CASE("a suggestion counts for nothing until it is taken") {
  Rack rack = rackOfOne();
  History history;
  REQUIRE(history.perform(rack, suggestMarks({"b"}, MarkAuthor::proposal, {knotAt("k", 300)})));
  REQUIRE(only(rack).marks.size() == 1);
  CHECK_FALSE(lookedAt(only(rack), Face::B));
  CHECK(forbidden(only(rack), Face::A, {}, {}, 0).empty());
  REQUIRE(history.perform(rack, acceptMarks({"b"}, {{"k"}})));
  CHECK_FALSE(forbidden(only(rack), Face::A, {}, {}, 0).empty());
  CHECK(only(rack).marks[0].author == MarkAuthor::proposal);
  history.undo(rack);
  CHECK_FALSE(only(rack).marks[0].confirmed);
  CHECK(only(rack).marks[0].confidence == 0.7);
}

TEST_CASE("what was refused or is marked already does not come back") {
  Rack rack = rackOfOne();
  History history;
  const auto look = [&](std::vector<Mark> found) {
    REQUIRE(history.perform(rack, suggestMarks({"b"}, MarkAuthor::proposal, std::move(found))));
  };
  look({knotAt("k1", 300), knotAt("k2", 500), knotAt("k3", 700)});
  REQUIRE(history.perform(rack, refuseMarks({"b"}, {{"k1"}})));
  REQUIRE(history.perform(rack, acceptMarks({"b"}, {{"k2"}})));
  look({knotAt("n1", 303), knotAt("n2", 498), knotAt("n3", 702), knotAt("n4", 900)});
  std::vector<std::string> ids;
  for (const Mark& m : only(rack).marks) ids.push_back(m.id.text);
  CHECK(ids == std::vector<std::string>{"k2", "n3", "n4"});
  REQUIRE(only(rack).refused.size() == 1);
  history.undo(rack);  // the second look
  history.undo(rack);  // accepting
  history.undo(rack);  // refusing
  CHECK(only(rack).marks.size() == 3);
  CHECK(only(rack).refused.empty());
}

TEST_CASE("a look leaves other authors' suggestions alone") {
  Rack rack = rackOfOne();
  History history;
  REQUIRE(history.perform(rack, suggestMarks({"b"}, MarkAuthor::crayon, {knotAt("c", 300)})));
  REQUIRE(history.perform(rack, suggestMarks({"b"}, MarkAuthor::proposal, {knotAt("p", 600)})));
  REQUIRE(history.perform(rack, suggestMarks({"b"}, MarkAuthor::proposal, {})));
  REQUIRE(only(rack).marks.size() == 1);
  CHECK(only(rack).marks[0].author == MarkAuthor::crayon);
}

TEST_CASE("a mark that was taken cannot be refused") {
  Rack rack = rackOfOne();
  History history;
  REQUIRE(history.perform(rack, suggestMarks({"b"}, MarkAuthor::proposal, {knotAt("k", 300)})));
  REQUIRE(history.perform(rack, acceptMarks({"b"}, {{"k"}})));
  const auto refused = history.perform(rack, refuseMarks({"b"}, {{"k"}}));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().message.find("remove it instead") != std::string::npos);
  CHECK_FALSE(history.perform(rack, acceptMarks({"b"}, {{"gone"}})));
}
