// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/cut_up.h"

#include <algorithm>

#include "core/document/edits.h"
#include "core/plan/cut_tree.h"
#include "core/plan/made_cuts.h"
#include "core/plan/stock.h"
#include "core/wood/offcut.h"

namespace rackside {
namespace {

std::string freeName(const Rack& rack, const Board& board, int& number) {
  std::string name;
  do {
    name = board.name + "/" + std::to_string(number++);
  } while (std::any_of(rack.boards.begin(), rack.boards.end(),
                       [&](const Board& b) { return b.name == name; }));
  return name;
}

Status mayFinish(const Rack& rack, const Board& board) {
  if (board.cutUp) return Error{"Board " + board.name + " is cut up already."};
  if (!rack.plan || !hasMadeCuts(*rack.plan, board.id))
    return Error{"Nothing of board " + board.name +
                 " has been cut: tick its cuts first (rackside cut made)."};
  for (const Cut& cut : rack.plan->cuts)
    if (cut.board == board.id && !cut.made)
      return Error{"Cut " + std::to_string(cut.order) + " of board " + board.name +
                   " is not made yet: tick it, or plan without it first."};
  return success();
}

}  // namespace

Polygons offcutsOf(const Board& board, const Plan& plan, const Shop& shop) {
  const CutTree tree(board, plan);
  Polygons offcuts;
  for (const CutTree::Key& key : tree.leaves())
    for (const Polygon& piece : tree.region(key))
      if (signedArea(piece) > 0 && worthKeeping(piece, shop) && !holdsBlank(piece, plan, board.id))
        offcuts.push_back(piece);
  return offcuts;
}

std::vector<Board> offcutBoards(const Rack& rack, const Board& board) {
  std::vector<Board> boards;
  int number = 1;
  for (const Polygon& piece : offcutsOf(board, *rack.plan, rack.shop))
    boards.push_back(offcutBoard(board, piece, freeName(rack, board, number)));
  return boards;
}

Result<std::unique_ptr<Edit>> finishCutting(const Rack& rack, const BoardId& id) {
  const Board* board = rack.findBoard(id);
  if (!board) return Error{"That board is no longer on the rack; nothing was changed."};
  if (const Status may = mayFinish(rack, *board); !may) return may.error();
  std::vector<std::unique_ptr<Edit>> edits;
  Board done = *board;
  done.cutUp = true;
  edits.push_back(changeBoard(std::move(done)));
  for (Board& offcut : offcutBoards(rack, *board)) edits.push_back(addBoard(std::move(offcut)));
  return together("Cutting of board " + board->name + " done", std::move(edits));
}

}  // namespace rackside
