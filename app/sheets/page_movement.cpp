// SPDX-License-Identifier: GPL-3.0-or-later
// How much the wide parts move through the year, and what to build for it.
#include <algorithm>

#include "app/sheets/table.h"
#include "core/trade/moisture.h"

namespace rackside::sheets {
namespace {

// The wood of parts that name none, where the rack leaves no doubt.
std::string onlySpecies(const Rack& rack) {
  if (rack.boards.empty()) return {};
  const std::string& species = rack.boards.front().species;
  const bool alone = std::all_of(rack.boards.begin(), rack.boards.end(),
                                 [&](const Board& b) { return b.species == species; });
  return alone ? species : std::string();
}

}  // namespace

std::vector<Page> movementPages(const std::shared_ptr<const PackInput>& input) {
  const Rack& rack = input->rack;
  Seasons seasons;
  seasons.madeAtPercent = rack.shop.shopMoisturePercent;
  seasons.dryPercent = std::min(seasons.dryPercent, seasons.madeAtPercent);
  seasons.humidPercent = std::max(seasons.humidPercent, seasons.madeAtPercent);
  Table t;
  t.title = "How the wide parts move";
  t.subtitle = QString(
                   "Made at %1 % moisture; a heated room dries wood to about %2 %, a humid "
                   "summer brings it to %3 %.")
                   .arg(seasons.madeAtPercent)
                   .arg(seasons.dryPercent)
                   .arg(seasons.humidPercent);
  t.columns = {{"Part", 3},           {"Species", 2},
               {"Width", 1.2, true},  {"Shrinks", 1.2, true},
               {"Swells", 1.2, true}, {"Room to leave", 1.4, true}};
  // Movements are small: a finer step than the rest of the pack.
  const LengthStyle fine{input->options.lengths.system, 1, 64};
  const auto length = [&fine](double mm) { return QString::fromStdString(formatLength(mm, fine)); };
  std::vector<std::string> unknown;
  for (const MovingPart& m :
       movingParts(rack.parts, onlySpecies(rack), Sawn::unknown, seasons, unknown)) {
    const Part* part = rack.findPart(m.part);
    t.rows.push_back({QString::fromStdString(m.name), QString::fromStdString(m.species),
                      part ? input->length(part->widthMm) : QString(), length(m.movement.shrinksMm),
                      length(m.movement.swellsMm), length(m.movement.swingMm())});
    t.foot = QString::fromStdString(m.advice);
  }
  t.foot +=
      " Reckoned flat sawn, the greater movement, by the Wood Handbook's coefficients (USDA "
      "FPL-GTR-282, eq. 13-2).";
  for (const std::string& species : unknown)
    t.foot += species.empty()
                  ? QString(" Parts that name no species are left out.")
                  : " No published figures for " + QString::fromStdString(species) + ".";
  return tablePages(input, {std::move(t)});
}

}  // namespace rackside::sheets
