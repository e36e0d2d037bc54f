// SPDX-License-Identifier: GPL-3.0-or-later
// The reading half of rack_folder.h.
#include <algorithm>
#include <chrono>
#include <tuple>

#include "core/base/each_in_parallel.h"
#include "core/storage/durable_file.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_files.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

// What a rack was read from, and what came of it.
struct Reading {
  fs::path folder, root;  // root: without links
  OpenedRack opened;
};

// A link may not lead out of the rack: what is there is not part of it.
Status leadsInside(const Reading& reading, const fs::path& file) {
  std::error_code error;
  const fs::path real = fs::weakly_canonical(file, error);
  const auto [end, stop] =
      std::mismatch(reading.root.begin(), reading.root.end(), real.begin(), real.end());
  if (error || end == reading.root.end()) return success();
  return Error{file.string() + " is a link out of the rack. Put the file itself in its place."};
}

// A file of the rack as it was read: no bytes where there is none.
template <class T>
struct FromFile {
  std::optional<std::string> bytes;
  std::optional<T> value;
};

template <class T, class From>
Result<FromFile<T>> readDocument(const Reading& reading, const std::string& place, From from) {
  const fs::path file = reading.folder / place;
  if (const Status inside = leadsInside(reading, file); !inside) return inside.error();
  Result<std::optional<std::string>> bytes = readFileIfThere(file);
  if (!bytes) return bytes.error();
  if (!*bytes) return FromFile<T>{};
  const auto at = [&](const Error& e) { return Error{file.string() + ": " + e.message}; };
  const Result<json> document = parseJson(**bytes);
  if (!document) return at(document.error());
  Result<T> value = from(*document);
  if (!value) return at(value.error());
  return FromFile<T>{*std::move(bytes).value(), std::move(value).value()};
}

// Hands on what was read and notes its bytes; notes what could not be read. Nothing happens where
// there is no such file.
template <class T, class Keep>
void take(Reading& reading, const std::string& place, Result<FromFile<T>> read, Keep keep) {
  if (!read) {
    reading.opened.damaged.push_back({place, read.error().message});
  } else if (read->value) {
    keep(*std::move(read.value().value));
    reading.opened.snapshot.bytes[place] = *std::move(read.value().bytes);
  }
}

using BoardFile = Result<FromFile<Board>>;

// On any thread.
BoardFile readBoard(const Reading& reading, const std::string& name) {
  const std::string place = boardPlace({name});
  BoardFile read = readDocument<Board>(reading, place, [&](const json& document) -> Result<Board> {
    Result<Board> board = boardFromJson(document);
    if (board && board->id.text != name)
      return Error{"it holds the board " + board->id.text +
                   ". A board's folder bears its id: give the folder that name, or take the copy "
                   "out of the rack."};
    return board;
  });
  if (!read || read->value) return read;
  const fs::path folder = reading.folder / "boards" / name;
  return Error{folder.string() + " holds no " + kBoardFile +
               ". Put it back from a copy, or take the folder out of the rack."};
}

Status loadBoards(Reading& reading) {
  const fs::path boards = reading.folder / "boards";
  std::vector<std::string> names;
  std::error_code error;
  fs::directory_iterator entry(boards, error);
  if (error == std::errc::no_such_file_or_directory && !fs::is_symlink(boards)) return success();
  for (const fs::directory_iterator end; !error && entry != end; entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    std::error_code ignored;
    const bool plainFile = entry->is_regular_file(ignored) && !entry->is_symlink(ignored);
    if (name.front() != '.' && !plainFile) names.push_back(name);
  }
  if (error) return Error{"Cannot read " + boards.string() + ": " + error.message() + "."};
  std::sort(names.begin(), names.end());
  std::vector<std::optional<BoardFile>> read(names.size());
  eachInParallel(int(names.size()), [&](int i, int) {
    read[size_t(i)].emplace(readBoard(reading, names[size_t(i)]));
  });
  for (size_t i = 0; i < names.size(); ++i)
    take(reading, boardPlace({names[i]}), *std::move(read[i]),
         [&](Board board) { reading.opened.rack.boards.push_back(std::move(board)); });
  const auto order = [](const Board& b) {
    return std::make_tuple(b.tag.value_or(1000000), std::cref(b.name), std::cref(b.id.text));
  };
  auto& all = reading.opened.rack.boards;
  std::sort(all.begin(), all.end(),
            [order](const Board& a, const Board& b) { return order(a) < order(b); });
  return success();
}

void loadLists(Reading& reading) {
  Rack& rack = reading.opened.rack;
  using PartsAndMore = std::pair<std::vector<Part>, nlohmann::json>;
  const auto parts = [](const json& document) -> Result<PartsAndMore> {
    Result<std::vector<Part>> read = partsFromJson(document);
    if (!read) return read.error();
    return PartsAndMore(std::move(read).value(), partsExtraFromJson(document));
  };
  take(reading, kPartsFile, readDocument<PartsAndMore>(reading, kPartsFile, parts),
       [&rack](PartsAndMore read) {
         rack.parts = std::move(read.first);
         rack.partsExtra = std::move(read.second);
       });
  take(reading, kShopFile, readDocument<Shop>(reading, kShopFile, shopFromJson),
       [&rack](Shop shop) { rack.shop = std::move(shop); });
  take(reading, kPlanFile, readDocument<Plan>(reading, kPlanFile, planFromJson),
       [&rack](Plan plan) { rack.plan = std::move(plan); });
}

// Two boards of one name or number: whoever types it gets the first.
std::vector<std::string> twins(const Rack& rack) {
  std::vector<std::string> remarks;
  std::map<std::string, int> names, tags;
  for (const Board& b : rack.boards) {
    if (!b.name.empty() && ++names[b.name] == 2)
      remarks.push_back("Two boards are called \"" + b.name +
                        "\": if they are one, remove the other; else give one a new name.");
    if (b.tag && ++tags[std::to_string(*b.tag)] == 2)
      remarks.push_back("Two boards carry tag " + std::to_string(*b.tag) +
                        ": if they are one, remove the other; else put a fresh tag on one.");
  }
  return remarks;
}

// Readers finish what was cut off only when it is there, for that takes a change.
Status settled(const fs::path& folder) {
  if (!changeIsPending(folder)) return success();
  const Result<FolderLock> lock = FolderLock::acquire(folder);
  if (!lock) return lock.error();
  return settlePendingChange(folder);
}

// Pictures of boards that were never saved.
void clearForgotten(const fs::path& folder) {
  std::error_code error;
  const auto dayAgo = fs::file_time_type::clock::now() - std::chrono::hours(24);
  for (fs::directory_iterator i(folder / ".rackside.new", error), end; !error && i != end;
       i.increment(error)) {
    std::error_code ignored;
    if (fs::last_write_time(i->path(), ignored) < dayAgo && !ignored)
      fs::remove_all(i->path(), ignored);
  }
}

Result<FolderLock> lockFor(const fs::path& folder, RackUse use) {
  if (use == RackUse::read) {
    if (const Status s = settled(folder); !s) return s.error();
    return FolderLock::acquire(folder, FolderLock::Kind::read);
  }
  if (const Status made = makeFolders(folder); !made) return made.error();
  Result<FolderLock> lock = FolderLock::acquire(folder);
  if (!lock) return lock;
  if (const Status s = settlePendingChange(folder); !s) return s.error();
  clearForgotten(folder);
  return lock;
}

}  // namespace

Result<OpenedRack> openRack(const fs::path& folder, RackUse use) {
  std::error_code error;
  if (use == RackUse::read && !fs::is_directory(folder, error))
    return Error{"There is no folder " + folder.string() + ". Check its name, or make it first."};
  Result<FolderLock> lock = lockFor(folder, use);
  if (!lock) return lock.error();
  Reading reading{folder, fs::weakly_canonical(folder, error), {}};
  if (const Status s = loadBoards(reading); !s) return s.error();
  loadLists(reading);
  reading.opened.remarks = twins(reading.opened.rack);
  if (use == RackUse::change)
    reading.opened.lock = std::make_shared<const FolderLock>(std::move(lock).value());
  return std::move(reading.opened);
}

Result<Rack> loadRack(const fs::path& folder, RackSnapshot* snapshot) {
  Result<OpenedRack> opened = openRack(folder);
  if (!opened) return opened.error();
  if (!opened->damaged.empty()) return Error{opened->damaged[0].message};
  if (snapshot) *snapshot = std::move(opened.value().snapshot);
  return std::move(opened.value().rack);
}

}  // namespace rackside
