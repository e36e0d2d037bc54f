// SPDX-License-Identifier: GPL-3.0-or-later
// How each kind of mark is told: by name, by one or two letters, by pattern and outline, and by
// colour last, so that none has to be known by its colour alone.
#pragma once

#include <QBrush>
#include <QColor>
#include <QIcon>
#include <QPen>
#include <QString>

#include "core/wood/mark.h"

namespace rackside {

struct MarkLook {
  MarkKind kind;
  QString label;    // "Bark pocket"
  QString letters;  // "B"
  QColor colour;
  Qt::BrushStyle pattern;
  Qt::PenStyle outline;
  QString meaning;  // one line for the maker
};

const MarkLook& markLook(MarkKind kind);
QIcon markSwatch(MarkKind kind, int side = 20);
QString soundnessLabel(MarkKind kind, Soundness soundness);

}  // namespace rackside
