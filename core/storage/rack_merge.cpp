// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/rack_merge.h"

#include <sys/stat.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "core/document/edits.h"
#include "core/storage/durable_file.h"
#include "core/storage/folder_lock.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"
#include "core/storage/rack_files.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

void stamp(const fs::path& folder, const std::string& place, RackStamps& stamps) {
  struct stat is {};
  if (::stat((folder / place).c_str(), &is) != 0) return;
  stamps[place] = std::to_string(is.st_mtim.tv_sec) + "." + std::to_string(is.st_mtim.tv_nsec) +
                  " " + std::to_string(is.st_size) + " " + std::to_string(is.st_ino);
}

// One document as it was, is here, and is there; null where there is none.
struct Sides {
  json base, ours, theirs;
};

json parsed(const std::optional<std::string>& bytes) {
  if (!bytes) return nullptr;
  Result<json> j = parseJson(*bytes);
  return j ? std::move(j).value() : json();
}

// A plan is one whole: two plans merge only when they are of the same cuts, so that ticks of both
// sides stand.
bool sameCuts(const Sides& s) {
  const auto ids = [](const json& plan) {
    std::vector<std::string> all;
    if (plan.is_object() && plan.contains("cuts"))
      for (const json& cut : plan["cuts"]) all.push_back(cut.value("id", ""));
    return all;
  };
  return ids(s.base) == ids(s.ours) && ids(s.ours) == ids(s.theirs);
}

class Taking {
 public:
  Taking(const Rack& ours, const RackSnapshot& snapshot) : ours_(ours), snapshot_(snapshot) {}

  void take(const std::string& place, const std::optional<std::string>& bytes) {
    if (place == kPartsFile)
      takeWhole<std::vector<Part>>(place, bytes, toJson(ours_.parts, *ours_.partsExtra),
                                   partsFromJson, changeParts, "the parts list");
    else if (place == kShopFile)
      takeWhole<Shop>(place, bytes, toJson(ours_.shop), shopFromJson, changeShop,
                      "the shop's settings");
    else if (place == kPlanFile)
      takePlan(bytes);
    else
      takeBoard(place, bytes);
  }

  TakenIn result() {
    if (!edits_.empty()) taken_.edit = together("Changes of another program", std::move(edits_));
    return std::move(taken_);
  }

 private:
  json baseOf(const std::string& place) const {
    const auto found = snapshot_.bytes.find(place);
    return found == snapshot_.bytes.end() ? json() : parsed(found->second);
  }

  json mergedFrom(const Sides& s, const std::string& what) {
    std::vector<std::string> conflicts;
    json both = merged(s.base, s.ours, s.theirs, conflicts);
    if (!conflicts.empty()) tell(what);
    return both;
  }
  void tell(const std::string& what) {
    taken_.told.push_back("Another program changed " + what +
                          " while it was changed here too; what was changed here is kept.");
  }

  template <class T, class Make>
  void takeWhole(const std::string& place, const std::optional<std::string>& bytes, json ours,
                 Result<T> (*read)(const json&), Make make, const std::string& what) {
    const Sides s{baseOf(place), std::move(ours), parsed(bytes)};
    if (s.theirs.is_null()) return;  // a list that went: ours is written again
    const json both = mergedFrom(s, what);
    if (both == s.ours) return;
    if (auto value = read(both))
      edits_.push_back(make(std::move(value).value()));
    else
      tell(what);
  }

  void takePlan(const std::optional<std::string>& bytes) {
    const Sides s{baseOf(kPlanFile), ours_.plan ? toJson(*ours_.plan) : json(), parsed(bytes)};
    if (s.ours == s.theirs || s.theirs == s.base) return;
    if (s.ours != s.base && !sameCuts(s)) return tell("the plan");
    const json both = mergedFrom(s, "the plan");
    if (both.is_null()) {
      edits_.push_back(setPlan(std::nullopt));
    } else if (auto plan = planFromJson(both)) {
      edits_.push_back(setPlan(std::move(plan).value()));
    } else {
      tell("the plan");
    }
  }

  void takeBoard(const std::string& place, const std::optional<std::string>& bytes) {
    const BoardId id{fs::path(place).parent_path().filename().string()};
    const Board* board = ours_.findBoard(id);
    const Sides s{baseOf(place), board ? toJson(*board) : json(), parsed(bytes)};
    if (s.ours == s.theirs || s.theirs == s.base) return;
    const std::string what = "board " + (board ? board->name : id.text);
    if (s.theirs.is_null()) {
      if (s.ours == s.base)
        edits_.push_back(removeBoard(id));
      else
        tell(what);
      return;
    }
    auto value = boardFromJson(board ? mergedFrom(s, what) : s.theirs);
    if (!value || value->id != id) return tell(what);
    if (board)
      edits_.push_back(changeBoard(std::move(value).value()));
    else if (s.base.is_null())
      edits_.push_back(addBoard(std::move(value).value()));
    else
      tell(what);  // taken away here, changed there
  }

  const Rack& ours_;
  const RackSnapshot& snapshot_;
  std::vector<std::unique_ptr<Edit>> edits_;
  TakenIn taken_;
};

}  // namespace

RackStamps rackStamps(const fs::path& folder) {
  RackStamps stamps;
  for (const char* place : {kPartsFile, kShopFile, kPlanFile}) stamp(folder, place, stamps);
  std::error_code error;
  for (fs::directory_iterator i(folder / "boards", error), end; !error && i != end;
       i.increment(error))
    stamp(folder, boardPlace({i->path().filename().string()}), stamps);
  return stamps;
}

Result<ChangedFiles> changedFiles(const fs::path& folder, const RackSnapshot& snapshot,
                                  const RackStamps& before, const RackStamps& now) {
  const Result<FolderLock> lock = FolderLock::acquire(folder, FolderLock::Kind::read, 1);
  if (!lock) return lock.error();
  ChangedFiles changed;
  const auto look = [&](const std::string& place) {
    const auto known = snapshot.bytes.find(place);
    const Result<std::optional<std::string>> bytes = readFileIfThere(folder / place);
    if (!bytes) return;
    const bool same = known == snapshot.bytes.end() ? !*bytes : *bytes == known->second;
    if (!same) changed[place] = *bytes;
  };
  for (const auto& [place, stamp] : now) {
    const auto was = before.find(place);
    if (was == before.end() || was->second != stamp) look(place);
  }
  for (const auto& [place, stamp] : before)
    if (now.count(place) == 0) look(place);
  return changed;
}

TakenIn takeIn(const Rack& ours, RackSnapshot& snapshot, const ChangedFiles& files) {
  Taking taking(ours, snapshot);
  ChangedFiles sound;
  for (const auto& [place, bytes] : files)
    if (!bytes || parseJson(*bytes)) sound.emplace(place, bytes);  // the rest: when it is whole
  for (const auto& [place, bytes] : sound) taking.take(place, bytes);
  for (const auto& [place, bytes] : sound) {
    if (bytes)
      snapshot.bytes[place] = *bytes;
    else
      snapshot.bytes.erase(place);
  }
  return taking.result();
}

}  // namespace rackside
