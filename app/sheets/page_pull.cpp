// SPDX-License-Identifier: GPL-3.0-or-later
// The overview: which boards to pull from the rack, in the order of where they stand, what comes
// out of each, and what still has to be looked at before the saw; then what the plan leaves out.
#include <algorithm>

#include "app/sheets/plan_tables.h"
#include "core/wood/looked_over.h"

namespace rackside::sheets {
namespace {

QString words(const std::string& text) {
  return QString::fromStdString(text);
}

QString lookOver(const Board& board) {
  QString text;
  for (const Face f : facesToLookOver(board))
    text += (text.isEmpty() ? "" : ", ") + QString("face ") + QString::fromLatin1(name(f).data());
  for (const Face f : {Face::A, Face::B})
    if (!board.seen(f))
      text += (text.isEmpty() ? "" : ", ") + QString("face ") +
              QString::fromLatin1(name(f).data()) + " (never photographed)";
  return text;
}

// What comes out of a board: "2 Door rail, 1 Stile".
QString pieces(const PackInput& in, const BoardWork& work) {
  std::vector<std::pair<QString, int>> counts;
  for (const PieceLine& line : work.pieces) {
    const Part* part = in.rack.findPart(line.piece->part);
    const QString title = words(part ? part->name : line.piece->part.text);
    const auto found =
        std::find_if(counts.begin(), counts.end(), [&](const auto& c) { return c.first == title; });
    if (found == counts.end())
      counts.emplace_back(title, 1);
    else
      ++found->second;
  }
  QString text;
  for (const auto& [title, count] : counts)
    text += (text.isEmpty() ? "" : ", ") + QString("%1 %2").arg(count).arg(title);
  return text;
}

}  // namespace

std::vector<Page> pullPages(const std::shared_ptr<const PackInput>& input) {
  Table t;
  t.title = "Boards to pull, in order";
  t.columns = {{"", 0.4, true},        {"Board", 1.3},
               {"Location", 1.6},      {"Species", 1.2},
               {"Length", 1.1, true},  {"Thick", 0.9, true},
               {"Comes out of it", 4}, {"Still to look over", 1.8}};
  std::vector<size_t> used;
  for (size_t i = 0; i < input->works.size(); ++i)
    if (!input->works[i].pieces.empty()) used.push_back(i);
  std::stable_sort(used.begin(), used.end(), [&](size_t a, size_t b) {
    return input->rack.boards[a].place < input->rack.boards[b].place;
  });
  for (const size_t i : used) {
    const Board& board = input->rack.boards[i];
    t.rows.push_back({QString::number(t.rows.size() + 1), wordForBoard(board), words(board.place),
                      words(board.species), input->length(board.lengthMm.value, false),
                      board.thicknessMm > 0 ? input->length(board.thicknessMm, false) : QString(),
                      pieces(*input, input->works[i]), lookOver(board)});
  }
  t.foot = sawCaution();
  std::vector<Table> tables{std::move(t)};
  for (Table& more : planTables(*input)) {
    more.foot = sawCaution();
    tables.push_back(std::move(more));
  }
  return tablePages(input, std::move(tables));
}

}  // namespace rackside::sheets
