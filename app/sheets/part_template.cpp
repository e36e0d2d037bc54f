// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/part_template.h"

#include <algorithm>
#include <cmath>

#include "app/sheets/pdf_pages.h"
#include "core/trade/safety_words.h"

namespace rackside::sheets {
namespace {

constexpr double kHeadMm =
    25;  // above the drawn field: name, tile, cautions, bar to check the printing
constexpr double kCrossStepMm = 50, kCrossMm = 4;
constexpr double kRoundPartMm = 6;  // of paper kept free round the part

QRectF field(Paper paper) {
  const QSizeF mm = paperSizeMm(paper, true);
  const double m = Sheet::kMarginMm;
  return {m, m + kHeadMm, mm.width() - 2 * m, mm.height() - 2 * m - kHeadMm};
}

// How many fields of `room`, overlapping, reach over `size`.
int tilesFor(double size, double room) {
  const double step = room - kTemplateOverlapMm;
  return std::max(1, int(std::ceil((size - kTemplateOverlapMm - 1e-9) / step)));
}

QPainterPath outlineOnTile(const Part& part, const TemplateTile& tile, Paper paper) {
  QPolygonF q;
  for (const Point& p : *part.outline) q << onTile(tile, paper, p);
  QPainterPath path;
  path.addPolygon(q);
  path.closeSubpath();
  return path;
}

void drawCrosses(Sheet& sheet, const TemplateTile& tile, Paper paper) {
  const Rect& r = tile.partMm;
  const auto first = [](double from) { return int(std::ceil(from / kCrossStepMm)); };
  const auto last = [](double to) { return int(std::floor(to / kCrossStepMm)); };
  for (int i = first(r.x0); i <= last(r.x1); ++i)
    for (int j = first(r.y0); j <= last(r.y1); ++j) {
      const QPointF at = onTile(tile, paper, {i * kCrossStepMm, j * kCrossStepMm});
      sheet.line(at - QPointF(kCrossMm / 2, 0), at + QPointF(kCrossMm / 2, 0), 0.12, Qt::darkGray);
      sheet.line(at - QPointF(0, kCrossMm / 2), at + QPointF(0, kCrossMm / 2), 0.12, Qt::darkGray);
    }
}

void drawGrain(Sheet& sheet, const Part& part, const TemplateTile& tile, Paper paper) {
  if (part.grain != GrainRule::along) return;
  const QPointF a = onTile(tile, paper, {0, part.widthMm / 2});
  const QPointF b = onTile(tile, paper, {part.lengthMm, part.widthMm / 2});
  sheet.line(a, b, 0.15, Qt::darkGray, Qt::DashDotLine);
  for (const auto& [tip, way] : {std::pair(a, 1.0), std::pair(b, -1.0)})
    for (const double side : {-1.0, 1.0})
      sheet.line(tip, tip + QPointF(way * 5, side * 1.6), 0.15, Qt::darkGray);
}

// A bar of a round length: what it measures tells whether the printer kept the scale.
void drawCheckBar(Sheet& sheet, const QRectF& box, const LengthStyle& lengths) {
  const bool inches = lengths.system == UnitSystem::inches;
  const double bar = inches ? 3 * kMmPerInch : 100;
  const double y = box.bottom() - 2;
  sheet.line({box.left(), y}, {box.left() + bar, y}, 0.25);
  for (int i = 0; i <= (inches ? 3 : 10); ++i) {
    const double x = box.left() + bar * i / (inches ? 3 : 10);
    sheet.line({x, y - (i % 5 == 0 || inches ? 2.0 : 1.2)}, {x, y}, 0.2);
  }
  sheet.text(QRectF(box.left() + bar + 3, y - 4, box.width() - bar - 3, 5),
             QString("must measure %1: print at 100 %, do not fit to the page")
                 .arg(inches ? "3 inches" : "100 mm"),
             {3.0});
}

void drawHead(Sheet& sheet, const Part& part, const TemplateTile& tile, Paper paper,
              const LengthStyle& lengths) {
  const QRectF area(Sheet::kMarginMm, Sheet::kMarginMm, field(paper).width(), kHeadMm - 2);
  const auto tiles = templateTiles(part, paper);
  const auto length = [&](double mm) {
    return QString::fromStdString(formatLength(mm, lengths, true));
  };
  sheet.text(QRectF(area.left(), area.top(), area.width() - 24, 5.5),
             QString::fromStdString(part.name) + ", full size", {4.6, true, 2.6});
  sheet.text(QRectF(area.right() - 24, area.top(), 24, 5.5), "sheet " + tile.name(),
             {4.6, true, 3.4}, Qt::AlignRight | Qt::AlignVCenter);
  const TemplateTile& last = tiles.back();
  sheet.text(
      QRectF(area.left(), area.top() + 5.8, area.width(), 4.6),
      QString("%1 × %2, %3. ")
              .arg(length(part.lengthMm), length(part.widthMm))
              .arg(tiles.size() == 1 ? QString("one sheet") : "sheets A1 to " + last.name()) +
          (tiles.size() == 1 ? QString("The dash-dotted line runs along the grain.")
                             : QString("Lay crosses on crosses; the dash-dotted line runs "
                                       "along the grain.")),
      {3.1, false, 2.2});
  sheet.paragraph(QRectF(area.left(), area.top() + 10.8, area.width(), 5.6),
                  QString::fromStdString(sawingCaution()), {2.3});
  drawCheckBar(sheet, area, lengths);
}

}  // namespace

QString TemplateTile::name() const {
  return QString(QChar('A' + row % 26)) + QString::number(column + 1);
}

std::vector<TemplateTile> templateTiles(const Part& part, Paper paper) {
  const QRectF f = field(paper);
  const double w = part.lengthMm + 2 * kRoundPartMm, h = part.widthMm + 2 * kRoundPartMm;
  const int columns = tilesFor(w, f.width()), rows = tilesFor(h, f.height());
  std::vector<TemplateTile> tiles;
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column) {
      const double x = -kRoundPartMm + column * (f.width() - kTemplateOverlapMm);
      const double y = -kRoundPartMm + row * (f.height() - kTemplateOverlapMm);
      tiles.push_back({column, row, {x, y, x + f.width(), y + f.height()}});
    }
  return tiles;
}

QPointF onTile(const TemplateTile& tile, Paper paper, Point part) {
  const QRectF f = field(paper);
  return {f.left() + part.x - tile.partMm.x0, f.bottom() - (part.y - tile.partMm.y0)};
}

std::vector<std::pair<const Part*, int>> partsWithTemplates(const Rack& rack, Paper paper) {
  std::vector<std::pair<const Part*, int>> parts;
  for (const Part& part : rack.parts)
    if (part.outline) parts.emplace_back(&part, int(templateTiles(part, paper).size()));
  return parts;
}

std::vector<DrawnText> paintTemplate(QPainter& painter, double pxPerMm, const Part& part,
                                     const TemplateTile& tile, Paper paper,
                                     const LengthStyle& lengths) {
  Sheet sheet(painter, paperSizeMm(paper, true), pxPerMm);
  const QRectF f = field(paper);
  painter.save();
  painter.setClipRect(f);
  drawCrosses(sheet, tile, paper);
  drawGrain(sheet, part, tile, paper);
  painter.strokePath(outlineOnTile(part, tile, paper), QPen(Qt::black, 0.25));
  painter.restore();
  sheet.box(f, 0.1);
  drawHead(sheet, part, tile, paper, lengths);
  return sheet.drawnTexts();
}

Result<std::string> templatesPdf(const Rack& rack, Paper paper, const LengthStyle& lengths) {
  std::vector<PagePainter> pages;
  for (const auto& [part, count] : partsWithTemplates(rack, paper))
    for (const TemplateTile& tile : templateTiles(*part, paper))
      pages.push_back([part = part, tile, paper, lengths](QPainter& painter, double pxPerMm) {
        paintTemplate(painter, pxPerMm, *part, tile, paper, lengths);
      });
  if (pages.empty())
    return Error{
        "No part has an outline of its own, so there is no template to print: rectangles are cut "
        "by their length and width. Give a part an outline in its parts file."};
  return pdfOf(paper, true, "Full-size templates", pages);
}

}  // namespace rackside::sheets
