// SPDX-License-Identifier: GPL-3.0-or-later
// A thickness as the trade says it: in quarters of an inch, or as any length.
#pragma once

#include <string>
#include <string_view>

#include "core/base/length.h"
#include "core/base/result.h"

namespace rackside {

struct SaidThickness {
  double mm = 0;
  std::string said;  // "8/4"; empty where it was typed as a length
};

// `8/4` whatever the unit, `27mm`, `1 1/16 in`. Quarters that no lumber is sawn to are refused.
Result<SaidThickness> parseThickness(std::string_view text, UnitSystem bare);
// "8/4 (50 mm)" where it was said so, else the length.
std::string thicknessText(double mm, const std::string& said, const LengthStyle& style);

}  // namespace rackside
