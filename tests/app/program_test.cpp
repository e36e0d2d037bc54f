// SPDX-License-Identifier: GPL-3.0-or-later
// The program from outside: exit codes, machine output, and a disk that a failure leaves alone.
#include "tests/app/program.h"

#include <catch2/catch.hpp>

#include "core/storage/rack_folder.h"
#include "tests/app/bench_rack.h"

using namespace rackside;
using namespace rackside::tests;

namespace {

const std::string kGoodParts =
    "name,copies,length,width,thickness,species\n"
    "Rail,2,575,53,20,cherry\n"
    "Back slat,3,\"23 5/8 in\",2in,3/4 in,cherry\n";

// The bench rack on disk, without its plan and without marks that bar everything.
std::string rackOnDisk(const Folder& folder, bool marks) {
  Rack rack = benchRack();
  rack.plan.reset();
  if (!marks)
    for (Board& b : rack.boards) b.marks.clear();
  const Status saved = saveRack(rack, folder / "rack");
  INFO((saved ? std::string() : saved.error().message));
  REQUIRE(saved.ok());
  return (folder / "rack").string();
}

// Runs what must fail with exit 1, a message that holds `words`, and nothing changed.
void failsQuietly(const std::vector<std::string>& arguments, const std::string& rack,
                  const std::string& words) {
  INFO("arguments: " << arguments.front() << " " << (arguments.size() > 1 ? arguments[1] : ""));
  const auto before = contents(rack);
  const bool existed = std::filesystem::exists(rack);
  const Ran ran = runProgram(arguments);
  INFO("said: " << ran.err);
  CHECK(ran.code == 1);
  CHECK(ran.out.empty());
  CHECK(ran.err.find(words) != std::string::npos);
  CHECK(std::filesystem::exists(rack) == existed);
  CHECK(contents(rack) == before);
}

}  // namespace

TEST_CASE("every verb explains itself, and misuse is exit 2") {
  CHECK(runProgram({"--help"}).code == 0);
  for (const char* verb : {"card", "lens", "scan", "mark", "parts", "face", "rank", "plan", "cut",
                           "fill", "tally", "sheets"}) {
    INFO(verb);
    const Ran help = runProgram({verb, "--help"});
    CHECK(help.code == 0);
    CHECK(help.out.find("--") != std::string::npos);
  }
  CHECK(runProgram({}).code == 2);
  CHECK(runProgram({"carve"}).code == 2);
  CHECK(runProgram({"plan"}).code == 2);
  CHECK(runProgram({"scan", "x.jpg", "--rack", "/tmp/none", "--thickness", "thick"}).code == 2);
  CHECK(runProgram({"scan", "--rack", "/tmp/none"}).code == 2);
  CHECK(runProgram({"mark", "add", "7", "--rack", "r", "--kind", "dragon"}).code == 2);
}

TEST_CASE("a parts list goes in whole or not at all") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, true);
  const auto import = [&](const std::string& csv) {
    return std::vector<std::string>{"parts", "import", folder.file("parts.csv", csv), "--rack",
                                    rack};
  };
  failsQuietly(import("name,copies\nRail,2\n"), rack, "length");
  failsQuietly(import(kGoodParts + "Leg,four,400,40,40,ash\n"), rack, "4");
  failsQuietly(import("name,length\n\"Rail,575\n"), rack, "quote");
  failsQuietly({"parts", "import", (folder / "absent.csv").string(), "--rack", rack}, rack,
               "absent.csv");
  failsQuietly({"parts", "import", folder.file("parts.json", "{\"parts\": [}"), "--rack", rack},
               rack, "parts.json");

  const Ran done = runProgram(import(kGoodParts));
  CHECK(done.code == 0);
  const Ran list = runProgram({"parts", "list", "--rack", rack, "--json"});
  REQUIRE(list.json().is_object());
  REQUIRE(list.json()["parts"].size() == 2);
  CHECK(list.json()["parts"][1]["length_mm"].get<double>() == Approx(23.625 * 25.4));
  // Imported again, parts keep their ids.
  const auto id = list.json()["parts"][0]["id"];
  CHECK(runProgram(import(kGoodParts)).code == 0);
  CHECK(runProgram({"parts", "list", "--rack", rack, "--json"}).json()["parts"][0]["id"] == id);
}

TEST_CASE("marks are added, listed, removed and loaded") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  const Ran added =
      runProgram({"mark", "add", "7", "--rack", rack, "--json", "--kind", "knot", "--ellipse",
                  "500", "4in", "30", "20", "15", "--depth", "8mm", "--soundness", "loose"});
  INFO(added.err);
  REQUIRE(added.code == 0);
  const std::string id = added.json()["mark"]["id"];
  const Rack stored = loadRack(rack).value();
  const Board* board = stored.findBoardNamed("7");
  REQUIRE(board->marks.size() == 1);
  CHECK(std::get<Ellipse>(*board->marks[0].onA).centre.y == Approx(101.6));
  CHECK(std::get<Ellipse>(*board->marks[0].onA).semiX == Approx(15));
  CHECK(board->marks[0].depthMm == 8.0);
  CHECK(runProgram({"mark", "list", "7", "--rack", rack}).out.find(id) == 0);

  failsQuietly({"mark", "remove", "7", "mk-none", "--rack", rack}, rack, "mk-none");
  failsQuietly(
      {"mark", "add", "99", "--rack", rack, "--kind", "knot", "--ellipse", "1", "1", "2", "2"},
      rack, "No board");
  failsQuietly({"mark", "add", "7", "--rack", rack, "--kind", "knot"}, rack, "one shape");
  CHECK(runProgram({"mark", "remove", "7", id, "--rack", rack}).code == 0);
  CHECK(loadRack(rack).value().findBoardNamed("7")->marks.empty());
}

TEST_CASE("a file of marks is loaded whole or not at all") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  const auto load = [&](const std::string& text) {
    return std::vector<std::string>{"mark", "load", folder.file("marks.json", text), "--rack",
                                    rack};
  };
  const std::string mark =
      R"({"id": "mk-1", "kind": "check", "on_a": {"shape": "ellipse", "centre_mm": [400, 60],)"
      R"( "semi_x_mm": 20, "semi_y_mm": 3, "angle_rad": 0}})";
  const std::string head = R"({"format": "rackside-marks", "version": 1, "boards": )";
  failsQuietly(load("{"), rack, "not JSON");
  failsQuietly(load(R"({"format": "rackside-marks", "version": 9, "boards": []})"), rack,
               "version");
  failsQuietly(load(head + R"([{"tag": 99, "marks": []}]})"), rack, "No board");
  failsQuietly(load(head + R"([{"tag": 7, "marks": [)" + mark + R"(, {"kind": "dragon"}]}]})"),
               rack, "mark 2");
  const std::string good = head + R"([{"tag": 7, "marks": [)" + mark + "]}]}";
  CHECK(runProgram(load(good)).code == 0);
  CHECK(runProgram(load(good)).code == 0);  // twice is once
  CHECK(loadRack(rack).value().findBoardNamed("7")->marks.size() == 1);
}

TEST_CASE("plans to choose among are listed, and the one taken is stored") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  REQUIRE(runProgram({"parts", "import", folder.file("p.csv", kGoodParts), "--rack", rack}).code ==
          0);
  const auto ask = [&](const std::string& most, const std::string& take) {
    return runProgram({"plan", "--rack", rack, "--seconds", "1", "--json", "--alternatives", most,
                       "--take", take});
  };
  CHECK(ask("0", "1").code == 2);
  CHECK(ask("2", "3").code == 2);
  const Ran ran = ask("3", "1");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const nlohmann::json best = ran.json();
  REQUIRE(best["alternatives"].is_array());
  CHECK(best["alternatives"].size() <= 2);
  for (const nlohmann::json& other : best["alternatives"]) {
    CHECK(other["value"].get<double>() <= best["value"].get<double>() + 1e-6);
    CHECK(other["elsewhere_share"].get<double>() >= 0.29);
  }
}

TEST_CASE("one seed gives one plan, and its sheets are a PDF") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  REQUIRE(runProgram({"parts", "import", folder.file("p.csv", kGoodParts), "--rack", rack}).code ==
          0);
  const auto plan = [&] {
    const Ran ran = runProgram({"plan", "--rack", rack, "--seconds", "2", "--seed", "5", "--json"});
    INFO(ran.err);
    REQUIRE(ran.code == 0);
    nlohmann::json j = ran.json();
    REQUIRE(j.is_object());
    j.erase("seconds");  // of the clock, not of the plan
    return j;
  };
  const nlohmann::json first = plan();
  CHECK(first["placed"].size() + first["unplaced"].size() == 5);
  CHECK(first["placed"].size() > 0);
  CHECK(first["bound"].get<double>() >= first["value"].get<double>());
  CHECK(plan() == first);

  const std::string pdf = (folder / "pack.pdf").string();
  const Ran sheets =
      runProgram({"sheets", "--rack", rack, "--pdf", pdf, "--paper", "letter", "--units", "in",
                  "--json", "--svg", (folder / "v").string(), "--dxf", (folder / "v").string(),
                  "--csv", (folder / "t").string()});
  INFO(sheets.err);
  REQUIRE(sheets.code == 0);
  CHECK(sheets.err.empty());
  CHECK(sheets.json()["pages"].get<int>() >= 4);
  CHECK(contents(folder / "")["pack.pdf"].rfind("%PDF", 0) == 0);
  CHECK(contents(folder / "v").size() == 6);
  const auto tables = contents(folder / "t");
  CHECK(tables.size() == 8);
  CHECK(tables.at("pieces.csv").rfind("part,copy", 0) == 0);
}

TEST_CASE("planned once more with a pin that is obeyed, nothing is lost") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  REQUIRE(runProgram({"parts", "import", folder.file("p.csv", kGoodParts), "--rack", rack}).code ==
          0);
  const std::vector<std::string> plan{"plan", "--rack", rack, "--seconds", "1", "--json"};
  const Ran first = runProgram(plan);
  REQUIRE(first.code == 0);
  std::vector<std::string> pinned = plan;
  pinned.insert(pinned.end(), {"--pin", "Rail:2"});
  const Ran second = runProgram(pinned);
  INFO(second.err);
  REQUIRE(second.code == 0);
  CHECK(second.json()["value"] == first.json()["value"]);
  CHECK(second.json()["placed"] == first.json()["placed"]);
}

TEST_CASE("two parts of one name are told apart when one is pinned") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  REQUIRE(runProgram({"parts", "import",
                      folder.file("p.csv",
                                  "name,copies,length,width,thickness\n"
                                  "Rail,1,575,53,20\nRail,1,400,53,20\n"),
                      "--rack", rack})
              .code == 0);
  REQUIRE(runProgram({"plan", "--rack", rack, "--seconds", "1"}).code == 0);
  failsQuietly({"plan", "--rack", rack, "--pin", "Rail:1"}, rack, "say which");
  const PartId shorter = loadRack(rack).value().parts[1].id;
  const Ran ran =
      runProgram({"plan", "--rack", rack, "--seconds", "1", "--pin", shorter.text + ":1"});
  INFO(ran.err);
  CHECK(ran.code == 0);
}

TEST_CASE("filling is reckoned for the parts as they lie, or says what is missing") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  failsQuietly({"fill", "--rack", rack}, rack, "plan first");

  // A straight-walled pit 40 × 30 mm right through a part 20 mm thick holds 40 · 30 · 20 mm³.
  Rack filled = benchRack();
  for (Board& b : filled.boards) b.marks.clear();
  const Piece& piece = filled.plan->pieces.front();
  const Rect box = bounds(piece.outline);
  Mark pit;
  pit.id = {"mk-pit"};
  pit.kind = MarkKind::holeToFill;
  pit.through = true;
  pit.onA = rectangle({box.x0 + 20, box.y0 + 2, box.x0 + 60, box.y0 + 32});
  Board* board = filled.findBoard(piece.board);
  REQUIRE(board);
  board->marks = {pit};
  const std::string whole = (folder / "whole").string();
  REQUIRE(saveRack(filled, whole).ok());
  const Ran ran = runProgram({"fill", "--rack", whole, "--json"});
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  const nlohmann::json j = ran.json();
  REQUIRE(j["spots"].size() == 1);
  CHECK(j["spots"][0]["volume_ml"]["value"].get<double>() == Approx(24));
  CHECK(j["spots"][0]["needs_dam"] == true);
  REQUIRE(j["fillers"].size() == 1);
  CHECK(j["fillers"][0]["mix_ml"].get<double>() > 24);
}

TEST_CASE("a tally is taken from a rack or from a list") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, true);
  const Ran ran = runProgram({"tally", "--rack", rack, "--grade", "--json"});
  REQUIRE(ran.code == 0);
  CHECK(ran.json()["boards"].size() == 3);
  CHECK(ran.json()["boards"][1]["grade_estimate"]["grade"].is_string());
  // 6 in × 10 ft of 8/4 is 10 board feet (surface measure 5, goodwoodcorp.com, HardwoodGrading).
  const std::string list = folder.file(
      "list.csv", "name,species,pieces,length,width,thickness,price\na,ash,1,10 ft,6 in,2 in,3\n");
  const Ran listed = runProgram({"tally", "--from", list, "--json"});
  INFO(listed.err);
  REQUIRE(listed.code == 0);
  CHECK(listed.json()["total"]["board_feet"].get<double>() == Approx(10));
  CHECK(listed.json()["total"]["cost"].get<double>() == Approx(30));
  CHECK(runProgram({"tally", "--from", list, "--rack", rack}).code == 2);
  CHECK(runProgram({"tally"}).code == 2);
  failsQuietly({"tally", "--from", folder.file("bad.csv", "name,length\na,x\n")}, rack, "bad.csv");
}

TEST_CASE("planning without boards or parts says what to do") {
  const Folder folder;
  std::filesystem::create_directory(folder / "empty");
  const std::string empty = (folder / "empty").string();
  failsQuietly({"plan", "--rack", empty}, empty, "scan");
  failsQuietly({"tally", "--rack", empty}, empty, "scan");
  failsQuietly({"sheets", "--rack", empty, "--pdf", (folder / "x.pdf").string()}, empty, "nothing");
  failsQuietly({"plan", "--rack", (folder / "none").string()}, (folder / "none").string(), "none");
}

TEST_CASE("a file of a newer program is refused") {
  const Folder folder;
  const std::string rack = rackOnDisk(folder, false);
  const std::string parts = contents(rack)["parts.json"];
  nlohmann::json j = nlohmann::json::parse(parts);
  j["version"] = 99;
  folder.file("rack/parts.json", j.dump());
  failsQuietly({"parts", "list", "--rack", rack}, rack, "newer");
}

TEST_CASE("a photograph that cannot be measured leaves no board behind") {
  const Folder folder;
  const std::string rack = (folder / "rack").string();
  const auto scan = [&](const std::string& photo) {
    return std::vector<std::string>{"scan", photo, "--rack", rack, "--name", "x"};
  };
  failsQuietly(scan((folder / "absent.jpg").string()), rack, "absent.jpg");
  failsQuietly(scan(folder.file("text.jpg", "no picture at all")), rack, "text.jpg");
  failsQuietly(scan(folder.file("empty.jpg", "")), rack, "empty.jpg");
  failsQuietly({"scan", "--batch", (folder / "nowhere").string(), "--rack", rack}, rack, "nowhere");
}

TEST_CASE("cards are printed as asked") {
  const Folder folder;
  const std::string pdf = (folder / "cards.pdf").string();
  const Ran ran = runProgram({"card", "--pdf", pdf, "--count", "3", "--json"});
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.json()["files"][0] == pdf);
  CHECK(contents(folder / "")["cards.pdf"].rfind("%PDF", 0) == 0);
  CHECK(runProgram({"card", "--pdf", pdf, "--count", "0"}).code == 1);
  CHECK(runProgram({"card"}).code == 2);
  CHECK(runProgram({"card", "--tags", "1-4", "--count", "3", "--pdf", pdf}).code == 2);
}
