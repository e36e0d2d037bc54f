// SPDX-License-Identifier: GPL-3.0-or-later
// What is to be filled: each hole shown on the picture of its piece, then the list, then how much
// of which filler.
#include "app/sheets/piece_picture.h"
#include "app/sheets/table.h"
#include "core/trade/fill_words.h"
#include "core/trade/safety_words.h"

namespace rackside::sheets {
namespace {

constexpr double kTileHeightMm = 44;
constexpr double kTileTextMm = 5;
constexpr double kGapMm = 5;
constexpr double kRingMm = 4;

QString words(const std::string& text) {
  return QString::fromStdString(text);
}

struct FillSheet {
  FillHabits habits;
  FillList list;
  std::map<PieceId, PieceLine> lines;
  std::map<PieceId, const Board*> boards;
};

FillSheet fillSheet(const PackInput& in, FillHabits habits) {
  FillSheet sheet{std::move(habits), {}, {}, {}};
  sheet.list = fillList(in.rack, *in.rack.plan, sheet.habits);
  for (size_t b = 0; b < in.works.size(); ++b)
    for (const PieceLine& line : in.works[b].pieces) {
      sheet.lines[line.piece->id] = line;
      sheet.boards[line.piece->id] = &in.rack.boards[b];
    }
  return sheet;
}

// One piece's face with its spots, numbered as in the list.
struct Tile {
  const Board* board = nullptr;
  const PieceLine* line = nullptr;
  Face face = Face::A;
  std::vector<size_t> spots;
};

std::vector<Tile> tilesOf(const FillSheet& sheet) {
  std::map<std::pair<PieceId, Face>, Tile> byFace;
  std::vector<std::pair<PieceId, Face>> order;
  for (size_t i = 0; i < sheet.list.spots.size(); ++i) {
    const FillSpot& spot = sheet.list.spots[i];
    const auto key = std::make_pair(spot.piece, spot.face);
    Tile& tile = byFace[key];
    if (tile.spots.empty()) order.push_back(key);
    tile.board = sheet.boards.at(spot.piece);
    tile.line = &sheet.lines.at(spot.piece);
    tile.face = spot.face;
    tile.spots.push_back(i);
  }
  std::vector<Tile> tiles;
  tiles.reserve(order.size());
  for (const auto& key : order) tiles.push_back(std::move(byFace[key]));
  return tiles;
}

void drawTile(Sheet& page, const PackInput& in, const FillSheet& sheet, const Tile& tile,
              const QRectF& room) {
  const Piece& piece = *tile.line->piece;
  page.text(QRectF(room.left(), room.top(), room.width(), kTileTextMm),
            wordForBoard(*tile.board) + ", piece " + words(tile.line->code) + ": " +
                words(tile.line->title()) + ", face " + (tile.face == Face::A ? "A" : "B"),
            {3.4, true});
  const QTransform paper =
      paperFromBoard(bounds(piece.outline), tile.face, room.adjusted(0, kTileTextMm + 1, 0, 0));
  drawPieceFace(page, in, *tile.board, piece, tile.face, paper);
  QPainter& painter = page.painter();
  for (const size_t i : tile.spots) {
    const QPainterPath spot = pathOnPaper(sheet.list.spots[i].area, paper);
    painter.strokePath(spot, QPen(Qt::white, 0.7));
    painter.strokePath(spot, QPen(Qt::black, 0.3));
    const QRectF box = spot.boundingRect();
    page.ring(
        QPointF(std::min(box.right() + kRingMm, room.right() - kRingMm / 2), box.center().y()),
        kRingMm, QString::number(i + 1));
  }
}

std::vector<Page> picturePages(const std::shared_ptr<const PackInput>& input,
                               const std::shared_ptr<const FillSheet>& sheet) {
  auto tiles = std::make_shared<const std::vector<Tile>>(tilesOf(*sheet));
  const QRectF body = input->area().adjusted(0, kHeaderMm, 0, 0);
  const int columns = 2;
  const int rows = std::max(1, int((body.height() + kGapMm) / (kTileHeightMm + kGapMm)));
  const double width = (body.width() - (columns - 1) * kGapMm) / columns;
  const auto perPage = size_t(columns) * size_t(rows);
  std::vector<Page> pages;
  for (size_t first = 0; first < tiles->size(); first += perPage)
    pages.push_back(
        {"Where to fill", [=](Sheet& page) {
           drawPlainHeader(page, "Where to fill",
                           "Pieces with what is left of their holes once they are milled; the "
                           "numbers are those of the list.");
           for (size_t i = first; i < std::min(tiles->size(), first + perPage); ++i) {
             const int column = int(i - first) % columns;
             const int row = int(i - first) / columns;
             drawTile(page, *input, *sheet, (*tiles)[i],
                      QRectF(body.left() + column * (width + kGapMm),
                             body.top() + row * (kTileHeightMm + kGapMm), width, kTileHeightMm));
           }
         }});
  return pages;
}

Table spotTable(const PackInput& in, const FillSheet& sheet) {
  Table t;
  t.title = "Holes to fill";
  t.subtitle =
      "What still shows in the parts after milling. Depth and volume are what is left then.";
  t.columns = {{"", 0.4, true}, {"Board", 1.4}, {"Piece", 0.95},      {"Part", 2.4},
               {"Face", 0.8},   {"Kind", 1.3},  {"Depth", 1.1, true}, {"Volume ml", 1.5, true},
               {"Filler", 2.4}, {"Mind", 3.4}};
  for (size_t i = 0; i < sheet.list.spots.size(); ++i) {
    const FillSpot& s = sheet.list.spots[i];
    const PieceLine& line = sheet.lines.at(s.piece);
    QString filler = words(fillerWord(s, sheet.habits));
    if (s.pours > 1) filler += QString(", %1 pours").arg(s.pours);
    t.rows.push_back(
        {QString::number(i + 1), wordForBoard(*sheet.boards.at(s.piece)), words(line.code),
         words(line.title()), s.face == Face::A ? "A" : "B", words(std::string(name(s.kind))),
         s.depthUnknown ? QString("?") : in.length(s.depthMm),
         s.depthUnknown
             ? QString("?")
             : QString("%1 ± %2").arg(s.volumeMl.value, 0, 'f', 2).arg(s.volumeMl.u95, 0, 'f', 2),
         filler, words(fillRemark(s))});
  }
  t.foot = words(fillCaution());
  if (sheet.list.drops > 0)
    t.foot +=
        QString(" %1 of them want a drop of thin glue each and no batch.").arg(sheet.list.drops);
  return t;
}

Table needTable(const FillSheet& sheet) {
  Table t;
  t.title = "Filler needed";
  t.subtitle =
      "Mixed for each round of pours, cup loss included, in batches neither too small to mix well "
      "nor so large that they heat up. Pour one face; turn the work once it is hard.";
  t.columns = {{"Filler", 3},
               {"In the holes, ml", 1.5, true},
               {"Mix, ml", 1, true},
               {"Mass, g", 1, true},
               {"Rounds", 0.8, true},
               {"Cups", 0.8, true},
               {"Hours before the next step", 2, true}};
  for (const FillerNeed& n : sheet.list.needs)
    t.rows.push_back({words(sheet.habits.fillers[n.filler].name),
                      QString::number(n.volumeMl, 'f', 1), QString::number(n.mixedMl, 'f', 1),
                      QString::number(n.massG, 'f', 0),
                      QString::number(n.pours) + (n.turned ? QString(", turned") : QString()),
                      QString::number(n.cups), QString::number(n.hours, 'f', 0)});
  t.foot = words(finishCaution());
  return t;
}

}  // namespace

std::vector<Page> fillPages(const std::shared_ptr<const PackInput>& input) {
  if (!input->rack.plan) return {};
  auto habits = fillHabits(input->rack.shop);
  if (!habits) return {};
  const auto sheet =
      std::make_shared<const FillSheet>(fillSheet(*input, std::move(habits.value())));
  if (sheet->list.spots.empty()) return {};
  std::vector<Page> pages = picturePages(input, sheet);
  for (Page& p : tablePages(input, {spotTable(*input, *sheet), needTable(*sheet)}))
    pages.push_back(std::move(p));
  return pages;
}

}  // namespace rackside::sheets
