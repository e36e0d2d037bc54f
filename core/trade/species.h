// SPDX-License-Identifier: GPL-3.0-or-later
// What is published about a wood: shrinkage, dimensional change, density.
//
// Wood Handbook (USDA FPL): shrinkage from green to oven-dry, Table 4-3; coefficients of
// dimensional change, Table 13-5; specific gravity at 12 % moisture, Table 5-3. Each figure carries
// how it came here: read in the handbook's text, read in a page that quotes it, or written from
// memory.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace rackside {

enum class Provenance { handbook, quoted, memory };

struct Figure {
  double value = 0;
  Provenance from = Provenance::handbook;
};

struct Species {
  std::string_view name;
  std::vector<std::string_view> alsoCalled;
  Figure radialShrinkagePercent;
  Figure tangentialShrinkagePercent;
  Figure volumetricShrinkagePercent;
  Figure radialChange;      // part of the size per percent of moisture, from 6 to 14 %
  Figure tangentialChange;  // likewise
  Figure specificGravity12;
};

const std::vector<Species>& allSpecies();

// By name or a usual short name, in any spelling of case and dashes: "cherry", "White ash".
const Species* findSpecies(std::string_view name);

}  // namespace rackside
