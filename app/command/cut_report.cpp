// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/cut_report.h"

#include <algorithm>
#include <map>

#include "app/command/console.h"
#include "app/command/rack_names.h"
#include "core/document/cut_order.h"

namespace rackside::command {
namespace {

bool shows(const Rack& rack, const Piece& piece) {
  const Part* part = rack.findPart(piece.part);
  return part && part->showing != Showing::none;
}

nlohmann::json pointJson(Point p) {
  return {rounded(p.x), rounded(p.y)};
}

nlohmann::json pieceJson(const Rack& rack, const Piece& piece) {
  return {{"part", partName(rack, piece.part)},
          {"copy", piece.copy},
          {"shows", shows(rack, piece)},
          {"worth", piece.worth}};
}

nlohmann::json spareJson(const Rack& rack, const Spare& spare) {
  const auto piece = std::find_if(rack.plan->pieces.begin(), rack.plan->pieces.end(),
                                  [&](const Piece& p) { return p.id == spare.piece; });
  nlohmann::json j =
      piece == rack.plan->pieces.end()
          ? nlohmann::json{{"piece", spare.piece.text}}
          : nlohmann::json{{"part", partName(rack, piece->part)}, {"copy", piece->copy}};
  j["board"] = nullptr;
  if (spare.board) {
    j["board"] = boardName(rack, *spare.board);
    j["place_mm"] = {rounded(spare.place.x0), rounded(spare.place.y0), rounded(spare.place.x1),
                     rounded(spare.place.y1)};
    j["whole_board"] = spare.wholeBoard;
  }
  return j;
}

nlohmann::json turnJson(const Rack& rack, const CutTurn& turn) {
  const Cut& cut = *turn.cut;
  nlohmann::json j{{"board", boardName(rack, cut.board)},
                   {"order", cut.order},
                   {"kind", name(cut.kind)},
                   {"label", cut.label},
                   {"from_mm", pointJson(cut.line.from)},
                   {"to_mm", pointJson(cut.line.to)}};
  j["for"] = nullptr;
  if (turn.piece) j["for"] = pieceJson(rack, *turn.piece);
  return j;
}

std::string spareWords(const Rack& rack, const Spare* spare, const LengthStyle& style) {
  if (!spare || !spare->board) return "no spare stock";
  const std::string board = "board " + boardName(rack, *spare->board);
  if (spare->wholeBoard) return "spare: " + board + ", on which nothing is planned";
  return "spare: " + board + ", the offcut from " + formatLength(spare->place.x0, style) +
         " along and " + formatLength(spare->place.y0, style) + " in";
}

// One line a piece, with the cuts that lead to it.
struct Group {
  const CutTurn* first = nullptr;
  std::string cuts;
};

std::vector<Group> groupsOf(const Rack& rack, const std::vector<CutTurn>& turns,
                            const Board* board) {
  std::vector<Group> groups;
  for (const CutTurn& turn : turns) {
    if (board && turn.cut->board != board->id) continue;
    const std::string step =
        std::to_string(turn.cut->order) + " " + std::string(name(turn.cut->kind));
    const bool same = !groups.empty() && groups.back().first->piece == turn.piece &&
                      groups.back().first->cut->board == turn.cut->board;
    if (same)
      groups.back().cuts += ", " + step;
    else
      groups.push_back({&turn, "board " + boardName(rack, turn.cut->board) + ": " + step});
  }
  return groups;
}

std::string progressLine(const Rack& rack, const Board& board) {
  int made = 0, all = 0;
  for (const Cut& cut : rack.plan->cuts)
    if (cut.board == board.id) ++all, made += cut.made ? 1 : 0;
  if (all == 0) return {};
  if (made == all)
    return "board " + board.name + ": all " + std::to_string(all) + " cuts made" +
           (board.cutUp ? ", cut up" : "; rackside cut done puts its offcuts back on the rack");
  return "board " + board.name + ": " + std::to_string(made) + " of " + std::to_string(all) +
         " cuts made";
}

}  // namespace

nlohmann::json cutListJson(const Rack& rack, const Board* board) {
  nlohmann::json j;
  j["cuts"] = j["boards"] = j["spares"] = nlohmann::json::array();
  for (const CutTurn& turn : cutsByRisk(rack))
    if (!board || turn.cut->board == board->id) j["cuts"].push_back(turnJson(rack, turn));
  for (const Board& b : rack.boards) {
    if (board && b.id != board->id) continue;
    int made = 0, all = 0;
    for (const Cut& cut : rack.plan->cuts)
      if (cut.board == b.id) ++all, made += cut.made ? 1 : 0;
    if (all > 0)
      j["boards"].push_back(
          {{"board", b.name}, {"made", made}, {"cuts", all}, {"cut_up", b.cutUp}});
  }
  for (const Spare& spare : rack.plan->spares) j["spares"].push_back(spareJson(rack, spare));
  return j;
}

std::vector<std::string> cutListLines(const Rack& rack, const Board* board,
                                      const LengthStyle& style) {
  std::vector<std::string> lines;
  const std::vector<CutTurn> turns = cutsByRisk(rack);
  for (const Group& group : groupsOf(rack, turns, board)) {
    std::string line = std::to_string(lines.size() + 1) + ". " + group.cuts;
    if (const Piece* piece = group.first->piece) {
      line += "  → " + pieceName(rack, *piece);
      if (shows(rack, *piece))
        line += " (shows; " + spareWords(rack, group.first->spare, style) + ")";
    } else {
      line += "  → what is left";
    }
    lines.push_back(line);
  }
  if (lines.empty()) lines.emplace_back("No cut is left to make.");
  for (const Board& b : rack.boards)
    if (!board || b.id == board->id)
      if (const std::string line = progressLine(rack, b); !line.empty()) lines.push_back(line);
  return lines;
}

std::vector<PlanChange> changesBetween(const Plan& before, const Plan& after) {
  std::map<std::tuple<PartId, int, int>, PlanChange> all;
  const auto entry = [&](const Piece& p) -> PlanChange& {
    PlanChange& change = all[{p.part, p.copy, p.strip}];
    change.part = p.part;
    change.copy = p.copy;
    return change;
  };
  for (const Piece& p : before.pieces) entry(p).before = &p;
  for (const Piece& p : after.pieces) entry(p).after = &p;
  std::vector<PlanChange> changes;
  for (const auto& [key, c] : all)
    if (!c.before || !c.after || c.before->board != c.after->board ||
        c.before->outline != c.after->outline)
      changes.push_back(c);
  return changes;
}

nlohmann::json changesJson(const Rack& rack, const std::vector<PlanChange>& changes) {
  auto list = nlohmann::json::array();
  const auto board = [&](const Piece* piece) -> nlohmann::json {
    if (!piece) return nullptr;
    return boardName(rack, piece->board);
  };
  for (const PlanChange& c : changes)
    list.push_back({{"part", partName(rack, c.part)},
                    {"copy", c.copy},
                    {"was_on", board(c.before)},
                    {"is_on", board(c.after)}});
  return list;
}

std::vector<std::string> changeLines(const Rack& rack, const std::vector<PlanChange>& changes) {
  std::vector<std::string> lines;
  for (const PlanChange& c : changes) {
    const std::string who = pieceName(rack, c.after ? *c.after : *c.before);
    if (!c.after)
      lines.push_back(who + ": lost its place on board " + boardName(rack, c.before->board));
    else if (!c.before)
      lines.push_back(who + ": now on board " + boardName(rack, c.after->board));
    else if (c.before->board == c.after->board)
      lines.push_back(who + ": moved on board " + boardName(rack, c.after->board));
    else
      lines.push_back(who + ": from board " + boardName(rack, c.before->board) + " to board " +
                      boardName(rack, c.after->board));
  }
  if (lines.empty()) lines.emplace_back("The plan stands as it was.");
  return lines;
}

}  // namespace rackside::command
