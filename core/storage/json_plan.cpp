// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/name_table.h"
#include "core/storage/file_format.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_points.h"
#include "core/storage/json_reader.h"

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
  u.extra = r.extra();
  return u;
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
  addExtra(j, *plan.extra);
  return j;
}

Result<Plan> planFromJson(const nlohmann::json& j) {
  const Result<nlohmann::json> current = upToDate(j, planFormat());
  if (!current) return current.error();
  std::string fault;
  JsonReader r(*current, "", fault);
  Plan plan;
  r.text("format");
  r.integer("version", 1, planFormat().version());
  for (JsonReader& blank : r.list("blanks")) plan.blanks.push_back(readBlank(blank));
  for (JsonReader& piece : r.list("pieces")) plan.pieces.push_back(readPiece(piece));
  for (JsonReader& cut : r.list("cuts")) plan.cuts.push_back(readCut(cut));
  for (JsonReader& unplaced : r.list("unplaced")) plan.unplaced.push_back(readUnplaced(unplaced));
  plan.value = r.number("value");
  plan.bound = r.number("bound");
  plan.stockMm2 = r.number("stock_mm2", 0);
  plan.stockBound = r.number("stock_bound_mm2", 0);
  plan.remarks = r.texts("remarks");
  plan.stopped = r.text("stopped", "");
  plan.seconds = r.number("seconds", 0);
  plan.seed = r.wholeNumber("seed", 0);
  plan.extra = r.extra();
  if (!fault.empty()) return Error{fault};
  return plan;
}

}  // namespace rackside
