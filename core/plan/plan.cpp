// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan.h"

namespace rackside {

Polygon Blank::roughOutline() const {
  return rackside::apply(boardFromBlank, rectangle({0, 0, roughLengthMm, roughWidthMm}));
}

std::string_view name(CutKind kind) {
  switch (kind) {
    case CutKind::crosscut:
      return "crosscut";
    case CutKind::rip:
      return "rip";
    case CutKind::trim:
      return "trim";
    case CutKind::curve:
      return "curve";
  }
  return "";
}

}  // namespace rackside
