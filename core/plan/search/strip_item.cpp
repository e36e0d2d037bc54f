// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/strip_item.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/plan/worth.h"

namespace rackside {

BoardItems::BoardItems(const BoardMap& map, const Job& job, const ValueMaps& worth, Reading reading)
    : map_(&map), job_(&job), worth_(&worth), reading_(reading) {
  for (const int k : map.kindsHere(reading)) {
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
  along_.resize(map.rips().all.size());
}

ItemsAlong BoardItems::itemsAlong(int direction) const {
  const RipDirection& rip = map_->rips().all[direction];
  ItemsAlong a;
  a.direction = direction;
  a.angleRad = rip.angleRad;
  a.sine = std::sin(a.angleRad), a.cosine = std::cos(a.angleRad);
  a.reading = reading_;
  if (reading_ == Reading::forBounds) a.leanAColumn = rip.leanPerMm() * job_->cellMm;
  a.reach = map_->reachAcross(direction);
  const double lean = a.leanAColumn * map_->grid().count;
  a.reach = {a.reach.lo - lean, a.reach.hi + lean};
  for (const StripItem& item : items_) {
    const BlankKind& kind = job_->kinds[item.anyKind()];
    const double tolerance = grainToleranceRad(job_->parts[item.part]);
    Footprint f = a.reading == Reading::forBounds
                      ? footprintOver(kind, tolerance, rip, job_->cellMm, job_->shop)
                      : footprintOf(kind, tolerance, a.angleRad, job_->cellMm,
                                    job_->shop.crosscutKerfMm, a.reading);
    f.fits = f.fits && f.steps <= map_->grid().count && f.widthMm <= a.reach.hi - a.reach.lo;
    if (f.fits) a.lengths.push_back(f.steps);
    a.footprints.push_back(f);
  }
  std::sort(a.lengths.begin(), a.lengths.end());
  a.lengths.erase(std::unique(a.lengths.begin(), a.lengths.end()), a.lengths.end());
  return a;
}

const ItemsAlong& BoardItems::along(int direction) const {
  auto& found = along_[direction];
  if (!found) found = std::make_unique<const ItemsAlong>(itemsAlong(direction));
  return *found;
}

std::vector<int> BoardItems::roots() const {
  if (reading_ == Reading::forBounds) return map_->rips().ranges;
  std::vector<int> all(map_->directions());
  std::iota(all.begin(), all.end(), 0);
  return all;
}

bool BoardItems::empty() const {
  const std::vector<int> all = roots();
  return std::all_of(all.begin(), all.end(), [&](int d) { return along(d).lengths.empty(); });
}

const ValueMap* BoardItems::look(const StripItem& item, Face face) const {
  return lookMap(*worth_, map_->board().id, face, job_->parts[item.part].look);
}

}  // namespace rackside
