// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/tables_csv.h"

#include "app/sheets/board_work.h"
#include "core/base/csv.h"
#include "core/base/number_text.h"
#include "core/job/parts_table.h"
#include "core/trade/fill_words.h"
#include "core/trade/rack_totals.h"
#include "core/trade/tally.h"

namespace rackside::sheets {
namespace {

using Rows = std::vector<std::vector<std::string>>;
const LengthStyle kTenths{UnitSystem::millimetres, 1, 16};

std::string number(double v, int decimals = 1) {
  return fixedText(v, decimals);
}

std::string boardName(const Rack& rack, const BoardId& id) {
  const Board* b = rack.findBoard(id);
  return b ? b->name : id.text;
}

std::string partName(const Rack& rack, const PartId& id) {
  const Part* p = rack.findPart(id);
  return p ? p->name : id.text;
}

Rows boardRows(const Rack& rack) {
  Rows rows{{"board", "tag", "place", "species", "thickness mm", "length mm", "length u95 mm",
             "width mm", "area mm2", "surface measure ft2", "board feet", "price per board foot",
             "id"}};
  for (const Board& b : rack.boards) {
    const double width = tallyWidthMm(b.outline);
    const int measure = surfaceMeasure(width, b.lengthMm.value);
    rows.push_back(
        {b.name, b.tag ? std::to_string(*b.tag) : "", b.place, b.species, number(b.thicknessMm),
         number(b.lengthMm.value), number(b.lengthMm.u95), number(width),
         number(area({b.outline.polygon()}), 0), std::to_string(measure),
         b.thicknessMm > 0 ? number(boardFeet(measure, nominalThicknessIn(b.thicknessMm)), 2) : "",
         number(b.pricePerBoardFoot, 2), b.id.text});
  }
  return rows;
}

Rows markRows(const Rack& rack) {
  Rows rows{{"board", "kind", "face", "from x mm", "to x mm", "from y mm", "to y mm", "through",
             "depth mm", "note", "id"}};
  for (const Board& b : rack.boards)
    for (const Mark& m : b.marks)
      for (const Face f : {Face::A, Face::B}) {
        if (!m.on(f) || !m.confirmed) continue;
        for (const Polygon& p : polygonsOf(*m.on(f))) {
          const Rect r = bounds(p);
          rows.push_back({b.name, std::string(name(m.kind)), std::string(name(f)), number(r.x0),
                          number(r.x1), number(r.y0), number(r.y1), m.through ? "yes" : "no",
                          m.depthMm ? number(*m.depthMm) : "", m.note, m.id.text});
        }
      }
  return rows;
}

Rows pieceRows(const Rack& rack) {
  Rows rows{{"part", "copy", "strip", "board", "piece", "rough length mm", "rough width mm",
             "length mm", "width mm", "thickness mm", "x mm", "y mm", "face", "id"}};
  for (const Board& b : rack.boards)
    for (const PieceLine& line : boardWork(rack, b, kTenths).pieces) {
      const Piece& p = *line.piece;
      const Rect box = bounds(p.outline);
      rows.push_back({partName(rack, p.part), std::to_string(p.copy),
                      p.kind == PieceKind::panelStrip ? std::to_string(p.strip) : "", b.name,
                      line.code, line.blank ? number(line.blank->roughLengthMm) : "",
                      line.blank ? number(line.blank->roughWidthMm) : "", number(p.lengthMm),
                      number(p.widthMm), line.part ? number(line.part->thicknessMm) : "",
                      number(box.x0), number(box.y0), std::string(name(p.showFace)), p.id.text});
    }
  return rows;
}

Rows cutRows(const Rack& rack) {
  Rows rows{{"board", "order", "cut", "section", "where", "frees", "from x mm", "from y mm",
             "to x mm", "to y mm", "kerf mm"}};
  for (const Board& b : rack.boards)
    for (const CutStep& s : boardWork(rack, b, kTenths).steps) {
      std::string freed;
      for (const std::string& code : s.freed) freed += (freed.empty() ? "" : " ") + code;
      rows.push_back({b.name, std::to_string(s.cut->order), s.what,
                      s.section > 0 ? std::to_string(s.section) : "", s.where, freed,
                      number(s.cut->line.from.x), number(s.cut->line.from.y),
                      number(s.cut->line.to.x), number(s.cut->line.to.y), number(s.cut->kerfMm)});
    }
  return rows;
}

Rows unplacedRows(const Rack& rack) {
  Rows rows{{"part", "copy", "why", "nearest board", "short by mm", "direction"}};
  for (const Unplaced& u : rack.plan->unplaced)
    rows.push_back({partName(rack, u.part), std::to_string(u.copy), u.why,
                    u.nearest ? boardName(rack, u.nearest->board) : "",
                    u.nearest ? number(u.nearest->shortByMm) : "",
                    u.nearest ? u.nearest->direction : ""});
  return rows;
}

Rows fillRows(const Rack& rack, const FillHabits& habits) {
  Rows rows{{"board", "part", "copy", "face", "kind", "depth mm", "volume ml", "u95 ml", "filler",
             "pours", "mind", "mark id", "piece id"}};
  for (const FillSpot& s : fillList(rack, *rack.plan, habits).spots)
    rows.push_back(
        {boardName(rack, s.board), partName(rack, s.part), std::to_string(s.copy),
         std::string(name(s.face)), std::string(name(s.kind)),
         s.depthUnknown ? "" : number(s.depthMm), s.depthUnknown ? "" : number(s.volumeMl.value, 2),
         s.depthUnknown ? "" : number(s.volumeMl.u95, 2), fillerWord(s, habits),
         s.pours > 0 ? std::to_string(s.pours) : "", fillRemark(s), s.mark.text, s.piece.text});
  return rows;
}

}  // namespace

std::map<std::string, std::string> csvTables(const Rack& rack) {
  std::map<std::string, std::string> files{{"boards.csv", csvText(boardRows(rack))},
                                           {"marks.csv", csvText(markRows(rack))},
                                           {"parts.csv", partsToCsv(rack.parts, kTenths)},
                                           {"tally.csv", tallyToCsv(tallyLines(rack))}};
  if (!rack.plan) return files;
  files["pieces.csv"] = csvText(pieceRows(rack));
  files["cuts.csv"] = csvText(cutRows(rack));
  files["unplaced.csv"] = csvText(unplacedRows(rack));
  if (const auto habits = fillHabits(rack.shop))
    files["fills.csv"] = csvText(fillRows(rack, *habits));
  return files;
}

}  // namespace rackside::sheets
