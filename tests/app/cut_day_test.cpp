// SPDX-License-Identifier: GPL-3.0-or-later
// Cut day from outside: a board cut down to its offcuts, a defect and a miscut on the way.
#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "core/geometry/polygon.h"
#include "core/storage/rack_folder.h"
#include "tests/app/bench_rack.h"
#include "tests/app/program.h"

using namespace rackside;
using namespace rackside::tests;

namespace {

const std::string kParts =
    "name,copies,length,width,thickness\n"
    "Rail,2,575,53,20\nSlat,3,600,51,19\n";

struct Job {
  Folder folder;
  std::string rack = (folder / "rack").string();

  Job() {
    Rack made = benchRack();
    made.plan.reset();
    for (Board& b : made.boards) b.marks.clear();
    REQUIRE(saveRack(made, rack).ok());
    REQUIRE(runProgram({"parts", "import", folder.file("p.csv", kParts), "--rack", rack}).code ==
            0);
    REQUIRE(runProgram({"plan", "--rack", rack, "--seconds", "1", "--json"}).code == 0);
  }

  Rack stored() const { return loadRack(rack).value(); }

  Ran cut(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), "cut");
    arguments.insert(arguments.end(), {"--rack", rack, "--json"});
    return runProgram(arguments);
  }

  void fails(const std::vector<std::string>& arguments, const std::string& words) const {
    const auto before = contents(rack);
    const Ran ran = cut(arguments);
    INFO("said: " << ran.err);
    CHECK(ran.code == 1);
    CHECK(ran.out.empty());
    CHECK(ran.err.find(words) != std::string::npos);
    CHECK(contents(rack) == before);
  }
};

// The board with most cuts, and its cuts' numbers.
const Board& busiest(const Rack& rack, std::vector<std::string>& numbers) {
  const Board* best = nullptr;
  for (const Board& board : rack.boards) {
    std::vector<std::string> here;
    for (const Cut& c : rack.plan->cuts)
      if (c.board == board.id) here.push_back(std::to_string(c.order));
    if (here.size() > numbers.size()) numbers = here, best = &board;
  }
  REQUIRE(best);
  return *best;
}

}  // namespace

TEST_CASE("cutting is ticked off in the order of the wood, and anything else is refused") {
  const Job job;
  const Rack rack = job.stored();
  std::vector<std::string> numbers;
  const std::string board = busiest(rack, numbers).name;
  const Ran list = job.cut({"list"});
  REQUIRE(list.code == 0);
  CHECK(list.json()["cuts"].size() == rack.plan->cuts.size());
  CHECK(list.json()["spares"].size() == rack.plan->pieces.size());  // all of them show
  for (const auto& c : list.json()["cuts"]) CHECK(c["for"]["shows"] == true);

  job.fails({"made", board, numbers.back()}, "tick that one first");
  job.fails({"made", board, "99"}, "numbered 1 to");
  job.fails({"back", board, "1"}, "not ticked");
  job.fails({"made", "nobody", "1"}, "No board");
  job.fails({"done", board}, "tick its cuts");
  job.fails({"miscut", board, "1"}, "Say where the saw went");
  job.fails({"miscut", board, "1", "--by", "9m"}, "does not meet");
  job.fails({"defect", board, "--kind", "knot"}, "one shape");
  CHECK(runProgram({"cut", "--rack", job.rack}).code == 2);
  CHECK(job.cut({"made", board, "one"}).code == 2);

  REQUIRE(job.cut({"made", board, "1"}).code == 0);
  job.fails({"made", board, "1"}, "ticked already");
  job.fails({"done", board}, "not made yet");
  CHECK(job.cut({"list", board}).json()["boards"][0]["made"] == 1);
  REQUIRE(job.cut({"back", board, "1"}).code == 0);
  CHECK(job.cut({"list", board}).json()["boards"][0]["made"] == 0);
}

TEST_CASE("a board that is cut up puts its offcuts back on the rack as boards") {
  const Job job;
  const Rack before = job.stored();
  std::vector<std::string> numbers;
  const Board& board = busiest(before, numbers);
  std::vector<std::string> tick{"made", board.name};
  tick.insert(tick.end(), numbers.begin(), numbers.end());
  const Ran ticked = job.cut(tick);
  INFO(ticked.err);
  REQUIRE(ticked.code == 0);
  CHECK(ticked.json()["freed"].size() >= 2);
  const Ran done = job.cut({"done", board.name});
  INFO(done.err);
  REQUIRE(done.code == 0);
  const Rack after = job.stored();
  REQUIRE(after.boards.size() == before.boards.size() + done.json()["offcuts"].size());
  CHECK(after.findBoard(board.id)->cutUp);
  double areaOfPieces = 0;
  for (const Board& b : after.boards) {
    if (!b.offcutOf) continue;
    CHECK(*b.offcutOf == board.id);
    CHECK(before.findBoard(b.id) == nullptr);
    CHECK(bounds(b.outline.polygon()).width() >= after.shop.usefulOffcutLengthMm);
    for (const Picture& p : b.pictures)
      CHECK(std::filesystem::exists(pictureFile(job.rack, b, p)) ==
            std::filesystem::exists(pictureFile(job.rack, board, board.pictures[0])));
    areaOfPieces += area({b.outline.polygon()});
  }
  for (const Blank& b : after.plan->blanks)
    if (b.board == board.id) areaOfPieces += b.roughLengthMm * b.roughWidthMm;
  CHECK(areaOfPieces < area({board.outline.polygon()}));
  job.fails({"done", board.name}, "cut up already");
  // The rack goes on: what was cut stays, and the offcuts can be planned on.
  const Ran plan = runProgram({"plan", "--rack", job.rack, "--seconds", "0.5", "--json"});
  INFO(plan.err);
  REQUIRE(plan.code == 0);
  CHECK(plan.json()["placed"].size() == before.plan->pieces.size());
  CHECK(runProgram({"tally", "--rack", job.rack, "--grade", "--json"}).json()["boards"].size() ==
        after.boards.size() - 1);
}

TEST_CASE("a defect and a miscut are noted, and the rest is planned round them") {
  const Job job;
  const Rack before = job.stored();
  std::vector<std::string> numbers;
  const Board& board = busiest(before, numbers);
  REQUIRE(job.cut({"made", board.name, "1", "2"}).code == 0);
  const Piece* hit = nullptr;
  for (const Piece& p : before.plan->pieces)
    if (p.board == board.id) hit = &p;
  REQUIRE(hit);
  const Rect box = bounds(hit->outline);
  const Ran found = job.cut({"defect", board.name, "--kind", "split", "--through", "--ellipse",
                             std::to_string(box.x0 + box.width() / 2),
                             std::to_string(box.y0 + box.height() / 2), "60", "4"});
  INFO(found.err);
  REQUIRE(found.code == 0);
  CHECK(found.json()["mark"].contains("on_a"));
  CHECK(found.json()["mark"].contains("on_b"));
  CHECK(found.json()["changes"].size() >= 1);
  const Rack after = job.stored();
  for (const Piece& p : after.plan->pieces)
    CHECK_FALSE((p.id == hit->id && p.outline == hit->outline));

  const Ran miscut = job.cut({"miscut", board.name, "2", "--by", "-12mm"});
  INFO(miscut.err);
  REQUIRE(miscut.code == 0);
  const Rack last = job.stored();
  for (const Cut& c : last.plan->cuts)
    if (c.board == board.id && c.planned)
      CHECK(std::abs(c.line.from.x - (c.planned->from.x - 12)) < 1e-6);
  std::set<std::string> cuts;
  for (const Cut& c : before.plan->cuts)
    if (c.board == board.id && c.order <= 2) cuts.insert(c.id.text);
  for (const Cut& c : last.plan->cuts) cuts.erase(c.id.text);
  CHECK(cuts.empty());  // what was made is still in the plan
}
