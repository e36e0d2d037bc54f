// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/qr.h"

#include <qrencode.h>

#include <memory>

namespace rackside::sheets {

bool drawQr(Sheet& sheet, const QRectF& square, const std::string& text) {
  if (text.empty()) return false;
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(
      QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), QRcode_free);
  if (!code) return false;
  const double module = square.width() / code->width;
  QPainter& p = sheet.painter();
  p.save();
  p.setRenderHint(QPainter::Antialiasing, false);
  QPainterPath ink;
  for (int y = 0; y < code->width; ++y)
    for (int x = 0; x < code->width; ++x)
      if (code->data[y * code->width + x] & 1)
        ink.addRect(QRectF(square.left() + x * module, square.top() + y * module, module, module));
  ink.setFillRule(Qt::WindingFill);
  p.fillPath(ink, Qt::black);
  p.restore();
  return true;
}

}  // namespace rackside::sheets
