// SPDX-License-Identifier: GPL-3.0-or-later
// The reading half of rack_folder.h.
#include <algorithm>
#include <chrono>
#include <tuple>

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

// Reads `place`, hands its JSON to `take`, notes its bytes; notes what cannot be read. Nothing
// happens where there is no such file.
template <class Take>
void load(Reading& reading, const std::string& place, Take take) {
  const fs::path file = reading.folder / place;
  const auto read = [&]() -> Status {
    if (const Status inside = leadsInside(reading, file); !inside) return inside;
    Result<std::optional<std::string>> bytes = readFileIfThere(file);
    if (!bytes) return bytes.error();
    if (!*bytes) return success();
    const Result<json> document = parseJson(**bytes);
    if (!document) return Error{file.string() + ": " + document.error().message};
    if (const Status taken = take(*document); !taken)
      return Error{file.string() + ": " + taken.error().message};
    reading.opened.snapshot.bytes[place] = *std::move(bytes).value();
    return success();
  };
  if (const Status done = read(); !done)
    reading.opened.damaged.push_back({place, done.error().message});
}

// Turns a fallible reading into a step of load().
template <class T, class Keep>
auto into(Result<T> (*read)(const json&), Keep keep) {
  return [read, keep](const json& document) -> Status {
    Result<T> value = read(document);
    if (!value) return value.error();
    return keep(std::move(value).value());
  };
}

void loadBoard(Reading& reading, const std::string& name) {
  const std::string place = boardPlace({name});
  Rack& rack = reading.opened.rack;
  const auto keep = [&](Board board) -> Status {
    if (board.id.text != name)
      return Error{"it holds the board " + board.id.text +
                   ". A board's folder bears its id: give the folder that name, or take the copy "
                   "out of the rack."};
    rack.boards.push_back(std::move(board));
    return success();
  };
  const size_t damaged = reading.opened.damaged.size();
  load(reading, place, into<Board>(boardFromJson, keep));
  const bool read = reading.opened.snapshot.bytes.count(place) > 0;
  if (read || reading.opened.damaged.size() > damaged) return;
  const fs::path folder = reading.folder / "boards" / name;
  reading.opened.damaged.push_back(
      {place, folder.string() + " holds no " + kBoardFile +
                  ". Put it back from a copy, or take the folder out of the rack."});
}

Status loadBoards(Reading& reading) {
  const fs::path boards = reading.folder / "boards";
  std::vector<std::string> names;
  std::error_code error;
  fs::directory_iterator i(boards, error);
  if (error == std::errc::no_such_file_or_directory && !fs::is_symlink(boards)) return success();
  for (const fs::directory_iterator end; !error && i != end; i.increment(error)) {
    const std::string name = i->path().filename().string();
    std::error_code ignored;
    const bool plainFile = i->is_regular_file(ignored) && !i->is_symlink(ignored);
    if (name.front() != '.' && !plainFile) names.push_back(name);
  }
  if (error) return Error{"Cannot read " + boards.string() + ": " + error.message() + "."};
  std::sort(names.begin(), names.end());
  for (const std::string& name : names) loadBoard(reading, name);
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
  const auto keepParts = [&rack](std::vector<Part> parts) {
    rack.parts = std::move(parts);
    return success();
  };
  load(reading, kPartsFile, [&](const json& document) {
    const Status taken = into<std::vector<Part>>(partsFromJson, keepParts)(document);
    if (taken) rack.partsExtra = partsExtraFromJson(document);
    return taken;
  });
  load(reading, kShopFile, into<Shop>(shopFromJson, [&rack](Shop shop) {
         rack.shop = std::move(shop);
         return success();
       }));
  load(reading, kPlanFile, into<Plan>(planFromJson, [&rack](Plan plan) {
         rack.plan = std::move(plan);
         return success();
       }));
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
