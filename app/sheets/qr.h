// SPDX-License-Identifier: GPL-3.0-or-later
// QR codes (ISO/IEC 18004), made by libqrencode.
#pragma once

#include <QRectF>
#include <string>

#include "app/sheets/sheet.h"

namespace rackside::sheets {

// Draws the text as a code of error level M over the square, its quiet zone being the paper round
// it; false when there is nothing to encode.
bool drawQr(Sheet& sheet, const QRectF& square, const std::string& text);

}  // namespace rackside::sheets
