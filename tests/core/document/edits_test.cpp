// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/edits.h"

#include <catch2/catch.hpp>

#include "../support/random_rack.h"
#include "core/storage/json_forms.h"
#include "core/wood/measure.h"

using namespace rackside;
using namespace rackside::tests;

namespace {

nlohmann::json state(const Rack& rack) {
  nlohmann::json j{{"parts", toJson(rack.parts, *rack.partsExtra)}, {"shop", toJson(rack.shop)}};
  for (const Board& board : rack.boards) j["boards"].push_back(toJson(board));
  if (rack.plan) j["plan"] = toJson(*rack.plan);
  return j;
}

const Board* anyBoard(const Rack& rack, RandomRack& source) {
  if (rack.boards.empty()) return nullptr;
  return &rack.boards[static_cast<size_t>(
      source.whole(0, static_cast<int>(rack.boards.size()) - 1))];
}

// Some of these must fail: ids that are gone, marks that do not hold.
std::unique_ptr<Edit> randomMarkEdit(const Board& board, RandomRack& source) {
  Mark mark = source.mark();
  if (source.maybe(0.1)) mark.confidence = 2;
  if (board.marks.empty() || source.maybe(0.3)) return addMark(board.id, mark);
  const MarkId there = board.marks.back().id;
  if (source.maybe(0.2)) return suggestMarks(board.id, MarkAuthor::proposal, {mark});
  if (source.maybe(0.2))
    return acceptMarks(board.id, {there, MarkId{source.maybe(0.1) ? "gone" : there.text}});
  if (source.maybe(0.2)) return refuseMarks(board.id, {there});
  if (source.maybe(0.2)) {
    Mark known = source.mark();
    known.id = there;
    return loadMarks(board.id, {mark, known});
  }
  if (source.maybe(0.3)) return removeMark(board.id, source.maybe(0.1) ? MarkId{"gone"} : there);
  mark.id = there;
  return changeMark(board.id, mark);
}

std::unique_ptr<Edit> randomEdit(const Rack& rack, RandomRack& source, int depth = 0) {
  const Board* board = anyBoard(rack, source);
  const int kind = source.whole(0, 9);
  if (!board || kind == 0) return addBoard(source.board());
  switch (kind) {
    case 1:
      return removeBoard(source.maybe(0.2) ? BoardId{"gone"} : board->id);
    case 2: {
      Board other = source.board();
      other.id = board->id;
      return changeBoard(other);
    }
    case 3:
      return changeOutline(board->id, source.maybe(0.1) ? Outline{} : source.outline());
    case 4:
      return changeParts({source.part(), source.part()});
    case 5: {
      Shop shop = source.shop();
      if (source.maybe(0.2)) shop.ripKerfMm = -1;
      return changeShop(shop);
    }
    case 6:
      return setPlan(source.maybe() ? std::optional<Plan>(source.plan(rack)) : std::nullopt);
    case 7:
      if (depth == 0) {
        std::vector<std::unique_ptr<Edit>> several;
        for (int i = source.whole(1, 4); i > 0; --i) several.push_back(randomEdit(rack, source, 1));
        return together("Several", std::move(several));
      }
      [[fallthrough]];
    default:
      return randomMarkEdit(*board, source);
  }
}

Board plainBoard() {
  RandomRack source(1);
  Board board = source.board();
  board.marks.clear();
  board.state = BoardState::onRack;
  return board;
}

}  // namespace

TEST_CASE("undoing everything gives the start back, redoing everything the end") {
  int failures = 0, successes = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    RandomRack source(seed);
    Rack rack = source.rack(2, 2);
    History history;
    std::vector<nlohmann::json> path{state(rack)};
    for (int step = 0; step < 40; ++step) {
      const nlohmann::json before = state(rack);
      // Steps of one gesture in a row may merge.
      const long long gesture = source.maybe(0.5) ? step / 4 : -1;
      const auto changes = history.perform(rack, randomEdit(rack, source), gesture);
      if (changes.ok()) {
        ++successes;
        CHECK_FALSE(changes->empty());
      } else {
        ++failures;
        CHECK(state(rack) == before);
      }
      if (source.maybe(0.2)) history.undo(rack);
      if (source.maybe(0.1)) history.redo(rack);
    }
    const nlohmann::json end = state(rack);
    int undone = 0;
    while (history.canUndo()) {
      CHECK_FALSE(history.undoTitle().empty());
      CHECK_FALSE(history.undo(rack).empty());
      ++undone;
    }
    CHECK(state(rack) == path.front());
    for (int i = 0; i < undone; ++i) CHECK_FALSE(history.redo(rack).empty());
    CHECK(state(rack) == end);
  }
  CHECK(failures > 50);  // the failing paths were walked too
  CHECK(successes > 1000);
}

TEST_CASE("a drag is one step back") {
  Rack rack;
  rack.boards = {plainBoard()};
  const BoardId id = rack.boards[0].id;
  Mark mark;
  mark.id.text = "m";
  mark.kind = MarkKind::knot;
  mark.onA = Ellipse{{100, 50}, 9, 9, 0};
  History history;
  REQUIRE(history.perform(rack, addMark(id, mark)).ok());
  const nlohmann::json placed = state(rack);
  for (int i = 1; i <= 20; ++i) {
    mark.onA = Ellipse{{100.0 + i, 50}, 9, 9, 0};
    REQUIRE(history.perform(rack, changeMark(id, mark), 7).ok());
  }
  const nlohmann::json dragged = state(rack);
  history.undo(rack);
  CHECK(state(rack) == placed);
  history.redo(rack);
  CHECK(state(rack) == dragged);
  history.undo(rack);
  CHECK(history.undoTitle() == "Add knot");
  history.undo(rack);
  CHECK_FALSE(history.canUndo());
  CHECK(rack.boards[0].marks.empty());
}

TEST_CASE("steps of different gestures, marks or kinds do not merge") {
  Rack rack;
  rack.boards = {plainBoard()};
  const BoardId id = rack.boards[0].id;
  Mark mark;
  mark.id.text = "m";
  mark.kind = MarkKind::stain;
  mark.onA = Ellipse{{100, 50}, 9, 9, 0};
  History history;
  REQUIRE(history.perform(rack, addMark(id, mark), 1).ok());
  REQUIRE(history.perform(rack, changeMark(id, mark), 1).ok());
  REQUIRE(history.perform(rack, changeMark(id, mark), 2).ok());
  REQUIRE(history.perform(rack, changeMark(id, mark)).ok());
  int steps = 0;
  for (; history.canUndo(); ++steps) history.undo(rack);
  CHECK(steps == 4);
}

TEST_CASE("a mark of live worms sets the board apart, and undo takes that back") {
  Rack rack;
  rack.boards = {plainBoard()};
  Mark mark;
  mark.id.text = "m";
  mark.kind = MarkKind::wormHoles;
  mark.live = true;
  mark.onA = Ellipse{{100, 50}, 9, 9, 0};
  History history;
  const auto changes = history.perform(rack, addMark(rack.boards[0].id, mark));
  REQUIRE(changes.ok());
  CHECK(rack.boards[0].state == BoardState::setAside);
  CHECK(changes->size() == 2);
  history.undo(rack);
  CHECK(rack.boards[0].state == BoardState::onRack);
}

TEST_CASE("the measured figures follow a changed outline, and a clockwise one is turned") {
  Rack rack;
  rack.boards = {plainBoard()};
  Outline outline;
  outline.vertices = {{{0, 0}, 0.1, EdgeState::drawn},
                      {{0, 150}, 0.2, EdgeState::sure},
                      {{1000, 160}, 0.3, EdgeState::unsure},
                      {{1000, 0}, 0.4, EdgeState::bridged}};
  History history;
  REQUIRE(history.perform(rack, changeOutline(rack.boards[0].id, outline)).ok());
  const Board& board = rack.boards[0];
  CHECK(board.lengthMm.value == Approx(1000));
  REQUIRE(board.widthsMm.size() == 10);
  CHECK(board.widthsMm[4].value == Approx(155));
  CHECK(signedArea(board.outline.polygon()) > 0);
  // The stretch from (0,0) to (0,150) was drawn; turned round it starts at (0,150).
  for (const OutlineVertex& v : board.outline.vertices)
    if (v.at == Point{0, 150}) CHECK(v.state == EdgeState::drawn);
  Outline crossed;
  crossed.vertices = {{{0, 0}, 0, {}}, {{10, 10}, 0, {}}, {{10, 0}, 0, {}}, {{0, 10}, 0, {}}};
  CHECK_FALSE(history.perform(rack, changeOutline(board.id, crossed)).ok());
}

TEST_CASE("several edits are one step, and fail as one") {
  Rack rack;
  rack.boards = {plainBoard()};
  const BoardId id = rack.boards[0].id;
  const nlohmann::json before = state(rack);
  const auto knot = [](const char* markId) {
    Mark m;
    m.id.text = markId;
    m.kind = MarkKind::knot;
    m.onA = Ellipse{{100, 50}, 9, 9, 0};
    return m;
  };
  History history;
  std::vector<std::unique_ptr<Edit>> bad;
  bad.push_back(addMark(id, knot("a")));
  bad.push_back(addMark(id, knot("a")));
  const auto refused = history.perform(rack, together("Take both", std::move(bad)));
  CHECK_FALSE(refused.ok());
  CHECK(state(rack) == before);
  CHECK_FALSE(history.canUndo());
  std::vector<std::unique_ptr<Edit>> good;
  good.push_back(addMark(id, knot("a")));
  good.push_back(addMark(id, knot("b")));
  const auto taken = history.perform(rack, together("Take both", std::move(good)));
  REQUIRE(taken.ok());
  CHECK(rack.boards[0].marks.size() == 2);
  CHECK(history.undoTitle() == "Take both");
  history.undo(rack);
  CHECK(state(rack) == before);
}

TEST_CASE("boards are found by name, tag or id") {
  Rack rack;
  Board a;
  a.id.text = "board-a";
  a.name = "Ash 1";
  a.tag = 17;
  rack.boards = {a};
  for (const char* wanted : {"Ash 1", "ash 1", "17", "board-a"})
    CHECK(rack.findBoardNamed(wanted) != nullptr);
  CHECK(rack.findBoardNamed("18") == nullptr);
}
