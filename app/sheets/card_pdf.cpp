// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/card_pdf.h"

#include <QBuffer>
#include <QImage>
#include <QPageSize>
#include <QPdfWriter>
#include <cmath>
#include <functional>

#include "app/sheets/card_drawing.h"
#include "app/sheets/gui_session.h"
#include "core/storage/atomic_file.h"

namespace rackside::sheets {
namespace {

constexpr double kMmPerInchOfPaper = 25.4;
constexpr int kPdfDpi = 2540;  // 100 steps a millimetre
constexpr double kFinestDpi = 2400;

using PageDrawing = std::function<void(QPainter&)>;

Error cannotWrite(const std::filesystem::path& file, const QString& why) {
  return {file.string() + " cannot be written (" + why.toStdString() +
          "); check the folder and the space left"};
}

Status writePdf(const std::filesystem::path& file, QSizeF paperMm,
                const std::vector<PageDrawing>& pages, const QString& title) {
  const GuiSession session;
  QBuffer out;
  out.open(QIODevice::WriteOnly);
  {
    QPdfWriter writer(&out);
    writer.setResolution(kPdfDpi);
    writer.setPageSize(QPageSize(paperMm, QPageSize::Millimeter, {}, QPageSize::ExactMatch));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setTitle(title);
    QPainter painter(&writer);
    painter.scale(kPdfDpi / kMmPerInchOfPaper, kPdfDpi / kMmPerInchOfPaper);
    for (size_t i = 0; i < pages.size(); ++i) {
      if (i > 0) writer.newPage();
      pages[i](painter);
    }
  }
  return writeFileAtomically(file, out.data().toStdString());
}

Status writePng(const std::filesystem::path& file, const MarkerPage& page, double dpi) {
  const double pxPerMm = dpi / kMmPerInchOfPaper;
  QImage image(int(std::lround(page.paperMm.width() * pxPerMm)),
               int(std::lround(page.paperMm.height() * pxPerMm)), QImage::Format_Grayscale8);
  image.fill(Qt::white);
  image.setDotsPerMeterX(int(std::lround(1000 * pxPerMm)));
  image.setDotsPerMeterY(int(std::lround(1000 * pxPerMm)));
  {
    QPainter painter(&image);
    painter.scale(pxPerMm, pxPerMm);
    drawMarkerPage(painter, page);
  }
  QBuffer out;
  out.open(QIODevice::WriteOnly);
  if (!image.save(&out, "PNG")) return cannotWrite(file, "the picture is too large");
  return writeFileAtomically(file, out.data().toStdString());
}

Status writePagesPdf(const std::vector<MarkerPage>& pages, const std::filesystem::path& file,
                     const QString& title) {
  std::vector<PageDrawing> drawings;
  for (const MarkerPage& page : pages)
    drawings.push_back([&page](QPainter& painter) { drawMarkerPage(painter, page); });
  return writePdf(file, pages.front().paperMm, drawings, title);
}

using NamedPages = std::vector<std::pair<std::string, MarkerPage>>;  // by file name

Result<Files> writePagesPng(const NamedPages& pages, double dpi,
                            const std::filesystem::path& folder) {
  if (!(dpi >= 72 && dpi <= kFinestDpi))
    return Error{"a resolution of 72 to 2400 dots an inch is possible; 600 suits a printer"};
  const GuiSession session;
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) return cannotWrite(folder, QString::fromStdString(error.message()));
  Files files;
  for (const auto& [name, page] : pages) {
    files.push_back(folder / name);
    if (const Status written = writePng(files.back(), page, dpi); !written) return written.error();
  }
  return files;
}

NamedPages sheetsNamed(const std::string& stem, const std::vector<MarkerPage>& pages) {
  NamedPages named;
  for (const MarkerPage& page : pages)
    named.emplace_back(stem + std::to_string(named.size() + 1) + ".png", page);
  return named;
}

}  // namespace

Status CardOptions::validate() const {
  if (firstNumber >= 1 && count >= 1 && firstNumber + count - 1 <= kLargestCardNumber)
    return success();
  return Error{"cards are numbered 1 to " + std::to_string(kLargestCardNumber) +
               "; ask for a count within that"};
}

Status TagOptions::validate() const {
  if (firstNumber >= 1 && lastNumber >= firstNumber && lastNumber <= kLargestTagNumber)
    return success();
  return Error{"board tags are numbered 1 to " + std::to_string(kLargestTagNumber) +
               "; give the lower number first, such as 1-40"};
}

Status writeCardPdf(const CardOptions& options, const std::filesystem::path& file) {
  if (const Status valid = options.validate(); !valid) return valid;
  return writePagesPdf(pagesOf(options), file, QStringLiteral("Reference cards"));
}

Status writeTagPdf(const TagOptions& options, const std::filesystem::path& file) {
  if (const Status valid = options.validate(); !valid) return valid;
  return writePagesPdf(pagesOf(options), file, QStringLiteral("Board tags"));
}

Status writeCrayonPdf(Paper paper, const std::filesystem::path& file) {
  const QSizeF paperMm = paperSizeMm(paper, false);
  return writePdf(file, paperMm, {[paperMm](QPainter& p) { drawCrayonPage(p, paperMm); }},
                  QStringLiteral("Crayon strokes"));
}

Result<Files> writeCardPngs(const CardOptions& options, double dpi,
                            const std::filesystem::path& folder) {
  if (const Status valid = options.validate(); !valid) return valid.error();
  NamedPages pages = sheetsNamed("card-sheet-", pagesOf(options));
  for (int n = options.firstNumber; n < options.firstNumber + options.count; ++n)
    pages.emplace_back("card-" + std::to_string(n) + ".png", cardAlone(n));
  return writePagesPng(pages, dpi, folder);
}

Result<Files> writeTagPngs(const TagOptions& options, double dpi,
                           const std::filesystem::path& folder) {
  if (const Status valid = options.validate(); !valid) return valid.error();
  NamedPages pages = sheetsNamed("tag-sheet-", pagesOf(options));
  for (int n = options.firstNumber; n <= options.lastNumber; ++n)
    pages.emplace_back("tag-" + std::to_string(n) + ".png", tagAlone(n));
  return writePagesPng(pages, dpi, folder);
}

}  // namespace rackside::sheets
