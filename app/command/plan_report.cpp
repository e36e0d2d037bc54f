// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/plan_report.h"

#include <algorithm>
#include <numbers>

#include "app/command/console.h"
#include "app/command/rack_names.h"
#include "core/document/plan_summary.h"
#include "core/plan/plan_difference.h"
#include "core/plan/slice.h"

namespace rackside::command {
namespace {

std::string blankName(const Rack& rack, const Plan& plan, const Blank& blank) {
  for (const Piece& p : plan.pieces)
    if (p.blank == blank.id) return pieceName(rack, p) + " on board " + boardName(rack, p.board);
  return blank.id.text;
}

nlohmann::json pointJson(Point p) {
  return {rounded(p.x), rounded(p.y)};
}

nlohmann::json placedJson(const Rack& rack, const Piece& piece) {
  auto outline = nlohmann::json::array();
  for (const Point p : piece.outline) outline.push_back(pointJson(p));
  const Rect box = bounds(piece.outline);
  nlohmann::json j{{"part", partName(rack, piece.part)},
                   {"copy", piece.copy},
                   {"board", boardName(rack, piece.board)},
                   {"face", name(piece.showFace)},
                   {"x_mm", rounded(box.x0)},
                   {"y_mm", rounded(box.y0)},
                   {"length_mm", rounded(piece.lengthMm)},
                   {"width_mm", rounded(piece.widthMm)},
                   {"angle_deg", rounded(piece.angleRad * 180 / std::numbers::pi)},
                   {"outline_mm", std::move(outline)},
                   {"blank", piece.blank.text}};
  if (piece.kind == PieceKind::panelStrip) j["strip"] = piece.strip;
  return j;
}

nlohmann::json cutJson(const Rack& rack, const Cut& cut) {
  return {{"board", boardName(rack, cut.board)},
          {"order", cut.order},
          {"kind", name(cut.kind)},
          {"from_mm", pointJson(cut.line.from)},
          {"to_mm", pointJson(cut.line.to)},
          {"kerf_mm", rounded(cut.kerfMm)},
          {"made", cut.made},
          {"label", cut.label}};
}

// {} stands for the length that the rule gives way by.
std::string remedyWords(const Rack& rack, const Unplaced::Remedy& remedy,
                        const LengthStyle& style) {
  std::string words = remedy.words;
  if (const auto at = words.find("{}"); at != std::string::npos)
    words.replace(at, 2, formatLength(remedy.byMm, style));
  return words + " (board " + boardName(rack, remedy.board) + ")";
}

const Piece* findPiece(const Plan& plan, const PieceId& id) {
  for (const Piece& p : plan.pieces)
    if (p.id == id) return &p;
  return nullptr;
}

nlohmann::json panelJson(const Rack& rack, const Plan& plan, const PlannedPanel& panel) {
  nlohmann::json j{{"part", partName(rack, panel.part)},
                   {"copy", panel.copy},
                   {"glue_line_mm", rounded(panel.glueLineMm)},
                   {"sub_panel_starts", panel.subPanelStarts},
                   {"remarks", panel.remarks}};
  j["strips"] = nlohmann::json::array();
  for (const PieceId& id : panel.strips)
    if (const Piece* p = findPiece(plan, id))
      j["strips"].push_back(
          {{"strip", p->strip},
           {"board", boardName(rack, p->board)},
           {"face", name(p->showFace)},
           {"turned", std::count(panel.turned.begin(), panel.turned.end(), id) > 0},
           {"width_mm", rounded(p->widthMm)}});
  return j;
}

nlohmann::json unplacedJson(const Rack& rack, const Unplaced& u) {
  nlohmann::json j{{"part", partName(rack, u.part)}, {"copy", u.copy}, {"why", u.why}};
  j["nearest"] = nullptr;
  if (u.nearest)
    j["nearest"] = {{"board", boardName(rack, u.nearest->board)},
                    {"short_by_mm", rounded(u.nearest->shortByMm)},
                    {"direction", u.nearest->direction}};
  j["remedies"] = nlohmann::json::array();
  for (const Unplaced::Remedy& r : u.remedies)
    j["remedies"].push_back({{"rule", r.rule},
                             {"board", boardName(rack, r.board)},
                             {"by_mm", rounded(r.byMm)},
                             {"words", remedyWords(rack, r, {})}});
  return j;
}

// "3", or "3 to 6" for copies left out for one reason; `first` moves on past them.
std::string copiesAlike(const Plan& plan, size_t& first) {
  const Unplaced& from = plan.unplaced[first];
  const Unplaced* last = &from;
  while (++first < plan.unplaced.size()) {
    const Unplaced& next = plan.unplaced[first];
    if (next.part != from.part || next.why != from.why || next.copy != last->copy + 1) break;
    last = &next;
  }
  return std::to_string(from.copy) + (last == &from ? "" : " to " + std::to_string(last->copy));
}

std::string summaryLine(const PlanSummary& s) {
  std::string line = std::to_string(s.boards) + " boards opened (" + fixed(s.boardsM2, 2) + " m²";
  if (s.boardFeet > 0) line += ", " + fixed(s.boardFeet, 1) + " bd ft";
  line += "), yield " + fixed(100 * s.yieldShare, 0) + " %; " + std::to_string(s.cuts) + " cuts, " +
          std::to_string(s.edgesToJoint) + " edges to joint, " + std::to_string(s.fenceSettings) +
          " fence settings";
  if (s.price > 0) line += "; price " + fixed(s.price, 2);
  if (s.worstLook)
    line += "; worst look " + fixed(100 * *s.worstLook, 0) + " % (" + s.worstPiece + ")";
  return line + ".";
}

}  // namespace

nlohmann::json planJson(const Rack& rack, const Plan& plan) {
  nlohmann::json j;
  j["placed"] = j["cuts"] = j["unplaced"] = nlohmann::json::array();
  for (const Piece& p : plan.pieces) j["placed"].push_back(placedJson(rack, p));
  for (const Cut& c : plan.cuts) j["cuts"].push_back(cutJson(rack, c));
  for (const Unplaced& u : plan.unplaced) j["unplaced"].push_back(unplacedJson(rack, u));
  j["panels"] = nlohmann::json::array();
  for (const PlannedPanel& p : plan.panels) j["panels"].push_back(panelJson(rack, plan, p));
  j["score"] = nlohmann::json::array();
  for (const ScoreTerm& t : plan.score)
    j["score"].push_back({{"name", t.name},
                          {"weight", t.weight},
                          {"amount", t.amount},
                          {"value", t.value},
                          {"words", t.words}});
  j["remarks"] = plan.remarks;
  const PlanSummary summary = summaryOf(rack, plan);
  j["figures"] = {{"pieces", summary.pieces},
                  {"wanted", summary.wanted},
                  {"boards", summary.boards},
                  {"boards_m2", rounded(summary.boardsM2)},
                  {"board_feet", rounded(summary.boardFeet)},
                  {"yield", rounded(summary.yieldShare)},
                  {"cuts", summary.cuts},
                  {"edges_to_joint", summary.edgesToJoint},
                  {"fence_settings", summary.fenceSettings},
                  {"price", rounded(summary.price)},
                  {"worst_look", nullptr}};
  if (summary.worstLook) j["figures"]["worst_look"] = rounded(*summary.worstLook);
  j["value"] = plan.value;
  j["bound"] = plan.bound;
  j["gap"] = plan.gap();
  j["stock_mm2"] = rounded(plan.stockMm2);
  j["stock_bound_mm2"] = rounded(plan.stockBound);
  j["seconds"] = plan.seconds;
  j["stopped"] = plan.stopped;
  j["seed"] = plan.seed;
  return j;
}

nlohmann::json alternativeJson(const Rack& rack, const Plan& best, const Plan& other) {
  nlohmann::json j = planJson(rack, other);
  j["elsewhere_share"] = rounded(shareElsewhere(best, other));
  j["better_at"] = betterAt(rack.boards, best, other);
  return j;
}

std::string alternativeLine(const Rack& rack, const Plan& best, const Plan& other) {
  std::string better;
  for (const std::string& words : betterAt(rack.boards, best, other))
    better += (better.empty() ? "" : ", ") + words;
  return fixed(100 * shareElsewhere(best, other), 0) + " % of the pieces on other boards; value " +
         fixed(other.value, 0) + " (" +
         fixed(100 * (other.value / std::max(1e-9, best.value) - 1), 1) + " %), " +
         fixed(other.stockMm2 / 1e6, 2) + " m² of wood. " +
         (better.empty() ? "No better at anything that is counted." : "Better: " + better + ".");
}

std::vector<std::string> planLines(const Rack& rack, const Plan& plan, const LengthStyle& style) {
  std::vector<std::string> lines;
  for (const Board& board : rack.boards) {
    std::string line;
    for (const Piece& p : plan.pieces)
      if (p.board == board.id) line += (line.empty() ? "" : ", ") + pieceName(rack, p);
    const auto cuts = std::count_if(plan.cuts.begin(), plan.cuts.end(), [&](const Cut& c) {
      return c.board == board.id && !isJointed(c);
    });
    if (!line.empty())
      lines.push_back("board " + board.name + ": " + line + "  (" + std::to_string(cuts) +
                      " cuts)");
  }
  for (size_t i = 0; i < plan.unplaced.size();) {
    const Unplaced& u = plan.unplaced[i];
    std::string line =
        "not placed: " + partName(rack, u.part) + " " + copiesAlike(plan, i) + ": " + u.why;
    if (u.nearest && u.nearest->shortByMm > 0)
      line += " (nearest: board " + boardName(rack, u.nearest->board) + ", short by " +
              formatLength(u.nearest->shortByMm, style) + " in " + u.nearest->direction + ")";
    lines.push_back(line);
    for (const Unplaced::Remedy& r : u.remedies)
      lines.push_back("  would fit: " + remedyWords(rack, r, style));
  }
  for (const PlannedPanel& panel : plan.panels) {
    std::string line =
        "panel " + partName(rack, panel.part) + " " + std::to_string(panel.copy) + ": ";
    for (size_t i = 0; i < panel.strips.size(); ++i)
      if (const Piece* p = findPiece(plan, panel.strips[i]))
        line += (i > 0 ? ", " : "") + std::to_string(p->strip) + " of board " +
                boardName(rack, p->board) +
                (std::count(panel.turned.begin(), panel.turned.end(), p->id) ? " turned" : "");
    for (const std::string& remark : panel.remarks) line += "; " + remark;
    lines.push_back(line);
  }
  for (const Blank& blank : plan.blanks)
    for (const std::string& remark : blank.remarks)
      if (remark.rfind("dear", 0) == 0 || remark.rfind("too small", 0) == 0)
        lines.push_back(blankName(rack, plan, blank) + ": " + remark);
  for (const std::string& remark : plan.remarks) lines.push_back("note: " + remark);
  for (const ScoreTerm& t : plan.score)
    lines.push_back("value of " + t.name + ": " + fixed(t.weight, 3) + " × " + fixed(t.amount, 1) +
                    " = " + fixed(t.value, 1) + "  (" + t.words + ")");
  lines.push_back(summaryLine(summaryOf(rack, plan)));
  lines.push_back(std::to_string(plan.pieces.size()) + " pieces placed, " +
                  std::to_string(plan.unplaced.size()) + " not; value " + fixed(plan.value, 0) +
                  ", no plan is worth more than " + fixed(plan.bound, 0) + " (gap " +
                  fixed(100 * plan.gap(), 1) + " %); " + plan.stopped + " after " +
                  fixed(plan.seconds, 1) + " s.");
  std::string stock = "Wood used: " + fixed(plan.stockMm2 / 1e6, 2) + " m²";
  if (plan.stockBound > 0)
    stock +=
        "; no plan that places as much uses less than " + fixed(plan.stockBound / 1e6, 2) + " m²";
  lines.push_back(stock + ".");
  return lines;
}

}  // namespace rackside::command
