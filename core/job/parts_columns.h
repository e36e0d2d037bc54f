// SPDX-License-Identifier: GPL-3.0-or-later
// The columns of a parts table: for each its headings, how a cell is read and how it is written.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/length.h"
#include "core/base/result.h"
#include "core/job/part.h"

namespace rackside {

struct PartsColumn {
  std::vector<std::string_view> headings;  // the first is the one written
  bool required = false;
  // Puts the text of a cell, which is not empty, into the part; fails with what to type.
  Status (*read)(const std::string& cell, UnitSystem bareUnit, Part& part);
  std::string (*write)(const Part& part, const LengthStyle& style);
};

const std::vector<PartsColumn>& partsColumns();

// A column of somebody's table: what it holds, and in which unit a bare number stands there.
struct PartsHeading {
  const PartsColumn* column = nullptr;  // null: not a heading known here
  UnitSystem unit = UnitSystem::millimetres;
  std::string text;
};
// Reads `length`, `Length (mm)` or `width in`; without a unit of its own, numbers are in
// `bareUnit`.
PartsHeading partsHeading(const std::string& text, UnitSystem bareUnit);

}  // namespace rackside
