// SPDX-License-Identifier: GPL-3.0-or-later
// Pages of cards and tags on a painter whose unit is a millimetre of paper, y down.
#pragma once

#include <QPainter>
#include <QSizeF>
#include <vector>

#include "app/sheets/card_pdf.h"
#include "vision/cards/card_model.h"

namespace rackside::sheets {

// What a page holds: cards or tags by number.
struct MarkerPage {
  bool landscape = false;
  QSizeF paperMm;
  std::vector<int> cards;
  std::vector<int> tags;
  bool alone = false;  // one card or tag that fills the page, without cutting lines and words
};

std::vector<MarkerPage> pagesOf(const CardOptions& options);
std::vector<MarkerPage> pagesOf(const TagOptions& options);
// As large as the card or the tag itself.
MarkerPage cardAlone(int number);
MarkerPage tagAlone(int number);
void drawMarkerPage(QPainter& painter, const MarkerPage& page);
void drawCrayonPage(QPainter& painter, QSizeF paperMm);

// One line of text, as large as fits into the box (mm), in its middle.
void drawFitted(QPainter& painter, const QRectF& box, const QString& text, bool bold = false);

}  // namespace rackside::sheets
