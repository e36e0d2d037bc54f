// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/strip_item.h"

#include <algorithm>
#include <cmath>

#include "core/plan/worth.h"

namespace rackside {

BoardItems::BoardItems(const BoardMap& map, const Job& job, const ValueMaps& worth, Reading reading)
    : map_(&map), job_(&job), worth_(&worth), reading_(reading) {
  for (const int k : map.kindsHere()) {
    const BlankKind& kind = job.kinds[k];
    const auto same = [&](const StripItem& i) {
      const BlankKind& other = job.kinds[i.anyKind()];
      return other.part == kind.part && other.copies == kind.copies && other.turned == kind.turned;
    };
    auto item = std::find_if(items_.rbegin(), items_.rend(), same);
    if (item == items_.rend()) {
      items_.push_back({kind.part, kind.copies, {-1, -1}, kind.value, false});
      item = items_.rbegin();
    }
    item->kindOn[static_cast<int>(kind.showFace)] = k;
    item->looked = item->looked || look(*item, kind.showFace) != nullptr;
  }
  for (int d = 0; d < map.directions(); ++d) {
    ItemsAlong a;
    a.direction = d;
    a.angleRad = map.angleRad(d);
    a.sine = std::sin(a.angleRad), a.cosine = std::cos(a.angleRad);
    a.reach = map.reachAcross(d);
    for (const StripItem& item : items_) {
      Footprint f = footprintOf(job.kinds[item.anyKind()], grainToleranceRad(job.parts[item.part]),
                                a.angleRad, job.cellMm, job.shop.crosscutKerfMm, reading);
      f.fits = f.fits && f.steps <= map.grid().count && f.widthMm <= a.reach.hi - a.reach.lo;
      if (f.fits) a.lengths.push_back(f.steps);
      a.footprints.push_back(f);
    }
    std::sort(a.lengths.begin(), a.lengths.end());
    a.lengths.erase(std::unique(a.lengths.begin(), a.lengths.end()), a.lengths.end());
    if (!a.lengths.empty()) along_.push_back(std::move(a));
  }
}

const ValueMap* BoardItems::look(const StripItem& item, Face face) const {
  return lookMap(*worth_, map_->board().id, face, job_->parts[item.part].look);
}

}  // namespace rackside
