// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/area_bound.h"

#include <algorithm>
#include <numeric>

#include "core/base/each_in_parallel.h"
#include "core/plan/blank_kind.h"
#include "core/plan/left_over.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

double finishedArea(const Part& part) {
  if (part.outline) return area({*part.outline});
  return part.lengthMm * part.widthMm;
}

}  // namespace

double greatestGain(const PlanRequest& request, const Part& part, double lookWeight) {
  double best = 0;
  if (part.look == Look::any) return 1;
  for (const auto& [key, map] : request.worth)
    if (std::get<2>(key) == part.look)
      for (const float worth : map.worth) best = std::max(best, static_cast<double>(worth));
  return 1 + lookWeight * best;
}

double areaBound(const PlanRequest& request, const PlanOptions& options) {
  std::vector<double> woodOf(request.boards.size(), 0);
  eachInParallel(static_cast<int>(woodOf.size()), [&](int b, int) {
    if (mayBeCut(request, request.boards[b]))
      woodOf[b] = area(usableWood(request.boards[b].outline));
  });
  double wood = std::accumulate(woodOf.begin(), woodOf.end(), 0.0);
  struct Offer {
    double area, value;
  };
  std::vector<Offer> offers;
  for (const Part& part : request.parts)
    offers.push_back(
        {part.copies * finishedArea(part),
         part.copies * baseValue(part) * greatestGain(request, part, options.weights.look)});
  std::sort(offers.begin(), offers.end(),
            [](const Offer& a, const Offer& b) { return a.value * b.area > b.value * a.area; });
  double bound = 0;
  for (const Offer& offer : offers) {
    const double taken = std::min(offer.area, wood);
    bound += offer.area > 0 ? offer.value * taken / offer.area : 0;
    wood -= taken;
  }
  return bound;
}

}  // namespace rackside
