// SPDX-License-Identifier: GPL-3.0-or-later
// The parts: each as it will look, where it comes from, at what size; for the overview what found
// no place, with the reason, the panels, and the remarks.
#include <algorithm>
#include <set>

#include "app/sheets/own_units.h"
#include "app/sheets/piece_picture.h"
#include "app/sheets/plan_tables.h"

namespace rackside::sheets {
namespace {

constexpr int kTileColumns = 3;
constexpr double kTileHeightMm = 28, kTileWordsMm = 10, kTileGapMm = 5;

QString boardWord(const Rack& rack, const BoardId& id) {
  const Board* b = rack.findBoard(id);
  return b ? wordForBoard(*b) : QString::fromStdString(id.text);
}

QString partWord(const Rack& rack, const PartId& id) {
  const Part* p = rack.findPart(id);
  return QString::fromStdString(p ? p->name : id.text);
}

std::vector<QString> pieceRow(const PackInput& in, const Board& board, const PieceLine& line) {
  const Piece& p = *line.piece;
  QString title = QString::fromStdString(line.part ? line.part->name : p.part.text);
  if (p.kind == PieceKind::panelStrip) title += QString(", strip %1").arg(p.strip);
  const QString rough = line.blank ? in.length(line.blank->roughLengthMm, false) + " × " +
                                         in.length(line.blank->roughWidthMm, false)
                                   : QString();
  QString finished = in.length(p.lengthMm, false) + " × " + in.length(p.widthMm, false);
  if (line.part) finished += " × " + in.length(line.part->thicknessMm, false);
  QString remarks;
  if (line.part && line.part->showing == Showing::oneFace)
    remarks = p.showFace == Face::A ? "face A shows" : "face B shows";
  if (line.part && line.part->showing == Showing::bothFaces) remarks = "both faces show";
  if (line.blank)
    for (const std::string& r : line.blank->remarks)
      remarks += (remarks.isEmpty() ? "" : "; ") +
                 inOwnUnits(QString::fromStdString(r), in.options.lengths);
  const QString copy =
      line.part ? QString("%1 of %2").arg(p.copy).arg(line.part->copies) : QString::number(p.copy);
  return {title,    copy,   wordForBoard(board), QString::fromStdString(line.code), rough,
          finished, remarks};
}

QString unitWord(const PackInput& in) {
  return in.options.lengths.system == UnitSystem::inches ? "inches" : "millimetres";
}

Table placedTable(const PackInput& in) {
  Table t;
  t.title = "Parts and where they come from";
  t.columns = {{"Part", 3.2},        {"Copy", 1.0},           {"Board", 1.5},  {"Piece", 0.7},
               {"Rough", 1.7, true}, {"Finished", 2.2, true}, {"Remarks", 3.4}};
  for (const Part& part : in.rack.parts)
    for (size_t b = 0; b < in.works.size(); ++b)
      for (const PieceLine& line : in.works[b].pieces)
        if (line.piece->part == part.id) t.rows.push_back(pieceRow(in, in.rack.boards[b], line));
  t.subtitle = QString(
                   "%1 pieces placed, %2 not. Length × width × thickness in %3; the code is "
                   "the letter on the board's sheet.")
                   .arg(in.rack.plan->pieces.size())
                   .arg(in.rack.plan->unplaced.size())
                   .arg(unitWord(in));
  t.foot = millingCaution();
  return t;
}

// "Board 7 piece B" for a strip.
QString stripWord(const PackInput& in, const PieceId& id) {
  for (size_t b = 0; b < in.works.size(); ++b)
    for (const PieceLine& line : in.works[b].pieces)
      if (line.piece->id == id)
        return wordForBoard(in.rack.boards[b]) + " piece " + QString::fromStdString(line.code) +
               (line.piece->showFace == Face::A ? ", face A up" : ", face B up");
  return "lost";
}

// Strips side by side as they will be seen, from the panel's near edge.
Table panelTable(const PackInput& in) {
  Table t;
  t.title = "Panels, strip by strip";
  t.subtitle = "In the order they lie, from the near edge. Joint each glued edge by " +
               in.length(in.rack.shop.glueLineAllowanceMm) +
               "; a line shows where a part is glued up first.";
  t.columns = {{"Panel", 2.5}, {"Copy", 0.8}, {"Strips in order", 8}, {"Remarks", 4}};
  for (const PlannedPanel& panel : in.rack.plan->panels) {
    QString strips, remarks;
    for (size_t i = 0; i < panel.strips.size(); ++i) {
      const bool starts = std::find(panel.subPanelStarts.begin(), panel.subPanelStarts.end(),
                                    int(i)) != panel.subPanelStarts.end();
      if (i > 0) strips += starts ? "  |  " : ";  ";
      strips += QString("%1: ").arg(i + 1) + stripWord(in, panel.strips[i]);
      if (std::count(panel.turned.begin(), panel.turned.end(), panel.strips[i]) > 0)
        strips += ", turned end for end";
    }
    for (const std::string& r : panel.remarks)
      remarks += (remarks.isEmpty() ? "" : "; ") +
                 inOwnUnits(QString::fromStdString(r), in.options.lengths);
    t.rows.push_back({partWord(in.rack, panel.part), QString::number(panel.copy), strips, remarks});
  }
  return t;
}

// Where each part that shows could come from once more, should a piece fail.
Table spareTable(const PackInput& in) {
  Table t;
  t.title = "Spare stock for the parts that show";
  t.subtitle =
      "Cut these first, while it is there. Lengths from the board's left end and near edge.";
  t.columns = {{"Part", 3}, {"Spare", 7}};
  std::set<PartId> told;
  for (const Spare& spare : in.rack.plan->spares)
    for (const Piece& piece : in.rack.plan->pieces) {
      if (piece.id != spare.piece || !told.insert(piece.part).second) continue;
      QString where = "none: nothing that is left would hold it";
      if (spare.board && spare.wholeBoard)
        where = boardWord(in.rack, *spare.board) + ", on which nothing is planned";
      else if (spare.board)
        where = boardWord(in.rack, *spare.board) + ", in the offcut from " +
                in.length(spare.place.x0) + " along and " + in.length(spare.place.y0) + " in";
      t.rows.push_back({partWord(in.rack, piece.part), where});
    }
  return t;
}

Table unplacedTable(const PackInput& in) {
  Table t;
  t.title = "Parts that found no place";
  t.subtitle = "The nearest board, by how much it falls short, and why.";
  t.columns = {{"Part", 3}, {"Copy", 0.8}, {"Why", 6}, {"Nearest", 4}};
  for (const Unplaced& u : in.rack.plan->unplaced) {
    QString nearest;
    if (u.nearest) nearest = boardWord(in.rack, u.nearest->board);
    if (u.nearest && u.nearest->shortByMm > 0)
      nearest += ", short by " + in.length(u.nearest->shortByMm) + " in " +
                 QString::fromStdString(u.nearest->direction);
    QString why = inOwnUnits(QString::fromStdString(u.why), in.options.lengths);
    for (const Unplaced::Remedy& r : u.remedies)
      why += "; would fit " + QString::fromStdString(r.words).replace("{}", in.length(r.byMm)) +
             " (" + boardWord(in.rack, r.board) + ")";
    t.rows.push_back({partWord(in.rack, u.part), QString::number(u.copy), why, nearest});
  }
  return t;
}

Table remarksTable(const PackInput& in) {
  Table t;
  t.title = "Remarks on the plan";
  t.columns = {{"Remark", 1}};
  for (const std::string& r : in.rack.plan->remarks)
    t.rows.push_back({inOwnUnits(QString::fromStdString(r), in.options.lengths)});
  return t;
}

struct Tile {
  const Board* board = nullptr;
  PieceLine line;
};

QString lookWord(const PieceLine& line) {
  const QString face = line.piece->showFace == Face::A ? "A" : "B";
  if (!line.part || line.part->showing == Showing::none) return "face " + face;
  return line.part->showing == Showing::bothFaces ? "both faces show, here " + face
                                                  : "face " + face + " shows";
}

void drawTile(Sheet& page, const PackInput& in, const Tile& tile, const QRectF& room) {
  const Piece& piece = *tile.line.piece;
  const double line = kTileWordsMm / 2;
  page.text(QRectF(room.left(), room.top(), room.width(), line),
            QString::fromStdString(tile.line.title()), {3.8, true});
  page.text(QRectF(room.left(), room.top() + line, room.width(), line - 0.5),
            wordForBoard(*tile.board) + ", piece " + QString::fromStdString(tile.line.code) + ", " +
                in.length(piece.lengthMm, false) + " × " + in.length(piece.widthMm) + ", " +
                lookWord(tile.line),
            {3.1});
  drawPieceFace(page, in, *tile.board, piece, piece.showFace,
                paperFromBoard(bounds(piece.outline), piece.showFace,
                               room.adjusted(0, kTileWordsMm + 0.5, 0, 0)));
}

std::vector<Page> picturePages(const std::shared_ptr<const PackInput>& input) {
  auto tiles = std::make_shared<std::vector<Tile>>();
  for (const Part& part : input->rack.parts)
    for (size_t b = 0; b < input->works.size(); ++b)
      for (const PieceLine& line : input->works[b].pieces)
        if (line.piece->part == part.id) tiles->push_back({&input->rack.boards[b], line});
  const QRectF body = input->area().adjusted(0, kHeaderMm, 0, 0);
  const int rows = std::max(1, int((body.height() + kTileGapMm) / (kTileHeightMm + kTileGapMm)));
  const double width = (body.width() - (kTileColumns - 1) * kTileGapMm) / kTileColumns;
  const auto perPage = size_t(kTileColumns) * size_t(rows);
  std::vector<Page> pages;
  for (size_t first = 0; first < tiles->size(); first += perPage)
    pages.push_back(
        {"Parts as they will look", [=](Sheet& page) {
           drawPlainHeader(
               page, "Parts as they will look",
               "Each finished outline as it lies in its board. The sizes are in the words. "
               "A card in the picture lay there when it was taken.");
           for (size_t i = first; i < std::min(tiles->size(), first + perPage); ++i) {
             const int column = int(i - first) % kTileColumns;
             const int row = int(i - first) / kTileColumns;
             drawTile(
                 page, *input, (*tiles)[i],
                 QRectF(body.left() + column * (width + kTileGapMm),
                        body.top() + row * (kTileHeightMm + kTileGapMm), width, kTileHeightMm));
           }
         }});
  return pages;
}

}  // namespace

std::vector<Table> planTables(const PackInput& in) {
  if (!in.rack.plan) return {};
  return {unplacedTable(in), panelTable(in), remarksTable(in)};
}

std::vector<Page> partsPages(const std::shared_ptr<const PackInput>& input) {
  if (!input->rack.plan) return {};
  std::vector<Page> pages = tablePages(input, {placedTable(*input), spareTable(*input)});
  for (Page& p : picturePages(input)) pages.push_back(std::move(p));
  return pages;
}

}  // namespace rackside::sheets
