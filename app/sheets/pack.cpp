// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/pack.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>

#include "core/storage/atomic_file.h"

namespace rackside::sheets {
namespace {

constexpr int kPdfDotsPerInch = 1200;

QPageLayout pageLayout(Paper paper) {
  return QPageLayout(QPageSize(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter),
                     QPageLayout::Landscape, QMarginsF(0, 0, 0, 0), QPageLayout::Millimeter);
}

QString footerOf(const Rack& rack) {
  QString text = QString("%1 boards").arg(rack.boards.size());
  if (rack.plan)
    text += QString("  ·  plan of %1 pieces, seed %2")
                .arg(rack.plan->pieces.size())
                .arg(rack.plan->seed);
  return text + "  ·  check each figure with a rule before cutting";
}

}  // namespace

std::vector<Page> packPages(const Rack& rack, const std::filesystem::path& folder,
                            const PackOptions& options) {
  auto input = std::make_shared<const PackInput>(PackInput{rack, folder, options});
  std::vector<Page> pages;
  const auto append = [&](bool wanted, std::vector<Page> more) {
    if (!wanted) return;
    for (Page& p : more) pages.push_back(std::move(p));
  };
  append(options.boards, boardPages(input));
  append(options.parts, partsPages(input));
  append(options.cuts, cutListPages(input));
  append(options.milling, millingPages(input));
  append(options.fill, fillPages(input));
  append(options.movement, movementPages(input));
  append(options.tally, tallyPages(input));
  append(options.labels, labelPages(input));
  return pages;
}

PackOptions labelsAlone(PackOptions options) {
  options.boards = options.parts = options.cuts = options.milling = options.fill =
      options.movement = options.tally = false;
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
  QBuffer buffer;
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  writer.setResolution(kPdfDotsPerInch);
  writer.setPageLayout(pageLayout(options.paper));
  writer.setTitle("Sheets for the bench");
  writer.setCreator("Rackside");
  QPainter painter;
  if (!painter.begin(&writer)) return Error{"The PDF could not be started."};
  for (size_t i = 0; i < pages.size(); ++i) {
    if (i > 0) writer.newPage();
    paintPage(painter, kPdfDotsPerInch / 25.4, pages, i, rack, options);
  }
  painter.end();
  return PackPdf{buffer.data().toStdString(), int(pages.size())};
}

Result<int> writePack(const Rack& rack, const std::filesystem::path& folder,
                      const PackOptions& options, const std::filesystem::path& pdf) {
  auto pack = packPdf(rack, folder, options);
  if (!pack) return pack.error();
  if (const Status s = writeFileAtomically(pdf, pack->bytes); !s) return s.error();
  return pack->pages;
}

}  // namespace rackside::sheets
