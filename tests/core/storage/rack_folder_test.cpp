// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/rack_folder.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <thread>

#include "../support/random_rack.h"
#include "../support/temporary_folder.h"
#include "core/storage/atomic_file.h"
#include "core/storage/folder_lock.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_files.h"

using namespace rackside;
using namespace rackside::tests;
namespace fs = std::filesystem;

namespace {

// Every file below a folder with its bytes, the lock aside.
std::map<std::string, std::string> contents(const fs::path& folder) {
  std::map<std::string, std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file() && entry.path().filename() != ".rackside.lock")
      all[fs::relative(entry.path(), folder).string()] = readFile(entry.path()).value();
  return all;
}

void put(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

std::map<std::string, std::string> bytesOf(const Rack& rack) {
  const auto bytes = rackBytes(rack);
  REQUIRE(bytes.ok());
  return *bytes;
}

}  // namespace

TEST_CASE("a file is replaced whole, or left as it was") {
  const TemporaryFolder folder;
  const fs::path file = folder.path() / "a.json";
  REQUIRE(writeFileAtomically(file, "one").ok());
  ::chmod(file.c_str(), 0640);
  REQUIRE(writeFileAtomically(file, "two").ok());
  CHECK(readFile(file).value() == "two");
  struct stat kept {};
  REQUIRE(::stat(file.c_str(), &kept) == 0);
  CHECK((kept.st_mode & 0777) == 0640);

  fs::create_directory(folder.path() / "taken");
  CHECK_FALSE(writeFileAtomically(folder.path() / "taken", "x").ok());
  CHECK_FALSE(writeFileAtomically(folder.path() / "none" / "b", "x").ok());
  CHECK(contents(folder.path()).size() == 1);  // nothing is left lying about

  put(folder.path() / "target", "old");
  fs::create_symlink("target", folder.path() / "link");
  REQUIRE(writeFileAtomically(folder.path() / "link", "new").ok());
  CHECK(fs::is_symlink(folder.path() / "link"));
  CHECK(readFile(folder.path() / "target").value() == "new");
}

TEST_CASE("a file that already holds the bytes is not touched") {
  const TemporaryFolder folder;
  const fs::path file = folder.path() / "a";
  put(file, "same");
  const auto past = fs::file_time_type::clock::now() - std::chrono::hours(1);
  fs::last_write_time(file, past);
  const auto before = fs::last_write_time(file);
  REQUIRE(writeFileIfChanged(file, "same").ok());
  CHECK(fs::last_write_time(file) == before);
  REQUIRE(writeFileIfChanged(file, "other").ok());
  CHECK(fs::last_write_time(file) != before);
}

TEST_CASE("reading says what is wrong with a file") {
  const TemporaryFolder folder;
  CHECK_FALSE(readFile(folder.path() / "none").ok());
  CHECK_FALSE(readFile(folder.path()).ok());
  put(folder.path() / "empty", "");
  CHECK(readFile(folder.path() / "empty").value().empty());
}

TEST_CASE("a rack comes back from its folder") {
  for (unsigned seed = 0; seed < 10; ++seed) {
    const TemporaryFolder folder;
    const Rack rack = RandomRack(seed).rack(4, 5);
    REQUIRE(saveRack(rack, folder.path()).ok());
    const Result<Rack> back = loadRack(folder.path());
    REQUIRE(back.ok());
    CHECK(bytesOf(*back) == bytesOf(rack));
    CHECK(back->plan.has_value() == rack.plan.has_value());
  }
}

TEST_CASE("an empty folder is an empty rack and a missing one an error") {
  const TemporaryFolder folder;
  const Result<Rack> empty = loadRack(folder.path());
  REQUIRE(empty.ok());
  CHECK(empty->boards.empty());
  CHECK_FALSE(loadRack(folder.path() / "none").ok());
}

TEST_CASE("a broken file is named and nothing is changed") {
  const TemporaryFolder folder;
  const Rack rack = RandomRack(3).rack(2, 2);
  REQUIRE(saveRack(rack, folder.path()).ok());
  const fs::path file = boardFolder(folder.path(), rack.boards[0].id) / "board.json";
  put(file, "{ \"format\": ");
  const auto before = contents(folder.path());
  const Result<Rack> read = loadRack(folder.path());
  REQUIRE_FALSE(read.ok());
  CHECK(read.error().message.find(file.string()) != std::string::npos);
  CHECK(contents(folder.path()) == before);
}

TEST_CASE("a board that cannot be read is named, and the others are there") {
  const TemporaryFolder folder;
  const Rack rack = RandomRack(3).rack(3, 2);
  REQUIRE(saveRack(rack, folder.path()).ok());
  const fs::path home = boardFolder(folder.path(), rack.boards[0].id), file = home / "board.json";
  put(home / "face.jpg", "picture");
  const std::string good = readFile(file).value();
  const auto damages = [&](const char* words) {
    const Result<OpenedRack> opened = openRack(folder.path());
    REQUIRE(opened.ok());
    CHECK(opened->rack.boards.size() == 2);
    CHECK(opened->rack.parts.size() == 2);
    REQUIRE(opened->damaged.size() == 1);
    const DamagedFile& damaged = opened->damaged[0];
    CHECK(damaged.place == boardPlace(rack.boards[0].id));
    CHECK(damaged.message.find(words) != std::string::npos);
    CHECK_FALSE(loadRack(folder.path()).ok());
  };
  fs::remove(file);
  damages("holds no board.json");
  fs::create_symlink("nowhere", file);
  damages("leads nowhere");
  fs::remove(file);
  fs::create_directory(file);
  damages("not a file");
  fs::remove(file);
  const TemporaryFolder elsewhere;
  put(elsewhere.path() / "board.json", good);
  fs::create_symlink(elsewhere.path() / "board.json", file);
  damages("link out of the rack");
  fs::remove(file);
  for (const char* text : {"", "{", "[]", "{\"format\": 1e999}"}) {
    put(file, text);
    damages("board.json");
  }
  put(file, good);
  CHECK(loadRack(folder.path()).ok());
}

TEST_CASE("what could not be read is never written over") {
  const TemporaryFolder folder;
  RandomRack source(3);
  const Rack rack = source.rack(2, 2);
  REQUIRE(saveRack(rack, folder.path()).ok());
  const fs::path parts = folder.path() / "parts.json";
  put(parts, "{");
  OpenedRack opened = openRack(folder.path(), RackUse::change).value();
  opened.rack.boards[0].note = "new";
  REQUIRE(storeRack(opened, folder.path()).ok());  // boards alone
  CHECK(readFile(parts).value() == "{");
  opened.rack.parts = {source.part()};
  CHECK_FALSE(storeRack(opened, folder.path()).ok());
  CHECK(readFile(parts).value() == "{");
}

TEST_CASE("numbers beyond reason and brackets without end are refused by name") {
  const TemporaryFolder folder;
  const Rack rack = RandomRack(3).rack(1, 1);
  REQUIRE(saveRack(rack, folder.path()).ok());
  const fs::path file = boardFolder(folder.path(), rack.boards[0].id) / "board.json";
  const nlohmann::json good = nlohmann::json::parse(readFile(file).value());
  const auto refused = [&](const std::string& bytes, const char* words) {
    put(file, bytes);
    const OpenedRack opened = openRack(folder.path()).value();
    REQUIRE(opened.damaged.size() == 1);
    const std::string& message = opened.damaged[0].message;
    INFO(message);
    CHECK(message.find(file.string()) == 0);
    CHECK(message.find(words) != std::string::npos);
  };
  const auto with = [&](const char* place, const nlohmann::json& value) {
    nlohmann::json j = good;
    j[nlohmann::json::json_pointer(place)] = value;
    return j.dump();
  };
  refused(with("/outline/points_mm/0", {80000, 0}), "30 m");
  refused(with("/outline/points_mm/0", {1e300, 0}), "outline.points_mm");
  refused(with("/price_per_board_foot", -1e6), "price");
  refused(with("/thickness_mm", 1e9), "thickness");
  refused(with("/length/value_mm", -1), "length");
  std::string endless = good.dump();
  endless.insert(
      1, "\"of a later version\": " + std::string(200000, '[') + std::string(200000, ']') + ", ");
  refused(endless, "nests");
  std::string huge = good.dump();
  huge.insert(1, "\"bow_mm\": 1e999, ");
  refused(huge, "too large");
}

TEST_CASE("two boards of one name or tag are told on opening") {
  const TemporaryFolder folder;
  Rack rack = RandomRack(3).rack(3, 0);
  rack.boards[0].name = rack.boards[2].name = "twin";
  rack.boards[0].tag = rack.boards[1].tag = 7;
  rack.boards[1].name = "other", rack.boards[2].tag.reset();
  REQUIRE(saveRack(rack, folder.path()).ok());
  const OpenedRack opened = openRack(folder.path()).value();
  REQUIRE(opened.remarks.size() == 2);
  CHECK(opened.remarks[0].find("tag 7") != std::string::npos);
  CHECK(opened.remarks[1].find("\"twin\"") != std::string::npos);
}

TEST_CASE("a copied board folder is found out") {
  const TemporaryFolder folder;
  const Rack rack = RandomRack(3).rack(1, 0);
  REQUIRE(saveRack(rack, folder.path()).ok());
  fs::copy(boardFolder(folder.path(), rack.boards[0].id), folder.path() / "boards" / "copy");
  CHECK_FALSE(loadRack(folder.path()).ok());
}

TEST_CASE("a rack that could not be read back is not written") {
  const TemporaryFolder folder;
  Rack rack = RandomRack(4).rack(2, 2);
  REQUIRE(saveRack(rack, folder.path()).ok());
  const auto before = contents(folder.path());
  rack.boards[1].thicknessMm = NAN;
  rack.boards[0].name = "changed";
  const Status saved = saveRack(rack, folder.path());
  REQUIRE_FALSE(saved.ok());
  CHECK(contents(folder.path()) == before);
  rack.boards[1].thicknessMm = 27;
  rack.boards[1].name = "\xff";
  CHECK_FALSE(saveRack(rack, folder.path()).ok());
  CHECK(contents(folder.path()) == before);
}

TEST_CASE("two programs do not overwrite each other's changes") {
  const TemporaryFolder folder;
  const Rack rack = RandomRack(6).rack(2, 2);
  REQUIRE(saveRack(rack, folder.path()).ok());
  RackSnapshot hers, his;
  Rack herRack = loadRack(folder.path(), &hers).value();
  Rack hisRack = loadRack(folder.path(), &his).value();

  herRack.boards[0].name = "hers";
  REQUIRE(saveRack(herRack, folder.path(), &hers).ok());
  hisRack.boards[1].name = "his";
  REQUIRE(saveRack(hisRack, folder.path(), &his).ok());  // another board: both changes stand
  const Rack both = loadRack(folder.path()).value();
  CHECK(both.findBoard(herRack.boards[0].id)->name == "hers");
  CHECK(both.findBoard(hisRack.boards[1].id)->name == "his");

  hisRack.boards[0].name = "his too";
  hisRack.shop.ripKerfMm = 2;
  const auto before = contents(folder.path());
  const Status refused = saveRack(hisRack, folder.path(), &his);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.error().message.find("another program") != std::string::npos);
  CHECK(contents(folder.path()) == before);  // not even the shop was written
}

TEST_CASE("a board scanned by another program meanwhile is left alone") {
  const TemporaryFolder folder;
  RandomRack source(8);
  Rack rack = source.rack(1, 0);
  RackSnapshot snapshot;
  REQUIRE(saveRack(rack, folder.path(), &snapshot).ok());
  const Board scanned = source.board();
  REQUIRE(saveBoard(scanned, folder.path()).ok());
  rack.boards[0].note = "new";
  REQUIRE(saveRack(rack, folder.path(), &snapshot).ok());
  CHECK(loadRack(folder.path()).value().findBoard(scanned.id) != nullptr);
}

TEST_CASE("a removed board goes aside with its pictures and comes back with them") {
  const TemporaryFolder folder;
  Rack rack = RandomRack(9).rack(2, 0);
  RackSnapshot snapshot;
  REQUIRE(saveRack(rack, folder.path(), &snapshot).ok());
  const Board gone = rack.boards[0];
  put(boardFolder(folder.path(), gone.id) / "face.jpg", "picture");
  rack.boards.erase(rack.boards.begin());
  REQUIRE(saveRack(rack, folder.path(), &snapshot).ok());
  CHECK_FALSE(fs::exists(boardFolder(folder.path(), gone.id)));
  CHECK(loadRack(folder.path()).value().boards.size() == 1);
  rack.boards.push_back(gone);
  REQUIRE(saveRack(rack, folder.path(), &snapshot).ok());
  CHECK(readFile(boardFolder(folder.path(), gone.id) / "face.jpg").value() == "picture");
  CHECK(loadRack(folder.path()).value().boards.size() == 2);
}

TEST_CASE("a plan that is taken back leaves no file") {
  const TemporaryFolder folder;
  RandomRack source(2);
  Rack rack = source.rack(1, 1);
  rack.plan = source.plan(rack);
  REQUIRE(saveRack(rack, folder.path()).ok());
  CHECK(fs::exists(folder.path() / "plan.json"));
  REQUIRE(savePlan(std::nullopt, folder.path()).ok());
  CHECK_FALSE(fs::exists(folder.path() / "plan.json"));
}

TEST_CASE("a held lock makes the next one wait, then say who holds it") {
  using Kind = FolderLock::Kind;
  const TemporaryFolder folder;
  CHECK(FolderLock::acquire(folder.path(), Kind::read, 0.05).ok());
  CHECK(fs::is_empty(folder.path()));  // reading leaves nothing behind
  {
    const Result<FolderLock> first = FolderLock::acquire(folder.path());
    REQUIRE(first.ok());
    for (const Kind kind : {Kind::change, Kind::read}) {
      const Result<FolderLock> second = FolderLock::acquire(folder.path(), kind, 0.05);
      REQUIRE_FALSE(second.ok());
      CHECK(second.error().message.find("core_tests (process " + std::to_string(::getpid())) == 0);
    }
  }
  const Result<FolderLock> reader = FolderLock::acquire(folder.path(), Kind::read, 0.05);
  CHECK(reader.ok());
  CHECK(FolderLock::acquire(folder.path(), Kind::read, 0.05).ok());
  CHECK_FALSE(FolderLock::acquire(folder.path(), Kind::change, 0.05).ok());
}

TEST_CASE("the lock of a program that died holds nobody up") {
  const TemporaryFolder folder;
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    const Result<FolderLock> held = FolderLock::acquire(folder.path());
    ::raise(SIGKILL);
  }
  ::waitpid(child, nullptr, 0);
  CHECK(fs::exists(folder.path() / ".rackside.lock"));
  CHECK(FolderLock::acquire(folder.path(), FolderLock::Kind::change, 0.05).ok());
}

TEST_CASE("whoever holds the rack from reading on is not overtaken") {
  const TemporaryFolder folder;
  REQUIRE(saveRack(RandomRack(3).rack(1, 0), folder.path()).ok());
  const auto addMarks = [&](unsigned seed) {
    RandomRack source(seed);
    for (int i = 0; i < 25; ++i) {
      OpenedRack opened = openRack(folder.path(), RackUse::change).value();
      opened.rack.boards[0].marks.push_back(source.mark());
      if (!storeRack(opened, folder.path()).ok()) std::abort();
    }
  };
  const size_t before = loadRack(folder.path())->boards[0].marks.size();
  std::thread other(addMarks, 11);
  addMarks(12);
  other.join();
  CHECK(loadRack(folder.path())->boards[0].marks.size() == before + 50);
}

TEST_CASE("what a killed program left beside a file is cleared away") {
  const TemporaryFolder folder;
  const fs::path file = folder.path() / "pack.pdf";
  put(folder.path() / ".pack.pdf.999999999-abc.part", "half");  // beyond any process number
  const fs::path ours = folder.path() / (".pack.pdf." + std::to_string(::getpid()) + "-abc.part");
  put(ours, "being written");
  REQUIRE(writeFileAtomically(file, "whole").ok());
  CHECK(contents(folder.path()).size() == 2);
  CHECK(fs::exists(ours));
}

TEST_CASE("writers at the same time leave one whole file") {
  const TemporaryFolder folder;
  const fs::path file = folder.path() / "f";
  const std::string a(200000, 'a'), b(200000, 'b');
  const auto writeMany = [&file](const std::string& bytes) {
    for (int i = 0; i < 20; ++i)
      if (!writeFileAtomically(file, bytes).ok()) std::abort();
  };
  std::thread other(writeMany, a);
  writeMany(b);
  other.join();
  const std::string left = readFile(file).value();
  CHECK((left == a || left == b));
  CHECK(contents(folder.path()).size() == 1);
}
