// SPDX-License-Identifier: GPL-3.0-or-later
// QR codes (ISO/IEC 18004) for screens, made by libqrencode.
#pragma once

#include <QImage>
#include <string>

namespace rackside::serve {

// Two modules a character in half blocks, dark on light with the quiet zone of 4 modules, so that
// it reads on terminals of either colour.
std::string qrLines(const std::string& text);
// One pixel a module, with the quiet zone; null when there is nothing to encode.
QImage qrImage(const std::string& text);

}  // namespace rackside::serve
