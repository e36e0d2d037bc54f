// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/mark_file.h"

#include "app/command/common_options.h"
#include "core/document/edits.h"
#include "core/storage/atomic_file.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"
#include "core/wood/mark_place.h"

namespace rackside::command {
namespace {

using nlohmann::json;

Result<json> readMarkFile(const std::filesystem::path& file) {
  auto bytes = readFile(file);
  if (!bytes) return bytes.error();
  auto parsed = parseJson(*bytes);
  if (!parsed) return Error{file.string() + ": " + parsed.error().message};
  json j = std::move(parsed).value();
  if (!j.is_object() || j.value("format", json()) != "rackside-marks")
    return Error{file.string() +
                 " is not a file of marks: \"format\" should be "
                 "\"rackside-marks\"."};
  const json version = j.value("version", json());
  if (!version.is_number_integer() || version.get<int>() != 1)
    return Error{file.string() +
                 " has a version of marks that this program does not read; it "
                 "reads version 1."};
  if (!j.contains("boards") || !j["boards"].is_array())
    return Error{file.string() + ": \"boards\" should be a list."};
  return j;
}

// "board" holds a name, "tag" a number.
std::string boardNameIn(const json& entry) {
  if (!entry.is_object()) return {};
  const json tag = entry.value("tag", json());
  if (tag.is_number_integer()) return std::to_string(tag.get<long long>());
  const json board = entry.value("board", json());
  return board.is_string() ? board.get<std::string>() : std::string();
}

Result<Mark> readMark(json j) {
  if (j.is_object() && !j.contains("id")) j["id"] = newIdText("mk");
  auto mark = markFromJson(j);
  if (!mark) return mark.error();
  if (const Status s = validate(*mark); !s) return s.error();
  return mark;
}

}  // namespace

Result<MarksToLoad> marksFromFile(const std::filesystem::path& file, const Rack& rack) {
  auto j = readMarkFile(file);
  if (!j) return j.error();
  std::vector<std::unique_ptr<Edit>> edits;
  size_t count = 0;
  for (const json& entry : (*j)["boards"]) {
    const std::string boardName = boardNameIn(entry);
    auto board = findBoard(rack, boardName);
    if (!board) return Error{file.string() + ": " + board.error().message};
    if (!entry.contains("marks") || !entry["marks"].is_array())
      return Error{file.string() + ", board " + boardName + ": \"marks\" should be a list."};
    std::vector<Mark> marks;
    for (const json& entered : entry["marks"]) {
      auto mark = readMark(entered);
      const Status on = mark ? liesOn(**board, *mark) : Status(mark.error());
      if (!on)
        return Error{file.string() + ", board " + boardName + ", mark " +
                     std::to_string(marks.size() + 1) + ": " + on.error().message};
      marks.push_back(std::move(mark).value());
    }
    count += marks.size();
    edits.push_back(loadMarks((*board)->id, std::move(marks)));
  }
  return MarksToLoad{together("Load marks", std::move(edits)), count};
}

}  // namespace rackside::command
