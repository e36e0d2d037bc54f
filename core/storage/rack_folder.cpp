// SPDX-License-Identifier: GPL-3.0-or-later
// The writing half of rack_folder.h.
#include "core/storage/rack_folder.h"

#include <algorithm>

#include "core/storage/durable_file.h"
#include "core/storage/folder_lock.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_change.h"
#include "core/storage/rack_files.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;
using Files = std::map<std::string, std::string>;

// What a save is about to do, worked out before anything is touched.
struct SavePlan {
  std::vector<std::string> write;
  std::vector<std::string> remove;
};

// `wanted` is empty for a file that is to go.
Status refuseWhenChanged(const fs::path& file, const std::optional<std::string>& known,
                         const std::optional<std::string>& wanted) {
  const Result<std::optional<std::string>> now = readFileIfThere(file);
  if (!now) return now.error();
  if (*now == known || *now == wanted) return success();
  return Error{file.string() +
               " was changed by another program since it was opened here. Nothing was saved. Open "
               "the rack again and repeat the change, or save to another folder."};
}

using Damaged = std::vector<DamagedFile>;

// What stands for a file that could not be read, as long as nobody changes it.
const Files& blankFiles() {
  static const Files files = rackBytes(Rack{}).value();
  return files;
}

// A damaged file is left as it is.
Status refuseWhenDamaged(const DamagedFile& damaged, const std::string& wanted) {
  const auto blank = blankFiles().find(damaged.place);
  if (blank != blankFiles().end() && blank->second == wanted) return success();
  return Error{damaged.message + " Nothing was saved over it."};
}

Result<SavePlan> whatToSave(const fs::path& folder, const Files& wanted,
                            const RackSnapshot& snapshot, const Damaged& damaged) {
  SavePlan plan;
  const auto consider = [&](const std::string& place, const std::optional<std::string>& bytes,
                            std::vector<std::string>& list) -> Status {
    const auto before = snapshot.bytes.find(place);
    std::optional<std::string> known;
    if (before != snapshot.bytes.end()) known = before->second;
    if (known == bytes) return success();
    list.push_back(place);
    return refuseWhenChanged(folder / place, known, bytes);
  };
  for (const auto& [place, bytes] : wanted) {
    const auto hurt = std::find_if(damaged.begin(), damaged.end(),
                                   [&p = place](const DamagedFile& d) { return d.place == p; });
    const Status s = hurt == damaged.end() ? consider(place, bytes, plan.write)
                                           : refuseWhenDamaged(*hurt, bytes);
    if (!s) return s.error();
  }
  for (const auto& [place, bytes] : snapshot.bytes)
    if (wanted.count(place) == 0)
      if (const Status s = consider(place, std::nullopt, plan.remove); !s) return s.error();
  return plan;
}

bool isBoardFile(const std::string& place) {
  return fs::path(place).filename() == kBoardFile;
}

// Where a board's folder goes when it is taken away.
std::string awayFrom(const std::string& boardPlace) {
  return "removed/" + fs::path(boardPlace).parent_path().filename().string();
}

std::string waitingFor(const BoardId& board) {
  return ".rackside.new/" + board.text;
}

// Boards leave with their pictures and come back with them; a plan is only a file.
void takeAway(const fs::path& folder, const std::string& place, RackChange& change) {
  std::error_code error;
  if (!fs::exists(folder / place, error)) return;
  if (isBoardFile(place))
    change.move.emplace_back(fs::path(place).parent_path().string(), awayFrom(place));
  else
    change.remove.push_back(place);
}

void bringBack(const fs::path& folder, const std::string& place, RackChange& change) {
  std::error_code error;
  const fs::path home = fs::path(place).parent_path();
  if (!isBoardFile(place) || fs::exists(folder / home, error)) return;
  for (const std::string& from : {waitingFor({home.filename().string()}), awayFrom(place)})
    if (fs::exists(folder / from, error)) {
      change.move.emplace_back(from, home.string());
      return;
    }
}

Result<RackChange> changeFor(const fs::path& folder, const Files& wanted, const SavePlan& plan,
                             RackChange change) {
  for (const std::string& place : plan.write) {
    const Result<std::optional<std::string>> now = readFileIfThere(folder / place);
    if (!now) return now.error();
    if (*now == wanted.at(place)) continue;
    bringBack(folder, place, change);
    change.write[place] = wanted.at(place);
  }
  for (const std::string& place : plan.remove) takeAway(folder, place, change);
  return change;
}

Status saveAgainst(const fs::path& folder, const Files& wanted, RackSnapshot& snapshot,
                   const Damaged& damaged, const RackChange& more) {
  const Result<SavePlan> plan = whatToSave(folder, wanted, snapshot, damaged);
  if (!plan) return plan.error();
  const Result<RackChange> change = changeFor(folder, wanted, *plan, more);
  if (!change) return change.error();
  if (const Status done = carryOut(*change, folder); !done) return done;
  for (const std::string& place : plan->write) snapshot.bytes[place] = wanted.at(place);
  for (const std::string& place : plan->remove) snapshot.bytes.erase(place);
  return success();
}

Status saveOver(const fs::path& folder, const Files& wanted) {
  SavePlan plan;
  for (const auto& [place, bytes] : wanted) plan.write.push_back(place);
  if (wanted.count(kPlanFile) == 0) plan.remove.emplace_back(kPlanFile);
  const Result<RackChange> change = changeFor(folder, wanted, plan, {});
  return change ? carryOut(*change, folder) : Status(change.error());
}

// No bytes: the file goes.
Status saveOne(const fs::path& folder, const std::string& place,
               const Result<std::optional<std::string>>& bytes) {
  if (!bytes) return bytes.error();
  if (const Status made = makeFolders(folder); !made) return made;
  const Result<FolderLock> lock = FolderLock::acquire(folder);
  if (!lock) return lock.error();
  if (const Status settled = settlePendingChange(folder); !settled) return settled;
  RackChange change;
  if (!*bytes) {
    takeAway(folder, place, change);
    return carryOut(change, folder);
  }
  const Result<std::optional<std::string>> now = readFileIfThere(folder / place);
  if (now && *now == **bytes) return success();
  change.write[place] = **bytes;
  return carryOut(change, folder);
}

Result<std::optional<std::string>> some(Result<std::string> bytes) {
  if (!bytes) return bytes.error();
  return std::optional<std::string>(std::move(bytes).value());
}

}  // namespace

fs::path boardFolder(const fs::path& rackFolder, const BoardId& board) {
  return rackFolder / "boards" / board.text;
}

fs::path waitingFolder(const fs::path& rackFolder, const BoardId& board) {
  return rackFolder / waitingFor(board);
}

fs::path pictureFile(const fs::path& rackFolder, const Board& board, const Picture& picture) {
  const BoardId& holder = picture.heldBy.value_or(board.id);
  const fs::path here = boardFolder(rackFolder, holder) / picture.file;
  std::error_code error;
  if (fs::exists(here, error)) return here;
  for (const fs::path& folder :
       {rackFolder / "removed" / holder.text, waitingFolder(rackFolder, holder)})
    if (fs::exists(folder / picture.file, error)) return folder / picture.file;
  return here;
}

Status saveRack(const Rack& rack, const fs::path& folder, RackSnapshot* snapshot) {
  const Result<Files> wanted = rackBytes(rack, snapshot ? &snapshot->bytes : nullptr);
  if (!wanted) return wanted.error();
  if (const Status made = makeFolders(folder); !made) return made;
  const Result<FolderLock> lock = FolderLock::acquire(folder);
  if (!lock) return lock.error();
  if (const Status settled = settlePendingChange(folder); !settled) return settled;
  return snapshot ? saveAgainst(folder, *wanted, *snapshot, {}, {}) : saveOver(folder, *wanted);
}

Status storeRack(OpenedRack& opened, const fs::path& folder, const RackChange& more) {
  if (!opened.lock) throw std::logic_error("storeRack(): the rack was not opened for a change");
  const Result<Files> wanted = rackBytes(opened.rack, &opened.snapshot.bytes);
  if (!wanted) return wanted.error();
  return saveAgainst(folder, *wanted, opened.snapshot, opened.damaged, more);
}

Status saveBoard(const Board& board, const fs::path& rackFolder) {
  return saveOne(rackFolder, boardPlace(board.id), some(boardBytes(board)));
}
Status saveParts(const Rack& rack, const fs::path& rackFolder) {
  return saveOne(rackFolder, kPartsFile, some(partsBytes(rack)));
}
Status saveShop(const Shop& shop, const fs::path& rackFolder) {
  return saveOne(rackFolder, kShopFile, some(shopBytes(shop)));
}
Status savePlan(const std::optional<Plan>& plan, const fs::path& rackFolder) {
  return saveOne(rackFolder, kPlanFile,
                 plan ? some(planBytes(*plan)) : std::optional<std::string>());
}

}  // namespace rackside
