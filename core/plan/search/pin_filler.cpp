// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/pin_filler.h"

#include <algorithm>
#include <cmath>

namespace rackside {

std::vector<FilledSection> fillBesidePins(const BoardMap& map, const Job& job,
                                          const ValueMaps& worth, double lookWeight,
                                          const std::vector<PinnedSection>& pins,
                                          std::vector<int>& left) {
  std::vector<FilledSection> filled;
  const BoardItems items(map, job, worth, Reading::forPlans);
  StripPlaces places(items, lookWeight);
  SectionFiller filler(items, places, job.shop.ripKerfMm);
  std::vector<ItemPay> pays;
  for (size_t i = 0; i < items.items().size(); ++i) {
    const double plain = items.items()[i].plainValue;
    pays.push_back({plain, 0, plain * places.greatestGain(static_cast<int>(i))});
  }
  for (const PinnedSection& pin : pins) {
    if (pin.board != map.board().id) continue;
    filled.emplace_back();
    const double width = map.grid().width;
    const int from = static_cast<int>(std::ceil((pin.x0 - map.columnX(0)) / width - 1e-6));
    const int to = static_cast<int>(
        std::floor((pin.x1 + job.shop.crosscutKerfMm - map.columnX(0)) / width + 1e-6));
    if (from < 0 || to > map.grid().count) continue;
    for (int d = 0; d < map.directions(); ++d) {
      const ItemsAlong& along = items.along(d);
      if (along.angleRad != pin.angleRad) continue;
      const auto longest = std::upper_bound(along.lengths.begin(), along.lengths.end(), to - from);
      if (longest == along.lengths.begin()) continue;
      filled.back() =
          filler.fill(along, from, to - from, static_cast<int>(longest - along.lengths.begin()) - 1,
                      orderFor(places, along, pays, job.shop.ripKerfMm), left, pin.taken());
      for (const int part : filled.back().parts) --left[part];
    }
  }
  return filled;
}

}  // namespace rackside
