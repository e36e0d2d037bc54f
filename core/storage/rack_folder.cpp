// SPDX-License-Identifier: GPL-3.0-or-later
// The writing half of rack_folder.h.
#include "core/storage/rack_folder.h"

#include "core/storage/atomic_file.h"
#include "core/storage/folder_lock.h"
#include "core/storage/rack_files.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;
using Files = std::map<std::string, std::string>;

Status makeFolder(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (!error) return success();
  return Error{"Cannot make the folder " + folder.string() + ": " + error.message() + "."};
}

Status writeDocument(const fs::path& folder, const std::string& place, std::string_view bytes) {
  const fs::path file = folder / place;
  if (const Status made = makeFolder(file.parent_path()); !made) return made;
  return writeFileIfChanged(file, bytes);
}

// The bytes on disk now; empty when there is no such file.
Result<std::optional<std::string>> bytesNow(const fs::path& file) {
  std::error_code error;
  if (!fs::exists(file, error)) return std::optional<std::string>();
  Result<std::string> bytes = readFile(file);
  if (!bytes) return bytes.error();
  return std::optional<std::string>(std::move(bytes).value());
}

// What a save is about to do, worked out before anything is touched.
struct SavePlan {
  std::vector<std::string> write;
  std::vector<std::string> remove;
};

// `wanted` is empty for a file that is to go.
Status refuseWhenChanged(const fs::path& file, const std::optional<std::string>& known,
                         const std::optional<std::string>& wanted) {
  const Result<std::optional<std::string>> now = bytesNow(file);
  if (!now) return now.error();
  if (*now == known || *now == wanted) return success();
  return Error{file.string() +
               " was changed by another program since it was opened here. Nothing was saved. Open "
               "the rack again and repeat the change, or save to another folder."};
}

Result<SavePlan> whatToSave(const fs::path& folder, const Files& wanted,
                            const RackSnapshot& snapshot) {
  SavePlan plan;
  const auto consider = [&](const std::string& place, std::optional<std::string> bytes,
                            std::vector<std::string>& list) -> Status {
    const auto before = snapshot.bytes.find(place);
    std::optional<std::string> known;
    if (before != snapshot.bytes.end()) known = before->second;
    if (known == bytes) return success();
    list.push_back(place);
    return refuseWhenChanged(folder / place, known, bytes);
  };
  for (const auto& [place, bytes] : wanted)
    if (const Status s = consider(place, bytes, plan.write); !s) return s.error();
  for (const auto& [place, bytes] : snapshot.bytes)
    if (wanted.count(place) == 0)
      if (const Status s = consider(place, std::nullopt, plan.remove); !s) return s.error();
  return plan;
}

Status move(const fs::path& from, const fs::path& to) {
  if (const Status made = makeFolder(to.parent_path()); !made) return made;
  std::error_code error;
  fs::rename(from, to, error);
  if (!error) return success();
  return Error{"Cannot move " + from.string() + " to " + to.string() + ": " + error.message() +
               "."};
}

// Boards leave with their pictures and come back with them; a plan is only a file.
Status takeAway(const fs::path& folder, const std::string& place) {
  const fs::path file = folder / place;
  std::error_code error;
  if (!fs::exists(file, error)) return success();
  if (file.filename() != kBoardFile) {
    fs::remove(file, error);
    return error ? Status(Error{"Cannot remove " + file.string() + ": " + error.message() + "."})
                 : success();
  }
  const fs::path away = folder / "removed" / file.parent_path().filename();
  fs::remove_all(away, error);
  return move(file.parent_path(), away);
}

Status bringBack(const fs::path& folder, const std::string& place) {
  const fs::path file = folder / place;
  const fs::path away = folder / "removed" / file.parent_path().filename();
  std::error_code error;
  if (file.filename() != kBoardFile || fs::exists(file.parent_path(), error) ||
      !fs::exists(away, error))
    return success();
  return move(away, file.parent_path());
}

Status saveAgainst(const fs::path& folder, Files wanted, RackSnapshot& snapshot) {
  const Result<SavePlan> plan = whatToSave(folder, wanted, snapshot);
  if (!plan) return plan.error();
  for (const std::string& place : plan->write) {
    if (const Status s = bringBack(folder, place); !s) return s;
    if (const Status s = writeDocument(folder, place, wanted[place]); !s) return s;
    snapshot.bytes[place] = wanted[place];
  }
  for (const std::string& place : plan->remove) {
    if (const Status s = takeAway(folder, place); !s) return s;
    snapshot.bytes.erase(place);
  }
  return success();
}

Status saveOver(const fs::path& folder, const Files& wanted) {
  for (const auto& [place, bytes] : wanted)
    if (const Status s = writeDocument(folder, place, bytes); !s) return s;
  return wanted.count(kPlanFile) == 0 ? takeAway(folder, kPlanFile) : success();
}

Status saveOne(const fs::path& folder, const std::string& place, const Result<std::string>& bytes) {
  if (!bytes) return bytes.error();
  if (const Status made = makeFolder(folder); !made) return made;
  const Result<FolderLock> lock = FolderLock::acquire(folder);
  if (!lock) return lock.error();
  return writeDocument(folder, place, *bytes);
}

}  // namespace

fs::path boardFolder(const fs::path& rackFolder, const BoardId& board) {
  return rackFolder / "boards" / board.text;
}

fs::path pictureFile(const fs::path& rackFolder, const Board& board, const Picture& picture) {
  const BoardId& holder = picture.heldBy.value_or(board.id);
  const fs::path here = boardFolder(rackFolder, holder) / picture.file;
  const fs::path away = rackFolder / "removed" / holder.text / picture.file;
  std::error_code error;
  return !fs::exists(here, error) && fs::exists(away, error) ? away : here;
}

Status saveRack(const Rack& rack, const fs::path& folder, RackSnapshot* snapshot) {
  Result<Files> wanted = rackBytes(rack);
  if (!wanted) return wanted.error();
  if (const Status made = makeFolder(folder); !made) return made;
  const Result<FolderLock> lock = FolderLock::acquire(folder);
  if (!lock) return lock.error();
  if (snapshot) return saveAgainst(folder, std::move(wanted).value(), *snapshot);
  return saveOver(folder, *wanted);
}

Status saveBoard(const Board& board, const fs::path& rackFolder) {
  return saveOne(rackFolder, boardPlace(board.id), boardBytes(board));
}
Status saveParts(const Rack& rack, const fs::path& rackFolder) {
  return saveOne(rackFolder, kPartsFile, partsBytes(rack));
}
Status saveShop(const Shop& shop, const fs::path& rackFolder) {
  return saveOne(rackFolder, kShopFile, shopBytes(shop));
}
Status savePlan(const std::optional<Plan>& plan, const fs::path& rackFolder) {
  if (plan) return saveOne(rackFolder, kPlanFile, planBytes(*plan));
  std::error_code error;
  if (!fs::exists(rackFolder / kPlanFile, error)) return success();
  const Result<FolderLock> lock = FolderLock::acquire(rackFolder);
  if (!lock) return lock.error();
  return takeAway(rackFolder, kPlanFile);
}

}  // namespace rackside
