// SPDX-License-Identifier: GPL-3.0-or-later
// The pack for the bench: all pages, in order, as one PDF.
#pragma once

#include <filesystem>

#include "app/sheets/page.h"
#include "core/base/result.h"

namespace rackside::sheets {

// The pages in order: boards to pull, boards, parts, cut list, milling, filling, movement, tally,
// labels. The rack must outlive them. Needs a GuiSession.
std::vector<Page> packPages(const Rack& rack, const std::filesystem::path& folder,
                            const PackOptions& options);

// Paints page `index` with its footer; the painter's device has pxPerMm pixels a millimetre.
// Returns what text was drawn.
std::vector<DrawnText> paintPage(QPainter& painter, double pxPerMm, const std::vector<Page>& pages,
                                 size_t index, const Rack& rack, const PackOptions& options);

struct PackPdf {
  std::string bytes;
  int pages = 0;
};

// The pack as a PDF in memory. Fails when there is nothing to draw.
Result<PackPdf> packPdf(const Rack& rack, const std::filesystem::path& folder,
                        const PackOptions& options);
// The same, written atomically; returns the number of pages.
Result<int> writePack(const Rack& rack, const std::filesystem::path& folder,
                      const PackOptions& options, const std::filesystem::path& pdf);

}  // namespace rackside::sheets
