// SPDX-License-Identifier: GPL-3.0-or-later
// Patterns that tell kinds apart in black and white.
#pragma once

#include <QPainter>
#include <QPainterPath>

#include "core/wood/mark_traits.h"

namespace rackside::sheets {

using Pattern = Hatch;

// Fills the path (mm on paper) with the pattern in black over a thin white ground.
void fillPattern(QPainter& painter, const QPainterPath& path, Pattern pattern);
Pattern patternOf(const Mark& mark);
// "loose knot", "check", "live worm holes", …
QString wordFor(const Mark& mark);

}  // namespace rackside::sheets
