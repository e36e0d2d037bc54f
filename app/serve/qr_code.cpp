// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/qr_code.h"

#include <qrencode.h>

#include <memory>

namespace rackside::serve {

namespace {
constexpr int kQuiet = 4;  // ISO/IEC 18004: modules of the quiet zone
}

QImage qrImage(const std::string& text) {
  if (text.empty()) return {};
  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(
      QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1), QRcode_free);
  if (!code) return {};
  const int side = code->width + 2 * kQuiet;
  QImage image(side, side, QImage::Format_RGB32);
  image.fill(Qt::white);
  for (int y = 0; y < code->width; ++y)
    for (int x = 0; x < code->width; ++x)
      if (code->data[y * code->width + x] & 1)
        image.setPixel(x + kQuiet, y + kQuiet, qRgb(0, 0, 0));
  return image;
}

std::string qrLines(const std::string& text) {
  const QImage image = qrImage(text);
  const auto dark = [&](int x, int y) {
    return y < image.height() && qRed(image.pixel(x, y)) == 0;
  };
  std::string lines;
  for (int y = 0; y < image.height(); y += 2) {
    lines += "\033[30;107m";  // black on white, whatever the terminal's own colours
    for (int x = 0; x < image.width(); ++x) {
      const bool upper = dark(x, y), lower = dark(x, y + 1);
      lines += upper && lower ? "█" : upper ? "▀" : lower ? "▄" : " ";
    }
    lines += "\033[0m\n";
  }
  return lines;
}

}  // namespace rackside::serve
