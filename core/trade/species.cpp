// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/species.h"

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr Figure read(double v) {
  return {v, Provenance::handbook};
}
constexpr Figure quoted(double v) {
  return {v, Provenance::quoted};
}
constexpr Figure memory(double v) {
  return {v, Provenance::memory};
}

}  // namespace

const std::vector<Species>& allSpecies() {
  static const std::vector<Species> all = {
      {"black walnut",
       {"walnut"},
       read(5.5),
       read(7.8),
       read(12.8),
       read(.00190),
       read(.00274),
       quoted(.55)},
      {"black cherry",
       {"cherry"},
       read(3.7),
       read(7.1),
       read(11.5),
       read(.00126),
       read(.00248),
       quoted(.50)},
      {"sugar maple",
       {"hard maple", "maple"},
       quoted(4.8),
       quoted(9.9),
       quoted(14.7),
       read(.00165),
       read(.00353),
       quoted(.63)},
      {"red maple",
       {"soft maple"},
       quoted(4.0),
       quoted(8.2),
       memory(12.6),
       read(.00137),
       read(.00289),
       quoted(.54)},
      {"white oak", {}, read(5.6), read(10.5), read(16.3), read(.00180), read(.00365), quoted(.68)},
      {"northern red oak",
       {"red oak", "oak"},
       memory(4.0),
       memory(8.6),
       memory(13.7),
       read(.00158),
       read(.00369),
       quoted(.63)},
      {"white ash",
       {"ash"},
       read(4.9),
       read(7.8),
       read(13.3),
       read(.00169),
       read(.00274),
       quoted(.60)},
      {"yellow-poplar",
       {"poplar", "tulip poplar", "tulipwood"},
       read(4.6),
       read(8.2),
       read(12.7),
       read(.00158),
       memory(.00289),
       quoted(.42)},
      {"black locust",
       {"locust"},
       quoted(4.6),
       quoted(7.2),
       quoted(10.2),
       read(.00158),
       read(.00252),
       quoted(.69)},
      {"shagbark hickory",
       {"hickory"},
       memory(7.0),
       memory(10.5),
       memory(16.7),
       memory(.00259),
       quoted(.00411),
       quoted(.72)},
  };
  return all;
}

const Species* findSpecies(std::string_view name) {
  for (const Species& species : allSpecies()) {
    if (sameName(species.name, name)) return &species;
    for (const std::string_view other : species.alsoCalled)
      if (sameName(other, name)) return &species;
  }
  return nullptr;
}

}  // namespace rackside
