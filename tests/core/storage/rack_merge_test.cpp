// SPDX-License-Identifier: GPL-3.0-or-later
// Two programs on one rack: both keep their changes.
#include "core/storage/rack_merge.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "../support/random_rack.h"
#include "../support/temporary_folder.h"
#include "core/storage/rack_files.h"

using namespace rackside;
using namespace rackside::tests;
using nlohmann::json;

namespace {

// A rack that is open here while `there` is what another program makes of it.
struct TwoPrograms {
  TemporaryFolder folder;
  Rack here;
  RackSnapshot snapshot;
  RackStamps stamps;

  explicit TwoPrograms(unsigned seed) {
    Rack rack = RandomRack(seed).rack(3, 3);
    rack.plan = RandomRack(seed + 1).plan(rack);
    REQUIRE(saveRack(rack, folder.path()).ok());
    here = loadRack(folder.path(), &snapshot).value();
    stamps = rackStamps(folder.path());
  }
  template <class Change>
  void there(Change change) {
    RackSnapshot its;
    Rack rack = loadRack(folder.path(), &its).value();
    change(rack);
    REQUIRE(saveRack(rack, folder.path(), &its).ok());
  }
  std::vector<std::string> takeIn() {
    const RackStamps now = rackStamps(folder.path());
    const ChangedFiles files = changedFiles(folder.path(), snapshot, stamps, now).value();
    stamps = now;
    TakenIn taken = rackside::takeIn(here, snapshot, files);
    if (taken.edit) REQUIRE(taken.edit->apply(here).ok());
    return taken.told;
  }
  Rack onDisk() const { return loadRack(folder.path()).value(); }
};

}  // namespace

TEST_CASE("changes to different things merge, ours and theirs", "[merge]") {
  const json base = json::parse(
      R"({"a": 1, "b": {"c": 1, "d": 1}, "l": [{"id": "x", "v": 1}, {"id": "y", "v": 1}]})");
  json ours = base, theirs = base;
  ours["a"] = 2;
  ours["b"]["c"] = 2;
  ours["l"][0]["v"] = 2;
  ours["l"].push_back({{"id", "z"}, {"v", 2}});
  theirs["b"]["d"] = 3;
  theirs["l"].erase(1);
  const json fresh = {{"id", "w"}, {"v", 3}};
  theirs["l"].insert(theirs["l"].begin(), fresh);
  theirs["new"] = 3;
  std::vector<std::string> conflicts;
  CHECK(merged(base, ours, theirs, conflicts) ==
        json::parse(R"({"a": 2, "b": {"c": 2, "d": 3}, "new": 3,
            "l": [{"id": "w", "v": 3}, {"id": "x", "v": 2}, {"id": "z", "v": 2}]})"));
  CHECK(conflicts.empty());
  theirs["a"] = 4;
  CHECK(merged(base, ours, theirs, conflicts)["a"] == 2);
  CHECK(conflicts == std::vector<std::string>{"/a"});
}

TEST_CASE("marks of both programs on one board are kept", "[merge]") {
  TwoPrograms two(21);
  RandomRack source(5);
  const Mark ours = source.mark(), theirs = source.mark();
  two.here.boards[0].marks.push_back(ours);
  two.there([&](Rack& r) { r.boards[0].marks.push_back(theirs); });
  CHECK(two.takeIn().empty());
  CHECK(two.here.boards[0].findMark(ours.id) != nullptr);
  CHECK(two.here.boards[0].findMark(theirs.id) != nullptr);
  REQUIRE(saveRack(two.here, two.folder.path(), &two.snapshot).ok());
  CHECK(two.onDisk().boards[0].findMark(ours.id) != nullptr);
  CHECK(two.takeIn().empty());
}

TEST_CASE("boards that came and went elsewhere come and go here", "[merge]") {
  TwoPrograms two(22);
  const Board fresh = RandomRack(99).board();
  const BoardId gone = two.here.boards[1].id, kept = two.here.boards[2].id;
  two.here.boards[2].note = "changed here";
  two.there([&](Rack& r) {
    r.boards.erase(r.boards.begin() + 1, r.boards.end());
    r.boards.push_back(fresh);
    r.shop.ripKerfMm = 2.5;
  });
  CHECK(two.takeIn().size() == 1);  // the board that was changed here stays, and is told
  CHECK(two.here.findBoard(fresh.id) != nullptr);
  CHECK(two.here.findBoard(gone) == nullptr);
  CHECK(two.here.findBoard(kept) != nullptr);
  CHECK(two.here.shop.ripKerfMm == 2.5);
  REQUIRE(saveRack(two.here, two.folder.path(), &two.snapshot).ok());
  CHECK(two.onDisk().boards.size() == 3);
}

TEST_CASE("ticks of both programs stand, but of two plans the one here is kept", "[merge]") {
  TwoPrograms two(23);
  for (Cut& c : two.here.plan->cuts) c.made = false;
  REQUIRE(saveRack(two.here, two.folder.path(), &two.snapshot).ok());
  two.here.plan->cuts[0].made = true;
  two.there([](Rack& r) { r.plan->cuts[1].made = true; });
  CHECK(two.takeIn().empty());
  CHECK(two.here.plan->cuts[0].made);
  CHECK(two.here.plan->cuts[1].made);

  TwoPrograms other(24);
  const std::string ours = other.here.plan->cuts[0].id.text;
  other.here.plan->cuts[0].made = !other.here.plan->cuts[0].made;
  other.there([](Rack& r) { r.plan = RandomRack(77).plan(r); });
  CHECK(other.takeIn().size() == 1);
  CHECK(other.here.plan->cuts[0].id.text == ours);
}

TEST_CASE("a file that is half written elsewhere waits until it is whole", "[merge]") {
  TwoPrograms two(25);
  const std::string place = boardPlace(two.here.boards[0].id);
  const std::string known = two.snapshot.bytes[place];
  std::ofstream(two.folder.path() / place) << "{";
  CHECK(two.takeIn().empty());
  CHECK(two.snapshot.bytes[place] == known);
}
