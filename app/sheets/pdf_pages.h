// SPDX-License-Identifier: GPL-3.0-or-later
// Pages of one size as a PDF in memory.
#pragma once

#include <QPainter>
#include <QString>
#include <functional>
#include <string>
#include <vector>

#include "app/sheets/paper.h"
#include "core/base/result.h"

namespace rackside::sheets {

// Paints one page; the device has pxPerMm pixels a millimetre.
using PagePainter = std::function<void(QPainter&, double pxPerMm)>;

Result<std::string> pdfOf(Paper paper, bool landscape, const QString& title,
                          const std::vector<PagePainter>& pages);

}  // namespace rackside::sheets
