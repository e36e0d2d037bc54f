// SPDX-License-Identifier: GPL-3.0-or-later
// Full-size paper templates of parts that are not rectangles, in tiles that are glued together.
//
// A tile's frame is the part's: mm, x along its length, y across, y up the paper. Neighbouring
// tiles overlap by kTemplateOverlapMm; crosses stand on a grid shared by all, so that tiles are
// laid on each other by at least two of them.
#pragma once

#include <functional>
#include <vector>

#include "app/sheets/paper.h"
#include "app/sheets/sheet.h"
#include "core/base/length.h"
#include "core/document/rack.h"

namespace rackside::sheets {

inline constexpr double kTemplateOverlapMm = 12;

struct TemplateTile {
  int column = 0, row = 0;  // from the part's lower left corner
  Rect partMm;              // of the part's frame shown on this sheet
  QString name() const;     // "A1": letter by row, number by column
};

// The tiles for one part, on paper laid across: most parts are long.
std::vector<TemplateTile> templateTiles(const Part& part, Paper paper);

// Where a point of the part's frame lies on the tile's sheet, mm from its top left corner.
QPointF onTile(const TemplateTile& tile, Paper paper, Point part);

// Parts with an outline of their own and the number of their tiles.
std::vector<std::pair<const Part*, int>> partsWithTemplates(const Rack& rack, Paper paper);

// One PDF of all tiles; fails when no part has an outline.
Result<std::string> templatesPdf(const Rack& rack, Paper paper, const LengthStyle& lengths);

// Paints one tile; returns what text was drawn.
std::vector<DrawnText> paintTemplate(QPainter& painter, double pxPerMm, const Part& part,
                                     const TemplateTile& tile, Paper paper,
                                     const LengthStyle& lengths);

}  // namespace rackside::sheets
