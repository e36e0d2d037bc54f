// SPDX-License-Identifier: GPL-3.0-or-later
// Reference cards, board tags and the crayon card on paper, at true scale.
//
// Cards lie along the sheet, three a sheet, to be glued on flat stock and cut apart. Written whole
// or not at all; true scale holds when printed at 100 % ("actual size").
#pragma once

#include <filesystem>
#include <vector>

#include "app/sheets/paper.h"
#include "core/base/result.h"

namespace rackside::sheets {

struct CardOptions {
  Paper paper = Paper::a4;
  int firstNumber = 1;  // 1..kLargestCardNumber
  int count = 3;        // cards of ascending numbers
  Status validate() const;
};

struct TagOptions {
  Paper paper = Paper::a4;
  int firstNumber = 1;  // 1..kLargestTagNumber
  int lastNumber = 20;
  Status validate() const;
};

Status writeCardPdf(const CardOptions& options, const std::filesystem::path& file);
Status writeTagPdf(const TagOptions& options, const std::filesystem::path& file);
// The four crayon strokes and what each means, one page.
Status writeCrayonPdf(Paper paper, const std::filesystem::path& file);

// The same pages as PNG with their resolution in the file, named card-sheet-1.png or
// tag-sheet-1.png and so on, and each card or tag alone, filling its picture, as card-1.png or
// tag-1.png by number; into a folder that is made when missing. Returns the files written.
using Files = std::vector<std::filesystem::path>;
Result<Files> writeCardPngs(const CardOptions& options, double dpi,
                            const std::filesystem::path& folder);
Result<Files> writeTagPngs(const TagOptions& options, double dpi,
                           const std::filesystem::path& folder);

}  // namespace rackside::sheets
