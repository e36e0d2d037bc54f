// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/rack_change.h"

#include <algorithm>

#include "core/storage/atomic_file.h"
#include "core/storage/durable_file.h"
#include "core/storage/json_text.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr const char* kFolder = ".rackside.change";
constexpr const char* kJournal = "journal.json";
constexpr const char* kFormat = "rackside change";

Error cannot(const std::string& what, const fs::path& path, const std::error_code& error) {
  return Error{"Cannot " + what + " " + path.string() + ": " + error.message() + "."};
}

// What is done, without the bytes: those lie beside the list, under their numbers.
struct Steps {
  std::vector<std::pair<std::string, std::string>> move;
  std::vector<std::string> write;
  std::vector<std::string> remove;
};

Steps stepsOf(const RackChange& change) {
  Steps steps{change.move, {}, change.remove};
  for (const auto& [place, bytes] : change.write) steps.write.push_back(place);
  return steps;
}

json journalOf(const Steps& steps) {
  return {{"format", kFormat},
          {"version", 1},
          {"move", steps.move},
          {"write", steps.write},
          {"remove", steps.remove}};
}

// A rack may come from anywhere: its list must not lead out of it.
Result<Steps> readJournal(const fs::path& file) {
  const Result<std::string> bytes = readFile(file);
  if (!bytes) return bytes.error();
  const Result<json> j = parseJson(*bytes);
  Steps steps;
  bool good = j.ok();
  if (good) try {
      good = j->at("format") == kFormat && j->at("version") == 1;
      j->at("move").get_to(steps.move);
      j->at("write").get_to(steps.write);
      j->at("remove").get_to(steps.remove);
    } catch (const json::exception&) {
      good = false;
    }
  for (const auto& [from, to] : steps.move) good = good && staysInside(from) && staysInside(to);
  for (const auto* places : {&steps.write, &steps.remove})
    good = good && std::all_of(places->begin(), places->end(), staysInside);
  if (good) return steps;
  return Error{file.string() +
               " lists the end of a change and cannot be read. Move that folder out of the rack; "
               "the rack is then as it was, or partly changed."};
}

fs::path aside(const fs::path& rack, size_t number) {
  return rack / kFolder / std::to_string(number);
}

Status move(const fs::path& from, const fs::path& to) {
  std::error_code error;
  if (!fs::exists(fs::symlink_status(from, error))) return success();  // moved before
  if (const Status made = makeFolders(to.parent_path()); !made) return made;
  fs::remove_all(to, error);
  if (error) return cannot("clear away", to, error);
  if (const Status moved = renameOver(from, to); !moved) return moved;
  syncFolder(from.parent_path());
  syncFolder(to.parent_path());
  return success();
}

Status putInPlace(const fs::path& from, const fs::path& to) {
  std::error_code error;
  if (!fs::exists(from, error)) return success();  // put there before
  if (const Status made = makeFolders(to.parent_path()); !made) return made;
  // A link stays a link: the file it points to is replaced.
  const fs::path target = fs::is_symlink(to, error) ? fs::weakly_canonical(to, error) : to;
  if (const Status put = renameOver(from, target); !put) return put;
  syncFolder(target.parent_path());
  return success();
}

Status removeFile(const fs::path& file) {
  std::error_code error;
  fs::remove(file, error);
  if (error) return cannot("remove", file, error);
  syncFolder(file.parent_path());
  return success();
}

Status perform(const Steps& steps, const fs::path& rack) {
  for (const auto& [from, to] : steps.move)
    if (const Status s = move(rack / from, rack / to); !s) return s;
  for (size_t i = 0; i < steps.write.size(); ++i)
    if (const Status s = putInPlace(aside(rack, i), rack / steps.write[i]); !s) return s;
  for (const std::string& place : steps.remove)
    if (const Status s = removeFile(rack / place); !s) return s;
  return success();
}

// The list goes first: without it the rest of the folder means nothing.
Status clearAway(const fs::path& rack) {
  const fs::path folder = rack / kFolder;
  std::error_code error;
  fs::remove(folder / kJournal, error);
  if (!error) syncFolder(folder);
  if (!error) fs::remove_all(folder, error);
  return error ? Status(cannot("clear away", folder, error)) : success();
}

Status writeAside(const RackChange& change, const fs::path& rack) {
  if (const Status made = makeFolders(rack / kFolder); !made) return made;
  size_t number = 0;
  for (const auto& [place, bytes] : change.write)
    if (const Status s = writeAndSync(aside(rack, number++), bytes, rack / place); !s) return s;
  return success();
}

// One file and nothing else, in a folder that is there: putting it in its place is the whole
// change.
bool isOneFile(const RackChange& change, const fs::path& rack) {
  if (change.write.size() != 1 || !change.move.empty() || !change.remove.empty()) return false;
  std::error_code error;
  return fs::is_directory((rack / change.write.begin()->first).parent_path(), error);
}

// From here on the change counts.
Status writeJournal(const Steps& steps, const fs::path& rack) {
  const Result<std::string> text = jsonText(journalOf(steps));
  if (!text) return text.error();
  const fs::path made = rack / kFolder / "journal.part";
  if (const Status s = writeAndSync(made, *text, {}); !s) return s;
  syncFolder(rack / kFolder);
  if (const Status s = renameOver(made, rack / kFolder / kJournal); !s) return s;
  syncFolder(rack / kFolder);
  return success();
}

Error nothingChanged(const Error& error, const fs::path& rack) {
  (void)clearAway(rack);
  return Error{error.message + " Nothing in the rack was changed."};
}

}  // namespace

bool staysInside(const std::string& place) {
  return !place.empty() && place.front() != '/' && place.find('\\') == std::string::npos &&
         ("/" + place + "/").find("/../") == std::string::npos;
}

Status carryOut(const RackChange& change, const fs::path& rack) {
  if (change.empty()) return success();
  if (const Status s = settlePendingChange(rack); !s) return s;
  if (const Status s = writeAside(change, rack); !s) return nothingChanged(s.error(), rack);
  const Steps steps = stepsOf(change);
  if (isOneFile(change, rack)) {
    if (const Status s = perform(steps, rack); !s) return nothingChanged(s.error(), rack);
    (void)clearAway(rack);
    return success();
  }
  if (const Status s = writeJournal(steps, rack); !s) return nothingChanged(s.error(), rack);
  if (const Status s = perform(steps, rack); !s)
    return Error{s.error().message +
                 " The change is noted down whole, and will be finished when the rack is next "
                 "opened."};
  (void)clearAway(rack);  // what stays is cleared away, or repeated, at the next open
  return success();
}

bool changeIsPending(const fs::path& rack) {
  std::error_code error;
  return fs::exists(rack / kFolder, error);
}

Status settlePendingChange(const fs::path& rack) {
  if (!changeIsPending(rack)) return success();
  const fs::path journal = rack / kFolder / kJournal;
  std::error_code error;
  if (fs::exists(journal, error)) {
    const Result<Steps> steps = readJournal(journal);
    if (!steps) return steps.error();
    if (const Status s = perform(*steps, rack); !s) return s;
  }
  return clearAway(rack);
}

}  // namespace rackside
