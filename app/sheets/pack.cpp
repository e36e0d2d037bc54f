// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/pack.h"

#include "app/sheets/pdf_pages.h"
#include "core/document/plan_state.h"
#include "core/storage/atomic_file.h"

namespace rackside::sheets {
namespace {

QString footerOf(const Rack& rack) {
  QString text = QString("%1 boards").arg(rack.boards.size());
  if (rack.plan)
    text += QString("  ·  plan of %1 pieces, seed %2")
                .arg(rack.plan->pieces.size())
                .arg(rack.plan->seed);
  return text + "  ·  check each figure with a rule before cutting";
}

// Across the top margin of every page.
void warnOn(Page& page, const QString& warning) {
  page.draw = [draw = std::move(page.draw), warning](Sheet& sheet) {
    draw(sheet);
    const QRectF area = sheet.area();
    sheet.text({area.left(), area.top() - 5.2, area.width(), 4.6}, warning,
               {3.4, true, 2.2, QColor(190, 20, 20)});
  };
}

}  // namespace

std::vector<Page> packPages(const Rack& rack, const std::filesystem::path& folder,
                            const PackOptions& options) {
  PackInput made{rack, folder, options, {}};
  for (const Board& board : rack.boards)
    made.works.push_back(boardWork(rack, board, options.lengths));
  auto input = std::make_shared<const PackInput>(std::move(made));
  std::vector<Page> pages;
  const auto append = [&](bool wanted, std::vector<Page> more) {
    if (!wanted) return;
    for (Page& p : more) pages.push_back(std::move(p));
  };
  append(options.pull, pullPages(input));
  append(options.boards, boardPages(input));
  append(options.parts, partsPages(input));
  append(options.cuts, cutListPages(input));
  append(options.milling, millingPages(input));
  append(options.fill, fillPages(input));
  append(options.movement, movementPages(input));
  append(options.tally, tallyPages(input));
  append(options.labels, labelPages(input));
  if (const PlanState state = planState(rack); !state.holds())
    for (Page& page : pages) warnOn(page, QString::fromStdString(brokenWords(state)));
  return pages;
}

PackOptions labelsAlone(PackOptions options) {
  options.labels = true;
  options.boards = options.parts = options.cuts = options.milling = options.fill =
      options.movement = options.tally = options.pull = false;
  return options;
}

std::vector<DrawnText> paintPage(QPainter& painter, double pxPerMm, const std::vector<Page>& pages,
                                 size_t index, const Rack& rack, const PackOptions& options) {
  Sheet sheet(painter, paperSizeMm(options.paper, true), pxPerMm);
  pages[index].draw(sheet);
  drawFooter(sheet, footerOf(rack), int(index) + 1, int(pages.size()));
  return sheet.drawnTexts();
}

Result<PackPdf> packPdf(const Rack& rack, const std::filesystem::path& folder,
                        const PackOptions& options) {
  const std::vector<Page> pages = packPages(rack, folder, options);
  if (pages.empty()) return Error{"There is nothing to print: the rack holds no measured board."};
  std::vector<PagePainter> painters;
  for (size_t i = 0; i < pages.size(); ++i)
    painters.push_back([&pages, &rack, &options, i](QPainter& painter, double pxPerMm) {
      paintPage(painter, pxPerMm, pages, i, rack, options);
    });
  auto bytes = pdfOf(options.paper, true, "Sheets for the bench", painters);
  if (!bytes) return bytes.error();
  return PackPdf{std::move(bytes.value()), int(pages.size())};
}

Result<int> writePack(const Rack& rack, const std::filesystem::path& folder,
                      const PackOptions& options, const std::filesystem::path& pdf) {
  auto pack = packPdf(rack, folder, options);
  if (!pack) return pack.error();
  if (const Status s = writeFileAtomically(pdf, pack->bytes); !s) return s.error();
  return pack->pages;
}

}  // namespace rackside::sheets
