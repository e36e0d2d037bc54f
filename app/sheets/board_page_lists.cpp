// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/board_page_lists.h"

#include <QStringList>
#include <map>

#include "app/sheets/hatch.h"
#include "app/sheets/own_units.h"

namespace rackside::sheets {
namespace {

constexpr double kRingMm = 5.2;
const TextLook kHead{3.6, true};

FlowRow heading(const QString& text) {
  return {6.2, [text](Sheet& sheet, const QRectF& r) {
            sheet.text(QRectF(r.left(), r.top(), r.width(), 5), text, kHead);
            sheet.line({r.left(), r.top() + 5.3}, {r.right(), r.top() + 5.3}, 0.3);
          }};
}

FlowRow note(const QString& text, double width, double size = 1) {
  const TextLook look{3.2 * size};
  const double height = Sheet::paragraphHeight(width, text, look);
  return {height + 0.8,
          [text, look](Sheet& sheet, const QRectF& r) { sheet.paragraph(r, text, look); }};
}

QString stepText(const CutStep& step, size_t sections) {
  QString text;
  if (step.section > 0 && sections > 1) text += QString("Section %1: ").arg(step.section);
  const QString where = QString::fromStdString(step.where);
  text += QString::fromStdString(step.what) + (where.startsWith("at ") ? " " : ": ") + where;
  if (!step.freed.empty()) {
    QStringList codes;
    for (const std::string& c : step.freed) codes << QString::fromStdString(c);
    text += " Frees " + codes.join(", ") + ".";
  }
  return text.replace(" mm", QChar(0xA0) + QString("mm"));  // a figure keeps its unit
}

QString sizeText(const PackInput& input, double length, double width, double thickness) {
  QString text = input.length(length, false) + " × " + input.length(width, false);
  if (thickness > 0) text += " × " + input.length(thickness, false);
  return text;
}

// "A, B: milled as one, parted afterwards" for each blank of several pieces.
QStringList milledTogether(const BoardWork& work) {
  std::map<const Blank*, QStringList> codes;
  for (const PieceLine& line : work.pieces)
    if (line.blank) codes[line.blank] << QString::fromStdString(line.code);
  QStringList words;
  for (const auto& [blank, list] : codes)
    if (list.size() > 1)
      words << list.join(", ") + ": one rough piece, milled as one, then parted.";
  words.sort();
  return words;
}

// Of a rough piece that keeps its surplus until last: where the finished wood lies in it.
QStringList placesInSurplus(const PackInput& input, const BoardWork& work) {
  constexpr double kWorthSayingMm = 30;
  std::map<const Blank*, std::pair<Rect, QStringList>> spans;
  for (const PieceLine& line : work.pieces) {
    if (!line.blank) continue;
    const Pose& pose = line.blank->boardFromBlank;
    auto& [span, codes] =
        spans.try_emplace(line.blank, Rect{1e9, 0, -1e9, 0}, QStringList()).first->second;
    for (const Point p : line.piece->outline) {
      const Point q = p - pose.origin;
      const double along = q.x * std::cos(pose.angleRad) + q.y * std::sin(pose.angleRad);
      span.x0 = std::min(span.x0, along), span.x1 = std::max(span.x1, along);
    }
    codes << QString::fromStdString(line.code);
  }
  QStringList words;
  for (const auto& [blank, found] : spans) {
    const auto& [span, codes] = found;
    const double surplus = blank->roughLengthMm - span.width() - input.rack.shop.lengthAllowanceMm;
    if (surplus >= kWorthSayingMm)
      words << codes.join(", ") + ": finish between " + input.length(span.x0, false) + " and " +
                   input.length(span.x1) + " from the left end of the rough piece.";
  }
  words.sort();
  return words;
}

FlowRow pieceRow(const PackInput& input, const PieceLine& line, double size) {
  const Piece& p = *line.piece;
  const QString code = QString::fromStdString(line.code);
  const QString title = QString::fromStdString(line.title());
  const double thickness = line.part ? line.part->thicknessMm : 0;
  QString sizes = "finished " + sizeText(input, p.lengthMm, p.widthMm, thickness);
  if (line.blank)
    sizes = "rough " + sizeText(input, line.blank->roughLengthMm, line.blank->roughWidthMm, 0) +
            "  " + sizes;
  if (line.part && line.part->showing == Showing::oneFace)
    sizes += p.showFace == Face::A ? "  shows A" : "  shows B";
  return {10.2 * size, [code, title, sizes, size](Sheet& sheet, const QRectF& r) {
            const double indent = 8 * size, first = 4.8 * size;
            sheet.text(QRectF(r.left(), r.top(), indent, first), code, {4 * size, true});
            const QRectF rest = r.adjusted(indent, 0, 0, 0);
            sheet.text(QRectF(rest.left(), r.top(), rest.width(), first), title,
                       {3.8 * size, true, 2.6});
            sheet.text(QRectF(rest.left(), r.top() + first, rest.width(), 4.4 * size), sizes,
                       {3.2 * size, false, 2.4});
          }};
}

}  // namespace

std::vector<FlowRow> cutRows(const BoardWork& work, double width, double size) {
  if (work.steps.empty()) return {note("No cuts are planned on this board.", width)};
  std::vector<FlowRow> rows{heading("Cuts, in this order")};
  const auto running = std::count_if(work.steps.begin(), work.steps.end(), [](const CutStep& step) {
    return step.runningMm && *step.runningMm > 0;
  });
  if (running > 1)
    rows.push_back(note(QString("Mark all lines first: the %1 crosscuts are measured from the %2, "
                                "which goes with the first piece.")
                            .arg(running)
                            .arg(work.freshCut ? "fresh end" : "left end"),
                        width, size));
  const double ring = kRingMm * size, indent = ring + 2.5;
  const TextLook look{3.8 * size};
  for (const CutStep& step : work.steps) {
    const QString text = stepText(step, work.sections.size());
    const QString number = QString::number(step.cut->order);
    const double height =
        std::max(ring + 0.8, Sheet::paragraphHeight(width - indent, text, look) + 1.2 * size);
    rows.push_back({height, [=](Sheet& sheet, const QRectF& r) {
                      sheet.ring({r.left() + ring / 2, r.top() + ring / 2}, ring, number);
                      sheet.paragraph(r.adjusted(indent, 0.3, 0, 0), text, look);
                    }});
  }
  return rows;
}

std::vector<FlowRow> pieceRows(const PackInput& input, const BoardWork& work, const Board& board,
                               double width, double size) {
  std::vector<FlowRow> rows;
  if (!work.pieces.empty()) rows.push_back(heading("Pieces from this board"));
  for (const PieceLine& line : work.pieces) rows.push_back(pieceRow(input, line, size));
  for (const QString& words : milledTogether(work)) rows.push_back(note(words, width, size));
  for (const QString& words : placesInSurplus(input, work))
    rows.push_back(note(words, width, size));
  for (const PieceLine& line : work.pieces)
    if (line.blank)
      for (const std::string& remark : line.blank->remarks)
        rows.push_back(note(QString::fromStdString(line.code + ": ") +
                                inOwnUnits(QString::fromStdString(remark), input.options.lengths),
                            width, size));
  if (const std::string words = stateWords(board); !words.empty())
    rows.push_back(note("NOT FOR THIS WORK: " + QString::fromStdString(words) + ".", width));
  if (!board.note.empty())
    rows.push_back(note("Note: " + QString::fromStdString(board.note), width));
  return rows;
}

void drawLegend(Sheet& sheet, const QRectF& row, const Board& board) {
  std::map<QString, const Mark*> kinds;
  for (const Mark& mark : board.marks)
    if (mark.confirmed) kinds.emplace(wordFor(mark), &mark);
  double x = row.left();
  const auto swatch = [&](const QString& word, Pattern pattern) {
    const double width = Sheet::textSize(word, {3}).width();
    if (x + 9 + width > row.right()) return;
    QPainterPath path;
    path.addRect(QRectF(x, row.top() + 0.7, 7, row.height() - 1.4));
    fillPattern(sheet.painter(), path, pattern);
    sheet.box(path.boundingRect(), 0.2);
    sheet.text(QRectF(x + 8, row.top(), width + 0.5, row.height()), word, {3});
    x += 12 + width;
  };
  swatch("waste", Pattern::wide);
  for (const auto& [word, mark] : kinds) swatch(word, patternOf(*mark));
  const QString keys = "thick line: finished piece   dashed: rough piece   dots: edge not sure";
  const double room = row.right() - x;
  if (Sheet::textSize(keys, {2.6}).width() <= room)
    sheet.text(QRectF(x, row.top(), room, row.height()), keys, {3, false, 2.6},
               Qt::AlignRight | Qt::AlignVCenter);
}

}  // namespace rackside::sheets
