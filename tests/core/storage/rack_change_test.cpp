// SPDX-License-Identifier: GPL-3.0-or-later
// A change that is cut off at any point leaves the rack as it was or as it was to be.
#include "core/storage/rack_change.h"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <fstream>

#include "../support/random_rack.h"
#include "../support/temporary_folder.h"
#include "core/storage/atomic_file.h"
#include "core/storage/rack_files.h"
#include "core/storage/rack_folder.h"

using namespace rackside;
using namespace rackside::tests;
namespace fs = std::filesystem;

namespace {

using Files = std::map<std::string, std::string>;

// Everything but the lock.
Files filesIn(const fs::path& folder) {
  Files all;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file() && entry.path().filename() != ".rackside.lock")
      all[fs::relative(entry.path(), folder).string()] = readFile(entry.path()).value();
  return all;
}

void copyFolder(const fs::path& from, const fs::path& to) {
  fs::remove_all(to);
  fs::copy(from, to, fs::copy_options::recursive);
}

// The folder that a killed program leaves behind once its change counts: list and bytes.
void leaveBehind(const fs::path& rack, const std::string& journal, const Files& aside) {
  fs::create_directories(rack / ".rackside.change");
  for (const auto& [name, bytes] : aside) std::ofstream(rack / ".rackside.change" / name) << bytes;
  if (!journal.empty()) std::ofstream(rack / ".rackside.change/journal.json") << journal;
}

}  // namespace

TEST_CASE("a change cut off before it counts is undone at the next open") {
  const TemporaryFolder folder;
  REQUIRE(saveRack(RandomRack(3).rack(2, 2), folder.path()).ok());
  const Files before = filesIn(folder.path());
  leaveBehind(folder.path(), "", {{"0", "half a bo"}, {"journal.part", "{ \"for"}});
  REQUIRE(loadRack(folder.path()).ok());
  CHECK(filesIn(folder.path()) == before);
}

TEST_CASE("a change cut off once it counts is finished at the next open") {
  const std::string journal =
      R"({"format": "rackside change", "version": 1, "move": [["boards/a", "removed/a"]],)"
      R"( "write": ["shop.json", "x/new"], "remove": ["gone"]})";
  const Files expected{{"removed/a/face.jpg", "picture"}, {"shop.json", "s"}, {"x/new", "n"}};
  // However much of it was carried out before.
  for (int done = 0; done <= 3; ++done) {
    const TemporaryFolder folder;
    const fs::path rack = folder.path();
    const fs::path home = rack / (done > 0 ? "removed/a" : "boards/a");
    fs::create_directories(home);
    std::ofstream(home / "face.jpg") << "picture";
    std::ofstream(rack / "gone") << "g";
    std::ofstream(rack / "shop.json") << (done > 1 ? "s" : "old");
    if (done > 2) fs::create_directories(rack / "x"), std::ofstream(rack / "x/new") << "n";
    Files aside{{"0", "s"}, {"1", "n"}};
    if (done > 1) aside.erase("0");
    if (done > 2) aside.erase("1");
    leaveBehind(rack, journal, aside);
    REQUIRE(settlePendingChange(rack).ok());
    CHECK(filesIn(rack) == expected);
    CHECK_FALSE(fs::exists(rack / ".rackside.change"));
  }
}

TEST_CASE("a list of changes that leads out of the rack is refused") {
  const TemporaryFolder folder;
  const fs::path rack = folder.path() / "rack";
  for (const char* place : {"../out", "/tmp/out", "a/../../out", "a\\\\b"}) {
    leaveBehind(
        rack,
        std::string(R"({"format": "rackside change", "version": 1, "move": [], "remove": [],)"
                    R"( "write": [")") +
            place + "\"]}",
        {{"0", "evil"}});
    CHECK_FALSE(loadRack(rack).ok());
    CHECK_FALSE(fs::exists(folder.path() / "out"));
    fs::remove_all(rack);
  }
}

TEST_CASE("a board that leaves and an offcut that comes are one change, whenever it is killed") {
  const TemporaryFolder folder;
  RandomRack source(5);
  const fs::path rack = folder.path() / "rack", kept = folder.path() / "kept";
  Rack old = source.rack(2, 1);
  REQUIRE(saveRack(old, kept).ok());
  std::ofstream(boardFolder(kept, old.boards[0].id) / "face.jpg") << "picture";
  const Board offcut = source.board();
  const auto cut = [&](RackSnapshot& snapshot, Rack& now) {
    now = loadRack(rack, &snapshot).value();
    now.boards[1].cutUp = true;
    now.boards.erase(now.boards.begin());
    now.boards.push_back(offcut);
    return saveRack(now, rack, &snapshot);
  };
  copyFolder(kept, rack);
  RackSnapshot snapshot;
  Rack now;
  const auto begun = std::chrono::steady_clock::now();
  REQUIRE(cut(snapshot, now).ok());
  const std::chrono::duration<double, std::micro> whole = std::chrono::steady_clock::now() - begun;
  const Files before = filesIn(kept), after = filesIn(rack);
  int olds = 0, news = 0;
  for (int turn = 0; turn < 60; ++turn) {
    copyFolder(kept, rack);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      RackSnapshot its;
      Rack changed;
      ::_exit(cut(its, changed).ok() ? 0 : 1);
    }
    ::usleep(static_cast<useconds_t>(turn * whole.count() / 30));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    REQUIRE(loadRack(rack).ok());
    const Files left = filesIn(rack);
    CHECK((left == before || left == after));
    olds += left == before ? 1 : 0;
    news += left == after ? 1 : 0;
  }
  CHECK(olds > 0);  // the kills met it at work
  CHECK(news > 0);
}
