// SPDX-License-Identifier: GPL-3.0-or-later
// End labels on bought sheets of self-adhesive labels.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/sheets/paper.h"
#include "app/sheets/piece_label.h"

namespace rackside::sheets {

// A sheet of labels, upright. Sizes as such sheets are commonly sold (from memory): a rule held
// against the sheet, or a first print on plain paper, tells.
struct LabelSheet {
  std::string_view name;
  Paper paper = Paper::a4;
  int columns = 1, rows = 1;
  double widthMm = 0, heightMm = 0;  // of a label
  double leftMm = 0, topMm = 0;      // of the first label
  double stepXMm = 0, stepYMm = 0;
};
const std::vector<LabelSheet>& labelSheets();

// Places on the sheet, row by row; `index` from 0.
QRectF labelPlace(const LabelSheet& sheet, int index);

// One PDF; the first `used` places of the first sheet are left blank, so that a begun sheet can be
// used up. Fails when there are no labels.
Result<std::string> labelSheetPdf(const Rack& rack, const LengthStyle& lengths,
                                  const LabelSheet& sheet, int used);

}  // namespace rackside::sheets
