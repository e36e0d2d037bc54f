// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/json_reader.h"
#include "core/base/name_table.h"
#include "core/storage/file_format.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_points.h"

namespace rackside {
namespace {

constexpr long long kMany = 1000000;
constexpr std::array<std::string_view, 2> kPieceKinds = {"part", "panel-strip"};
constexpr std::array<std::string_view, 4> kCutKinds = {"crosscut", "rip", "trim", "curve"};

std::optional<PieceKind> pieceKindFromName(std::string_view s) {
  return valueIn<PieceKind>(kPieceKinds, s);
}
std::optional<CutKind> cutKindFromName(std::string_view s) {
  return valueIn<CutKind>(kCutKinds, s);
}

// Unknown keys of items that are small values without `extra` of their own: kept by place in the
// list, under the list's key, beside the unknown keys of the object that holds the list.
nlohmann::json withItems(nlohmann::json extra, const char* key,
                         const std::vector<JsonReader>& items) {
  nlohmann::json byPlace = nlohmann::json::object();
  for (size_t i = 0; i < items.size(); ++i)
    if (nlohmann::json own = items[i].extra(); !own.is_null())
      byPlace[std::to_string(i)] = std::move(own);
  if (byPlace.empty()) return extra;
  if (!extra.is_object()) extra = nlohmann::json::object();
  extra[key] = std::move(byPlace);
  return extra;
}

void addItemExtras(nlohmann::json& j, const char* key, const nlohmann::json& extra) {
  const auto list = j.find(key);
  const auto byPlace = extra.find(key);
  if (list == j.end() || byPlace == extra.end() || !byPlace->is_object()) return;
  for (size_t i = 0; i < list->size(); ++i)
    if (const auto own = byPlace->find(std::to_string(i)); own != byPlace->end())
      addExtra((*list)[i], *own);
}

nlohmann::json blankJson(const Blank& b) {
  nlohmann::json j{{"id", b.id.text},
                   {"board", b.board.text},
                   {"board_from_blank",
                    {{"origin_mm", pointJson(b.boardFromBlank.origin)},
                     {"angle_rad", b.boardFromBlank.angleRad}}},
                   {"rough_length_mm", b.roughLengthMm},
                   {"rough_width_mm", b.roughWidthMm},
                   {"finished_thickness_mm", b.finishedThicknessMm},
                   {"take_off_a_mm", b.takeOffAMm},
                   {"take_off_b_mm", b.takeOffBMm},
                   {"last_cut", b.lastCut.text},
                   {"remarks", b.remarks}};
  addExtra(j, *b.extra);
  return j;
}

Blank readBlank(JsonReader& r) {
  Blank b;
  b.id.text = r.text("id");
  b.board.text = r.text("board");
  JsonReader& pose = r.object("board_from_blank");
  b.boardFromBlank = {pose.point("origin_mm"), pose.number("angle_rad")};
  b.roughLengthMm = r.number("rough_length_mm");
  b.roughWidthMm = r.number("rough_width_mm");
  b.finishedThicknessMm = r.number("finished_thickness_mm");
  b.takeOffAMm = r.number("take_off_a_mm", 0);
  b.takeOffBMm = r.number("take_off_b_mm", 0);
  b.lastCut.text = r.text("last_cut", "");
  b.remarks = r.texts("remarks");
  b.extra = r.extra();
  return b;
}

nlohmann::json pieceJson(const Piece& p) {
  nlohmann::json j{{"id", p.id.text},
                   {"kind", nameIn(kPieceKinds, p.kind)},
                   {"part", p.part.text},
                   {"copy", p.copy},
                   {"strip", p.strip},
                   {"blank", p.blank.text},
                   {"board", p.board.text},
                   {"show_face", name(p.showFace)},
                   {"outline_mm", pointsJson(p.outline)},
                   {"length_mm", p.lengthMm},
                   {"width_mm", p.widthMm},
                   {"angle_rad", p.angleRad},
                   {"worth", p.worth}};
  addExtra(j, *p.extra);
  return j;
}

Piece readPiece(JsonReader& r) {
  Piece p;
  p.id.text = r.text("id");
  p.kind = r.choice<PieceKind>("kind", "\"part\" or \"panel-strip\"", pieceKindFromName);
  p.part.text = r.text("part");
  p.copy = static_cast<int>(r.integer("copy", 1, kMany));
  p.strip = static_cast<int>(r.integer("strip", 0, kMany, 0));
  p.blank.text = r.text("blank");
  p.board.text = r.text("board");
  p.showFace = r.choice<Face>("show_face", "\"A\" or \"B\"", faceFromName);
  p.outline = r.points("outline_mm");
  p.lengthMm = r.number("length_mm");
  p.widthMm = r.number("width_mm");
  p.angleRad = r.number("angle_rad", 0);
  p.worth = r.number("worth", 0);
  p.extra = r.extra();
  return p;
}

nlohmann::json cutJson(const Cut& c) {
  nlohmann::json j{{"id", c.id.text},
                   {"board", c.board.text},
                   {"order", c.order},
                   {"kind", nameIn(kCutKinds, c.kind)},
                   {"from_mm", pointJson(c.line.from)},
                   {"to_mm", pointJson(c.line.to)},
                   {"kerf_mm", c.kerfMm},
                   {"left_of_parent", c.leftOfParent},
                   {"first_rip", c.firstRip},
                   {"offset_at_from_mm", c.offsetAtFromMm},
                   {"offset_at_to_mm", c.offsetAtToMm},
                   {"waste_is_left", c.wasteIsLeft},
                   {"waste_is_right", c.wasteIsRight},
                   {"label", c.label}};
  if (c.parent) j["parent"] = c.parent->text;
  if (c.made) j["made"] = true;
  if (c.planned) {
    j["planned_from_mm"] = pointJson(c.planned->from);
    j["planned_to_mm"] = pointJson(c.planned->to);
  }
  addExtra(j, *c.extra);
  return j;
}

Cut readCut(JsonReader& r) {
  Cut c;
  c.id.text = r.text("id");
  c.board.text = r.text("board");
  c.order = static_cast<int>(r.integer("order", 0, kMany));
  c.kind =
      r.choice<CutKind>("kind", "\"crosscut\", \"rip\", \"trim\" or \"curve\"", cutKindFromName);
  c.line = {r.point("from_mm"), r.point("to_mm")};
  c.kerfMm = r.number("kerf_mm");
  c.made = r.flag("made", false);
  if (r.has("planned_from_mm"))
    c.planned = Segment{r.point("planned_from_mm"), r.point("planned_to_mm")};
  if (r.has("parent")) c.parent = CutId{r.text("parent")};
  c.leftOfParent = r.flag("left_of_parent", true);
  c.firstRip = r.flag("first_rip", false);
  c.offsetAtFromMm = r.number("offset_at_from_mm", 0);
  c.offsetAtToMm = r.number("offset_at_to_mm", 0);
  c.wasteIsLeft = r.flag("waste_is_left", false);
  c.wasteIsRight = r.flag("waste_is_right", false);
  c.label = r.text("label", "");
  c.extra = r.extra();
  return c;
}

nlohmann::json unplacedJson(const Unplaced& u) {
  nlohmann::json j{{"part", u.part.text}, {"copy", u.copy}, {"why", u.why}};
  if (u.nearest)
    j["nearest"] = {{"board", u.nearest->board.text},
                    {"short_by_mm", u.nearest->shortByMm},
                    {"direction", u.nearest->direction}};
  for (const Unplaced::Remedy& m : u.remedies)
    j["remedies"].push_back(
        {{"rule", m.rule}, {"board", m.board.text}, {"by_mm", m.byMm}, {"words", m.words}});
  addItemExtras(j, "remedies", *u.extra);
  addExtra(j, *u.extra);
  return j;
}

Unplaced readUnplaced(JsonReader& r) {
  Unplaced u;
  u.part.text = r.text("part");
  u.copy = static_cast<int>(r.integer("copy", 1, kMany));
  u.why = r.text("why", "");
  if (r.has("nearest")) {
    JsonReader& n = r.object("nearest");
    u.nearest = Unplaced::Nearest{BoardId{n.text("board")}, n.number("short_by_mm"),
                                  n.text("direction", "")};
  }
  std::vector<JsonReader> remedies = r.list("remedies");
  for (JsonReader& m : remedies)
    u.remedies.push_back(
        {m.text("rule"), BoardId{m.text("board")}, m.number("by_mm", 0), m.text("words")});
  u.extra = withItems(r.extra(), "remedies", remedies);
  return u;
}

nlohmann::json spareJson(const Spare& s) {
  nlohmann::json j{{"piece", s.piece.text}};
  if (s.board) {
    j["board"] = s.board->text;
    j["place_mm"] = {s.place.x0, s.place.y0, s.place.x1, s.place.y1};
    j["whole_board"] = s.wholeBoard;
  }
  addExtra(j, *s.extra);
  return j;
}

Spare readSpare(JsonReader& r) {
  Spare s;
  s.piece.text = r.text("piece");
  if (r.has("board")) {
    s.board = BoardId{r.text("board")};
    const std::vector<double> box = r.numbers("place_mm");
    if (box.size() == 4)
      s.place = {box[0], box[1], box[2], box[3]};
    else
      r.fail("place_mm", "four numbers");
    s.wholeBoard = r.flag("whole_board", false);
  }
  s.extra = r.extra();
  return s;
}

nlohmann::json termJson(const ScoreTerm& t) {
  return {{"name", t.name},
          {"weight", t.weight},
          {"amount", t.amount},
          {"value", t.value},
          {"words", t.words}};
}

ScoreTerm readTerm(JsonReader& r) {
  return {r.text("name"), r.number("weight"), r.number("amount"), r.number("value"),
          r.text("words", "")};
}

nlohmann::json panelJson(const PlannedPanel& p) {
  nlohmann::json j{{"part", p.part.text},
                   {"copy", p.copy},
                   {"glue_line_mm", p.glueLineMm},
                   {"sub_panel_starts", p.subPanelStarts},
                   {"remarks", p.remarks}};
  j["strips"] = j["turned"] = nlohmann::json::array();
  for (const PieceId& id : p.strips) j["strips"].push_back(id.text);
  for (const PieceId& id : p.turned) j["turned"].push_back(id.text);
  addExtra(j, *p.extra);
  return j;
}

PlannedPanel readPanel(JsonReader& r) {
  PlannedPanel p;
  p.part.text = r.text("part");
  p.copy = static_cast<int>(r.integer("copy", 1, kMany));
  p.glueLineMm = r.number("glue_line_mm", 0);
  for (const std::string& id : r.texts("strips")) p.strips.push_back({id});
  for (const std::string& id : r.texts("turned")) p.turned.push_back({id});
  if (r.has("sub_panel_starts"))
    for (const double start : r.numbers("sub_panel_starts")) {
      if (start < 0 || start > kMany) r.fail("sub_panel_starts", "a list of places in strips");
      if (!r.failed()) p.subPanelStarts.push_back(static_cast<int>(start));
    }
  p.remarks = r.texts("remarks");
  p.extra = r.extra();
  return p;
}

// Gives the terms' readers, which know what nobody asked for.
std::vector<JsonReader> readLists(JsonReader& r, Plan& plan) {
  for (JsonReader& blank : r.list("blanks")) plan.blanks.push_back(readBlank(blank));
  for (JsonReader& piece : r.list("pieces")) plan.pieces.push_back(readPiece(piece));
  for (JsonReader& cut : r.list("cuts")) plan.cuts.push_back(readCut(cut));
  for (JsonReader& unplaced : r.list("unplaced")) plan.unplaced.push_back(readUnplaced(unplaced));
  for (JsonReader& spare : r.list("spares")) plan.spares.push_back(readSpare(spare));
  for (JsonReader& panel : r.list("panels")) plan.panels.push_back(readPanel(panel));
  std::vector<JsonReader> terms = r.list("score");
  for (JsonReader& term : terms) plan.score.push_back(readTerm(term));
  return terms;
}

}  // namespace

nlohmann::json toJson(const Plan& plan) {
  nlohmann::json j = newDocument(planFormat());
  j.update({{"value", plan.value},
            {"bound", plan.bound},
            {"stock_mm2", plan.stockMm2},
            {"stock_bound_mm2", plan.stockBound},
            {"remarks", plan.remarks},
            {"stopped", plan.stopped},
            {"seconds", plan.seconds},
            {"seed", plan.seed}});
  for (const char* list : {"blanks", "pieces", "cuts", "unplaced"})
    j[list] = nlohmann::json::array();
  for (const Blank& b : plan.blanks) j["blanks"].push_back(blankJson(b));
  for (const Piece& p : plan.pieces) j["pieces"].push_back(pieceJson(p));
  for (const Cut& c : plan.cuts) j["cuts"].push_back(cutJson(c));
  for (const Unplaced& u : plan.unplaced) j["unplaced"].push_back(unplacedJson(u));
  for (const Spare& s : plan.spares) j["spares"].push_back(spareJson(s));
  for (const ScoreTerm& t : plan.score) j["score"].push_back(termJson(t));
  for (const PlannedPanel& p : plan.panels) j["panels"].push_back(panelJson(p));
  addItemExtras(j, "score", *plan.extra);
  addExtra(j, *plan.extra);
  return j;
}

Result<Plan> planFromJson(const nlohmann::json& j) {
  const auto current = upToDate(j, planFormat());
  if (!current) return current.error();
  std::string fault;
  JsonReader r(**current, "", fault);
  Plan plan;
  r.text("format");
  r.integer("version", 1, planFormat().version());
  const std::vector<JsonReader> terms = readLists(r, plan);
  plan.value = r.number("value");
  plan.bound = r.number("bound");
  plan.stockMm2 = r.number("stock_mm2", 0);
  plan.stockBound = r.number("stock_bound_mm2", 0);
  plan.remarks = r.texts("remarks");
  plan.stopped = r.text("stopped", "");
  plan.seconds = r.number("seconds", 0);
  plan.seed = r.wholeNumber("seed", 0);
  plan.extra = withItems(r.extra(), "score", terms);
  if (!fault.empty()) return Error{fault};
  return plan;
}

}  // namespace rackside
