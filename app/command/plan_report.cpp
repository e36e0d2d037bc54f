// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/plan_report.h"

#include <algorithm>
#include <numbers>

#include "app/command/console.h"
#include "core/plan/plan_difference.h"

namespace rackside::command {
namespace {

std::string boardName(const Rack& rack, const BoardId& id) {
  const Board* b = rack.findBoard(id);
  return b ? b->name : id.text;
}

std::string partName(const Rack& rack, const PartId& id) {
  const Part* p = rack.findPart(id);
  return p ? p->name : id.text;
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
          {"label", cut.label}};
}

nlohmann::json unplacedJson(const Rack& rack, const Unplaced& u) {
  nlohmann::json j{{"part", partName(rack, u.part)}, {"copy", u.copy}, {"why", u.why}};
  j["nearest"] = nullptr;
  if (u.nearest)
    j["nearest"] = {{"board", boardName(rack, u.nearest->board)},
                    {"short_by_mm", rounded(u.nearest->shortByMm)},
                    {"direction", u.nearest->direction}};
  return j;
}

}  // namespace

nlohmann::json planJson(const Rack& rack, const Plan& plan) {
  nlohmann::json j;
  j["placed"] = j["cuts"] = j["unplaced"] = nlohmann::json::array();
  for (const Piece& p : plan.pieces) j["placed"].push_back(placedJson(rack, p));
  for (const Cut& c : plan.cuts) j["cuts"].push_back(cutJson(rack, c));
  for (const Unplaced& u : plan.unplaced) j["unplaced"].push_back(unplacedJson(rack, u));
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
  return j;
}

std::string alternativeLine(const Plan& best, const Plan& other) {
  return "value " + fixed(other.value, 0) + " (" +
         fixed(100 * (other.value / std::max(1e-9, best.value) - 1), 1) + " %), " +
         fixed(other.stockMm2 / 1e6, 2) + " m² of wood, " +
         fixed(100 * shareElsewhere(best, other), 0) + " % of the pieces on other boards.";
}

std::vector<std::string> planLines(const Rack& rack, const Plan& plan, const LengthStyle& style) {
  std::vector<std::string> lines;
  for (const Board& board : rack.boards) {
    std::string line;
    for (const Piece& p : plan.pieces)
      if (p.board == board.id)
        line += (line.empty() ? "" : ", ") + partName(rack, p.part) + " " + std::to_string(p.copy);
    const auto cuts = std::count_if(plan.cuts.begin(), plan.cuts.end(),
                                    [&](const Cut& c) { return c.board == board.id; });
    if (!line.empty())
      lines.push_back("board " + board.name + ": " + line + "  (" + std::to_string(cuts) +
                      " cuts)");
  }
  for (const Unplaced& u : plan.unplaced) {
    std::string line =
        "not placed: " + partName(rack, u.part) + " " + std::to_string(u.copy) + ": " + u.why;
    if (u.nearest && u.nearest->shortByMm > 0)
      line += " (nearest: board " + boardName(rack, u.nearest->board) + ", short by " +
              formatLength(u.nearest->shortByMm, style) + " in " + u.nearest->direction + ")";
    lines.push_back(line);
  }
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
