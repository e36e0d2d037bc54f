// SPDX-License-Identifier: GPL-3.0-or-later
// What must not be lost or let in, from outside: kills, two programs at once, stale plans, damaged
// files, full disks, numbers beyond reason.
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <thread>

#include "core/storage/rack_folder.h"
#include "tests/app/bench_rack.h"
#include "tests/app/program.h"

using namespace rackside;
using namespace rackside::tests;
namespace fs = std::filesystem;

namespace {

const std::string kParts =
    "name,copies,length,width,thickness\n"
    "Rail,2,575,53,20\nSlat,3,600,51,19\n";

// A planned rack of three boards without marks.
struct Job {
  Folder folder;
  std::string rack = (folder / "rack").string();

  explicit Job(bool planned = true) {
    Rack made = benchRack();
    made.plan.reset();
    for (Board& b : made.boards) b.marks.clear();
    REQUIRE(saveRack(made, rack).ok());
    if (!planned) return;
    REQUIRE(run({"parts", "import", folder.file("p.csv", kParts)}).code == 0);
    REQUIRE(run({"plan", "--seconds", "1", "--json"}).code == 0);
  }
  Ran run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.end(), {"--rack", rack});
    return runProgram(arguments);
  }
  Rack stored() const { return loadRack(rack).value(); }
  // A board with something planned on it.
  Board planned() const {
    const Rack now = stored();
    REQUIRE(!now.plan->pieces.empty());
    return *now.findBoard(now.plan->pieces.front().board);
  }
  // A loose knot in the middle of a planned piece.
  std::vector<std::string> knotOnAPiece() const {
    const Rack now = stored();
    const Piece& piece = now.plan->pieces.front();
    const Rect box = bounds(piece.outline);
    return {"mark",
            "add",
            now.findBoard(piece.board)->name,
            "--kind",
            "knot",
            "--soundness",
            "loose",
            "--face",
            "both",
            "--ellipse",
            std::to_string((box.x0 + box.x1) / 2),
            std::to_string((box.y0 + box.y1) / 2),
            "30",
            "20"};
  }
  Ran refused(const std::vector<std::string>& arguments, const std::string& words) const {
    const auto before = contents(rack);
    Ran ran = run(arguments);
    INFO("said: " << ran.err);
    CHECK(ran.code == 1);
    CHECK(ran.err.find(words) != std::string::npos);
    CHECK(contents(rack) == before);
    return ran;
  }
};

// Starts the program and kills it after a while, unless it ended before.
void runAndKill(const std::vector<std::string>& arguments, std::chrono::microseconds after) {
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    std::vector<char*> argv{const_cast<char*>(RACKSIDE_PROGRAM)};
    for (const std::string& a : arguments) argv.push_back(const_cast<char*>(a.c_str()));
    argv.push_back(nullptr);
    (void)std::freopen("/dev/null", "w", stdout);
    (void)std::freopen("/dev/null", "w", stderr);
    ::execv(RACKSIDE_PROGRAM, argv.data());
    ::_exit(127);
  }
  std::this_thread::sleep_for(after);
  ::kill(child, SIGKILL);
  ::waitpid(child, nullptr, 0);
}

}  // namespace

TEST_CASE("two programs that mark one board at once are both heard", "[safety]") {
  const Job job(false);
  const auto addMarks = [&](const char* x) {
    for (int i = 0; i < 15; ++i)
      if (job.run({"mark", "add", "7", "--kind", "stain", "--ellipse", x, "50", "4", "4"}).code !=
          0)
        std::abort();
  };
  std::thread other(addMarks, "300");
  addMarks("600");
  other.join();
  CHECK(job.stored().findBoardNamed("7")->marks.size() == 30);
}

TEST_CASE("cut done that is killed leaves the board whole or its offcuts on the rack", "[safety]") {
  const Job job;
  const Board board = job.planned();
  std::vector<std::string> made{"cut", "made", board.name};
  for (const Cut& c : job.stored().plan->cuts)
    if (c.board == board.id) made.push_back(std::to_string(c.order));
  REQUIRE(job.run(made).code == 0);
  const Folder work;
  const std::string rack = (work / "rack").string();
  const auto fresh = [&] {
    fs::remove_all(rack);
    fs::copy(job.rack, rack, fs::copy_options::recursive);
  };
  fresh();
  const std::vector<std::string> done{"cut", "done", board.name, "--rack", rack};
  const auto begun = std::chrono::steady_clock::now();
  REQUIRE(runProgram(done).code == 0);
  const auto whole = std::chrono::duration_cast<std::chrono::microseconds>(
      std::chrono::steady_clock::now() - begun);
  const size_t before = job.stored().boards.size(), after = loadRack(rack)->boards.size();
  REQUIRE(after > before);
  for (int turn = 0; turn < 12; ++turn) {
    fresh();
    runAndKill(done, whole * turn / 10);
    const Result<Rack> left = loadRack(rack);
    REQUIRE(left.ok());
    const bool cutUp = left->findBoard(board.id)->cutUp;
    CHECK(left->boards.size() == (cutUp ? after : before));
    for (const auto& [file, bytes] : contents(rack)) CHECK(file.find(".part") == std::string::npos);
    CHECK_FALSE(fs::exists(rack + "/.rackside.change"));
  }
}

TEST_CASE("a mark over a planned piece stops sheets, cut list and cut made", "[safety]") {
  const Job job;
  const std::string pdf = (job.folder / "pack.pdf").string(), board = job.planned().name;
  REQUIRE(job.run(job.knotOnAPiece()).code == 0);
  job.refused({"sheets", "--pdf", pdf}, "no longer holds");
  CHECK_FALSE(fs::exists(pdf));
  job.refused({"cut", "list"}, "no longer holds");
  job.refused({"cut", "list", board}, "no longer holds");
  job.refused({"cut", "made", board, "1"}, "no longer holds");
  REQUIRE(job.run({"plan", "--seconds", "1"}).code == 0);
  CHECK(job.run({"cut", "list"}).code == 0);
}

TEST_CASE("parts that changed size stop the old plan", "[safety]") {
  const Job job;
  REQUIRE(job.run({"parts", "import",
                   job.folder.file("q.csv",
                                   "name,copies,length,width,thickness\n"
                                   "Rail,2,560,53,20\nSlat,3,640,51,19\n")})
              .code == 0);
  job.refused({"sheets", "--csv", (job.folder / "t").string()}, "no longer holds");
  job.refused({"cut", "list"}, "no longer holds");
}

TEST_CASE("what leaves the plan standing is told beside it", "[safety]") {
  const Job job;
  REQUIRE(job.run({"parts", "import",
                   job.folder.file("q.csv",
                                   "name,copies,length,width,thickness\n"
                                   "Rail,4,575,53,20\nSlat,3,600,51,19\n")})
              .code == 0);
  const Ran list = job.run({"cut", "list"});
  CHECK(list.code == 0);
  CHECK(list.err.find("the parts list was changed") != std::string::npos);
}

TEST_CASE("a damaged board is named, left out, and never planned away", "[safety]") {
  const Job job;
  const Board board = job.planned();
  const fs::path file = boardFolder(job.rack, board.id) / "board.json";
  fs::rename(file, job.folder / "kept.json");
  fs::create_symlink("nowhere", file);
  const Ran tally = job.run({"tally", "--json"});
  CHECK(tally.code == 0);
  CHECK(tally.json()["boards"].size() == 2);
  CHECK(tally.err.find(board.id.text) != std::string::npos);
  job.refused({"plan", "--seconds", "1"}, "leads nowhere");
  job.refused({"sheets", "--csv", (job.folder / "t").string()}, "not on the rack");
  fs::remove(file);
  job.refused({"plan", "--seconds", "1"}, "no board.json");
  fs::rename(job.folder / "kept.json", file);
  CHECK(job.run({"cut", "list"}).code == 0);
}

TEST_CASE("check names what is damaged and mends it", "[safety]") {
  const Job job;
  CHECK(job.run({"check"}).code == 0);
  REQUIRE(job.run({"parts", "import",
                   job.folder.file("q.csv",
                                   "name,copies,length,width,thickness\n"
                                   "Rail,2,575,53,20\nSlat,2,600,51,19\n")})
              .code == 0);
  const Board board = job.planned();
  const auto put = [&](const std::string& place) { job.folder.file("rack/" + place, "{"); };
  put("parts.json");
  put("boards/" + board.id.text + "/board.json");
  const Ran named = job.run({"check"});
  CHECK(named.code == 1);
  CHECK(named.out.find("parts.json") != std::string::npos);
  CHECK(named.out.find(board.id.text) != std::string::npos);
  CHECK(job.run({"check", "--mend"}).code == 1);  // something was damaged, and is told once more
  const Rack now = job.stored();
  CHECK(now.boards.size() == 2);
  REQUIRE(now.parts.size() == 2);
  CHECK(now.parts[1].copies == 3);  // the list before the last import
  CHECK(contents(job.rack).count("set-aside/boards/" + board.id.text + "/board.json") == 1);
  CHECK(contents(job.rack).count("set-aside/parts.json") == 1);
}

TEST_CASE("numbers beyond reason stay out of a rack", "[safety]") {
  const Job job(false);
  const auto load = [&](const std::string& centre) {
    return std::vector<std::string>{
        "mark", "load",
        job.folder.file("m.json",
                        R"({"format": "rackside-marks", "version": 1, "boards": [{"tag": 7,)"
                        R"( "marks": [{"kind": "check", "on_a": {"shape": "ellipse",)"
                        R"( "semi_x_mm": 9, "semi_y_mm": 9, "centre_mm": )" +
                            centre + "}}]}]}")};
  };
  job.refused(load("[1e300, 5]"), "mark 1");
  job.refused(load("[1e999, 5]"), "too large");
  job.refused(load("[40000, 5]"), "30 m");
  job.refused(load("[9000, 5]"), "off board");
  job.refused(load(std::string(200000, '[') + std::string(200000, ']')), "nests");
  CHECK(job.run(load("[100, 50]")).code == 0);
  job.refused({"mark", "add", "7", "--kind", "stain", "--ellipse", "100", "900", "4", "4"},
              "off board");
  job.refused({"parts", "import",
               job.folder.file("p.csv", "name,copies,length,width,thickness\nx,2,80 m,50,20\n")},
              "30 m");
  std::string many = "name,copies,length,width,thickness\n";
  for (int i = 0; i < 20000; ++i) many += "x,1,600,50,20\n";
  job.refused({"parts", "import", job.folder.file("many.csv", many)}, "Split the list");
}

TEST_CASE("an interrupted plan keeps the best one found", "[safety]") {
  const Job job;
  fs::remove(fs::path(job.rack) / "plan.json");
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    (void)std::freopen("/dev/null", "w", stdout);
    ::execl(RACKSIDE_PROGRAM, RACKSIDE_PROGRAM, "plan", "--rack", job.rack.c_str(), "--seconds",
            "60", nullptr);
    ::_exit(127);
  }
  std::this_thread::sleep_for(std::chrono::seconds(4));
  ::kill(child, SIGINT);
  int status = 0;
  ::waitpid(child, &status, 0);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  CHECK_FALSE(job.stored().plan->pieces.empty());
}

TEST_CASE("a disk that is full is told, and what was there stays", "[safety]") {
  const Job job;
  CHECK(runProgram({"card", "--pdf", "/dev/full"}).code == 1);
  CHECK(job.run({"sheets", "--pdf", "/dev/full"}).code == 1);
  CHECK(fs::is_character_file("/dev/full"));
  const std::string line = std::string(RACKSIDE_PROGRAM) + " tally --json --rack " + job.rack +
                           " > /dev/full 2> /dev/null";
  CHECK(WEXITSTATUS(std::system(line.c_str())) == 1);
}

TEST_CASE("small slips are named", "[safety]") {
  const Job job;
  const Ran bogus = runProgram({"bogus"});
  CHECK(bogus.code == 2);
  CHECK(bogus.err.find("\"bogus\"") != std::string::npos);
  const std::string missing = (job.folder / "none/pack.pdf").string();
  job.refused({"sheets", "--pdf", missing}, "no folder");
  CHECK_FALSE(fs::exists(job.folder / "none"));
  const std::string latin1 =
      job.folder.file("l.csv", "name,copies,length,width,thickness\nT\xfcr,1,600,50,20\n");
  CHECK(runProgram({"parts", "check", latin1}).err.find("UTF-8") != std::string::npos);
  job.refused({"parts", "import", latin1}, "UTF-8");
  const std::string bare = job.folder.file(
      "bare.json", R"([{"name": "Rail", "length_mm": 600, "width_mm": 50, "thickness_mm": 20}])");
  CHECK(runProgram({"parts", "check", bare}).code == 0);
  CHECK(job.run({"parts", "import", bare}).code == 0);
  CHECK(runProgram({"scan", "x.jpg", "--rack", "r", "--card-scale", "99,8 of"}).code == 2);
}

TEST_CASE("a comma serves as the decimal point of a price", "[safety]") {
  const Folder folder;
  const std::string rack = (folder / "rack").string();
  REQUIRE(runProgram({"board", "add", "9", "--length", "2000mm", "--width", "200mm", "--thickness",
                      "27mm", "--species", "cherry", "--price", "4,50", "--rack", rack})
              .code == 0);
  CHECK(loadRack(rack)->boards.front().pricePerBoardFoot == 4.5);
  const std::string list = folder.file(
      "l.csv",
      "name;species;pieces;length;width;thickness;price\nA;oak;1;2000mm;200mm;27mm;7,25\n");
  const Ran tally = runProgram({"tally", "--from", list, "--json"});
  INFO(tally.err);
  REQUIRE(tally.code == 0);
  const auto line = tally.json()["boards"][0];
  CHECK(line["cost"].get<double>() == Approx(7.25 * line["board_feet"].get<double>()).margin(0.02));
}
