// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/pdf_pages.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPdfWriter>

namespace rackside::sheets {
namespace {

constexpr int kDotsPerInch = 1200;

}  // namespace

Result<std::string> pdfOf(Paper paper, bool landscape, const QString& title,
                          const std::vector<PagePainter>& pages) {
  QBuffer buffer;
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  writer.setResolution(kDotsPerInch);
  writer.setPageLayout(
      QPageLayout(QPageSize(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter),
                  landscape ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF(0, 0, 0, 0),
                  QPageLayout::Millimeter));
  writer.setTitle(title);
  writer.setCreator("Rackside");
  QPainter painter;
  if (!painter.begin(&writer)) return Error{"The PDF could not be started."};
  for (size_t i = 0; i < pages.size(); ++i) {
    if (i > 0) writer.newPage();
    pages[i](painter, kDotsPerInch / 25.4);
  }
  painter.end();
  return buffer.data().toStdString();
}

}  // namespace rackside::sheets
