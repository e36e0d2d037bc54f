// SPDX-License-Identifier: GPL-3.0-or-later
// Paper sizes: A4 of ISO 216 (210 × 297 mm) and US Letter (8 1/2 × 11 in).
#pragma once

#include <QSizeF>

namespace rackside::sheets {

enum class Paper { a4, letter };

inline QSizeF paperSizeMm(Paper paper, bool landscape) {
  const QSizeF upright = paper == Paper::a4 ? QSizeF(210, 297) : QSizeF(215.9, 279.4);
  return landscape ? upright.transposed() : upright;
}

}  // namespace rackside::sheets
