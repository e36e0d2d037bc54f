// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/default_weights.h"

#include <algorithm>

#include "core/geometry/polygon.h"
#include "core/job/saw_rules.h"
#include "core/plan/blank_kind.h"
#include "core/plan/score.h"

namespace rackside {
namespace {

constexpr double kMm2PerCm2 = 100;
// A cut saved at no loss is saved.
constexpr double kAnySaving = 1e-6;

// What a mm² of all parts is worth, on plain wood.
double valuePerMm2(const std::vector<Part>& parts) {
  double value = 0, mm2 = 0;
  for (const Part& part : parts) {
    value += part.copies * baseValue(part);
    mm2 += part.copies * part.lengthMm * part.widthMm;
  }
  return mm2 > 0 ? value / mm2 : 0;
}

double meanPricePerMm2(const std::vector<Board>& boards) {
  double price = 0, mm2 = 0;
  for (const Board& board : boards) {
    const double face = area({board.outline.polygon()});
    price += face * pricePerMm2(board);
    mm2 += face;
  }
  return mm2 > 0 ? price / mm2 : 0;
}

}  // namespace

PlanWeights weightsFor(const Shop& shop, const std::vector<Board>& boards,
                       const std::vector<Part>& parts) {
  PlanWeights weights = weightsOf(shop);
  if (weights.stock > 0) return weights;  // the shop counts by price itself
  const SawRules rules = sawRules(shop);
  if (const double price = meanPricePerMm2(boards); price > 0)
    weights.stock = rules.woodWeight * valuePerMm2(parts) / price;
  weights.offcut = rules.offcutShare * weights.stock;
  return weights;
}

double worthOfCut(const Shop& shop, const std::vector<Part>& parts, const PlanWeights& weights) {
  if (!(weights.stock > 0)) return kAnySaving;
  return std::max(kAnySaving, sawRules(shop).cutWeightCm2 * kMm2PerCm2 * valuePerMm2(parts));
}

}  // namespace rackside
