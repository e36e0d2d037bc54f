// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cctype>
#include <set>

#include "core/base/json_reader.h"
#include "core/base/name_table.h"
#include "core/storage/file_format.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_outline.h"
#include "core/storage/json_points.h"
#include "core/wood/board_limits.h"

namespace rackside {
namespace {

nlohmann::json pictureJson(const Picture& p) {
  nlohmann::json j{{"id", p.id.text},
                   {"face", name(p.face)},
                   {"stage", name(p.stage)},
                   {"file", p.file},
                   {"width_px", p.widthPx},
                   {"height_px", p.heightPx},
                   {"mm_per_px", p.mmPerPx},
                   {"board_from_picture", p.boardFromPicture},
                   {"source_sha256", p.sourceHashes},
                   {"taken_at", p.takenAt}};
  if (p.heldBy) j["held_by"] = p.heldBy->text;
  addExtra(j, *p.extra);
  return j;
}

// A board's id names its folder, so it holds nothing that leads elsewhere.
bool isFolderName(const std::string& id) {
  return !id.empty() && id.size() <= 100 && std::all_of(id.begin(), id.end(), [](unsigned char c) {
    return (c < 128 && std::isalnum(c)) || c == '_' || c == '-';
  });
}

std::optional<BoardId> readBoardId(JsonReader& r, const char* key) {
  if (!r.has(key)) return std::nullopt;
  BoardId id{r.text(key)};
  if (!isFolderName(id.text)) r.fail(key, "the id of a board");
  return id;
}

// A file name of the board's folder, not a way out of it.
bool staysInside(const std::string& file) {
  return !file.empty() && file.front() != '/' && file.find('\\') == std::string::npos &&
         ("/" + file + "/").find("/../") == std::string::npos;
}

Picture readPicture(JsonReader& r) {
  constexpr long long kMostPx = 1000000;
  Picture p;
  p.id.text = r.text("id");
  p.face = r.choice<Face>("face", "\"A\" or \"B\"", faceFromName);
  p.stage = r.choice<FaceStage>("stage", "a stage such as \"grey-rough\" or \"planed\"",
                                faceStageFromName, FaceStage::greyRough);
  p.file = r.text("file");
  p.heldBy = readBoardId(r, "held_by");
  if (!staysInside(p.file)) r.fail("file", "a file name inside the board's folder");
  p.widthPx = static_cast<int>(r.integer("width_px", 0, kMostPx));
  p.heightPx = static_cast<int>(r.integer("height_px", 0, kMostPx));
  p.mmPerPx = r.number("mm_per_px");
  const std::vector<double> transform = r.numbers("board_from_picture");
  if (transform.size() == p.boardFromPicture.size())
    std::copy(transform.begin(), transform.end(), p.boardFromPicture.begin());
  else
    r.fail("board_from_picture", "six numbers");
  p.sourceHashes = r.texts("source_sha256");
  p.takenAt = r.text("taken_at", "");
  p.extra = r.extra();
  return p;
}

nlohmann::json moistureJson(const MoistureReading& m) {
  nlohmann::json j{{"percent", m.percent}, {"date", m.date}};
  if (m.meterPercent) j["meter_percent"] = *m.meterPercent;
  if (m.woodCelsius) j["wood_celsius"] = *m.woodCelsius;
  addExtra(j, *m.extra);
  return j;
}

MoistureReading readMoisture(JsonReader& r) {
  MoistureReading m;
  m.percent = r.number("percent");
  m.meterPercent = r.maybeNumber("meter_percent");
  m.woodCelsius = r.maybeNumber("wood_celsius");
  m.date = r.text("date", "");
  m.extra = r.extra();
  return m;
}

void writeWhatIsKnown(const Board& b, nlohmann::json& j) {
  if (b.tag) j["tag"] = *b.tag;
  if (b.offcutOf) j["offcut_of"] = b.offcutOf->text;
  if (b.leftEndSawn) j["left_end_sawn"] = true;
  if (b.rightEndSawn) j["right_end_sawn"] = true;
  if (b.cutUp) j["cut_up"] = true;
  if (!b.thicknessSaid.empty()) j["thickness_said"] = b.thicknessSaid;
  if (b.airDried) j["air_dried"] = true;
  if (!b.stateNote.empty()) j["state_note"] = b.stateNote;
  if (b.barkSide) j["bark_side"] = name(*b.barkSide);
  if (b.faceB) j["face_b"] = {{"registration_u95_mm", b.faceB->u95Mm}, {"how", b.faceB->how}};
  for (const Picture& p : b.pictures) j["pictures"].push_back(pictureJson(p));
  for (const Mark& m : b.marks) j["marks"].push_back(toJson(m));
  for (const Mark& m : b.refused) j["refused"].push_back(toJson(m));
  for (const MoistureReading& m : b.moisture) j["moisture"].push_back(moistureJson(m));
}

void readFields(JsonReader& r, Board& b) {
  b.id.text = r.text("id");
  b.name = r.text("name", "");
  if (r.has("tag")) b.tag = static_cast<int>(r.integer("tag", 1, 999));
  b.place = r.text("place", "");
  b.species = r.text("species", "");
  b.thicknessMm = r.number("thickness_mm");
  if (b.thicknessMm < 0) r.fail("thickness_mm", "0 or more");
  b.thicknessSaid = r.text("thickness_said", "");
  b.airDried = r.flag("air_dried", false);
  b.sawn = r.choice<Sawn>("sawn", "\"unknown\", \"flat\", \"rift\" or \"quarter\"", sawnFromName,
                          Sawn::unknown);
  if (r.has("bark_side")) b.barkSide = r.choice<Face>("bark_side", "\"A\" or \"B\"", faceFromName);
  b.bowMm = r.number("bow_mm", 0);
  b.cupMm = r.number("cup_mm", 0);
  b.twistMm = r.number("twist_mm", 0);
  b.pricePerBoardFoot = r.number("price_per_board_foot", 0);
  // Files of before told no more than that a board was set apart.
  const bool setApart = r.flag("set_apart", false);
  b.state = r.choice<BoardState>("state", "\"on-rack\", \"set-aside\", \"sold\" or \"reserved\"",
                                 boardStateFromName,
                                 setApart ? BoardState::setAside : BoardState::onRack);
  b.stateNote = r.text("state_note", "");
  b.offcutOf = readBoardId(r, "offcut_of");
  b.leftEndSawn = r.flag("left_end_sawn", false);
  b.rightEndSawn = r.flag("right_end_sawn", false);
  b.cutUp = r.flag("cut_up", false);
  b.note = r.text("note", "");
}

void readMeasures(JsonReader& r, Board& b) {
  if (r.has("outline")) b.outline = readOutline(r.object("outline"));
  if (r.has("widths")) b.widthsMm = readWidths(r.object("widths"));
  if (r.has("length")) b.lengthMm = readMeasured(r.object("length"));
  if (r.has("face_b")) {
    JsonReader& faceB = r.object("face_b");
    b.faceB = FaceRegistration{faceB.number("registration_u95_mm"), faceB.text("how", "")};
  }
}

void readLists(JsonReader& r, Board& b) {
  for (JsonReader& picture : r.list("pictures")) b.pictures.push_back(readPicture(picture));
  for (JsonReader& reading : r.list("moisture")) b.moisture.push_back(readMoisture(reading));
  for (JsonReader& mark : r.list("refused")) b.refused.push_back(readMark(mark));
  std::set<std::string> ids;
  for (JsonReader& mark : r.list("marks")) {
    b.marks.push_back(readMark(mark));
    if (!ids.insert(b.marks.back().id.text).second)
      mark.fail("id", "unlike the id of every other mark");
  }
}

}  // namespace

nlohmann::json toJson(const Board& b) {
  nlohmann::json j = newDocument(boardFormat());
  j.update({{"id", b.id.text},
            {"name", b.name},
            {"place", b.place},
            {"species", b.species},
            {"thickness_mm", b.thicknessMm},
            {"outline", outlineJson(b.outline)},
            {"widths", widthsJson(b.widthsMm)},
            {"length", measuredJson(b.lengthMm)},
            {"pictures", nlohmann::json::array()},
            {"marks", nlohmann::json::array()},
            {"moisture", nlohmann::json::array()},
            {"sawn", name(b.sawn)},
            {"bow_mm", b.bowMm},
            {"cup_mm", b.cupMm},
            {"twist_mm", b.twistMm},
            {"price_per_board_foot", b.pricePerBoardFoot},
            {"state", name(b.state)},
            {"note", b.note}});
  writeWhatIsKnown(b, j);
  addExtra(j, *b.extra);
  return j;
}

Result<Board> boardFromJson(const nlohmann::json& j) {
  const auto current = upToDate(j, boardFormat());
  if (!current) return current.error();
  std::string fault;
  JsonReader r(**current, "", fault);
  Board b;
  r.text("format");
  r.integer("version", 1, boardFormat().version());
  readFields(r, b);
  if (!isFolderName(b.id.text)) r.fail("id", "made of letters, digits and dashes");
  readMeasures(r, b);
  readLists(r, b);
  b.extra = r.extra();
  if (!fault.empty()) return Error{fault};
  if (const Status sound = validate(b); !sound) return sound.error();
  return b;
}

}  // namespace rackside
