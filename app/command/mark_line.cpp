// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/mark_line.h"

#include <cmath>

#include "core/geometry/polygon.h"
#include "core/wood/board.h"

namespace rackside::command {

std::string markLine(const Mark& mark, const LengthStyle& style) {
  std::string line = mark.id.text + "  " + std::string(name(mark.kind));
  for (const Face f : {Face::A, Face::B}) {
    if (!mark.on(f)) continue;
    const Polygons shape = polygonsOf(*mark.on(f));
    const Rect box = shape.empty() ? Rect{} : bounds(shape.front());
    line += "  face " + std::string(name(f)) + " at " +
            formatLength((box.x0 + box.x1) / 2, style, false) + ", " +
            formatLength((box.y0 + box.y1) / 2, style);
  }
  if (mark.through) line += ", through";
  if (mark.depthMm) line += ", " + formatLength(*mark.depthMm, style) + " deep";
  if (mark.soundness == Soundness::sound) line += ", sound";
  if (mark.soundness == Soundness::loose) line += ", loose";
  if (mark.live) line += ", live";
  if (!mark.confirmed)
    line += ", suggested, " + std::to_string(std::lround(100 * mark.confidence)) + " % sure";
  return mark.note.empty() ? line : line + "  (" + mark.note + ")";
}

}  // namespace rackside::command
