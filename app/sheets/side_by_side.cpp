// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/side_by_side.h"

#include <QBuffer>
#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>

#include "core/storage/atomic_file.h"

namespace rackside::sheets {
namespace {

constexpr int kMarginPx = 24, kGapPx = 26, kTextPx = 19, kTitlePx = 26;
constexpr int kLeastWidthPx = 900;

QFont font(int px, bool bold) {
  QFont f(QStringLiteral("DejaVu Sans"));
  f.setPixelSize(px);
  f.setBold(bold);
  return f;
}

QImage imageOf(const cv::Mat3b& bgr) {
  return QImage(bgr.data, bgr.cols, bgr.rows, int(bgr.step), QImage::Format_BGR888).copy();
}

void stateScale(QImage& image, double mmPerPx) {
  image.setDotsPerMeterX(int(1000 / mmPerPx));
  image.setDotsPerMeterY(int(1000 / mmPerPx));
}

// The longest of 1, 2, 5 · 10ⁿ mm that takes at most a quarter of the width.
double barMm(double widthMm) {
  double best = 1;
  for (const double decade : {1.0, 10.0, 100.0, 1000.0})
    for (const double step : {1.0, 2.0, 5.0})
      if (step * decade <= widthMm / 4) best = step * decade;
  return best;
}

void drawBar(QPainter& painter, double mmPerPx, int width, int y) {
  const double mm = barMm(width * mmPerPx);
  const QRectF bar(kMarginPx, y, mm / mmPerPx, 6);
  painter.fillRect(bar, QColor(60, 60, 60));
  painter.setFont(font(15, false));
  painter.setPen(QColor(60, 60, 60));
  painter.drawText(QPointF(bar.right() + 10, y + 10), QStringLiteral("%1 mm").arg(mm));
}

}  // namespace

QImage sideBySide(const std::string& title, const std::vector<Shown>& shown, double mmPerPx) {
  int width = kLeastWidthPx;
  for (const Shown& s : shown) width = std::max(width, s.picture.cols + 2 * kMarginPx);
  const QFont headingFont = font(kTextPx, true), textFont = font(kTextPx - 2, false);
  const QFontMetricsF metrics(textFont);
  const auto textBox = [&](const Shown& s) {
    return metrics.boundingRect(QRectF(0, 0, width - 2 * kMarginPx, 10000), Qt::TextWordWrap,
                                QString::fromStdString(s.text));
  };
  double height = kMarginPx + kTitlePx + kGapPx;
  for (const Shown& s : shown)
    height += kTextPx + 8 + s.picture.rows + 6 + textBox(s).height() + kGapPx;
  QImage sheet(width, int(height) + 34, QImage::Format_RGB888);
  sheet.fill(QColor(250, 249, 246));
  QPainter painter(&sheet);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QColor(35, 35, 35));
  painter.setFont(font(kTitlePx, true));
  double y = kMarginPx + kTitlePx;
  painter.drawText(QPointF(kMarginPx, y - 4), QString::fromStdString(title));
  y += kGapPx - 8;
  for (const Shown& s : shown) {
    painter.setPen(QColor(35, 35, 35));
    painter.setFont(headingFont);
    painter.drawText(QPointF(kMarginPx, y + kTextPx - 3), QString::fromStdString(s.heading));
    y += kTextPx + 8;
    painter.drawImage(QPointF(kMarginPx, y), imageOf(s.picture));
    y += s.picture.rows + 6;
    painter.setFont(textFont);
    painter.setPen(QColor(80, 80, 80));
    const double textHeight = textBox(s).height();
    painter.drawText(QRectF(kMarginPx, y, width - 2 * kMarginPx, textHeight + 4), Qt::TextWordWrap,
                     QString::fromStdString(s.text));
    y += textHeight + kGapPx;
  }
  drawBar(painter, mmPerPx, width - 2 * kMarginPx, int(height) + 6);
  painter.end();
  stateScale(sheet, mmPerPx);
  return sheet;
}

Status writePng(const QImage& image, const std::filesystem::path& file) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  if (!buffer.open(QIODevice::WriteOnly) || !image.save(&buffer, "PNG"))
    return Error{"The picture " + file.string() + " could not be packed."};
  return writeFileAtomically(file, {bytes.constData(), size_t(bytes.size())});
}

Status writePng(const cv::Mat3b& picture, double mmPerPx, const std::filesystem::path& file) {
  QImage image = imageOf(picture);
  stateScale(image, mmPerPx);
  return writePng(image, file);
}

}  // namespace rackside::sheets
