// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/missing_wood.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/trade/rack_totals.h"
#include "core/trade/tally.h"

namespace rackside {
namespace {

constexpr double kMm2PerFt2 = 144 * kMmPerInch * kMmPerInch;
// Fewer square millimetres of parts, or a smaller share of the wood, say nothing of how wood is
// used (our own choice).
constexpr double kTellingMm2 = 50000;
constexpr double kTellingShare = 0.05;
// The thinnest and thickest standard lumber that is looked for, in steps of 1/16 in.
constexpr double kThickestIn = 6;

// A thicker part than any board is glued up from the thickest.
double nominalFor(const Part& part, const Shop& shop) {
  const double rough = part.thicknessMm + shop.thicknessAllowance(part.lengthMm);
  for (double in = 1; in <= kThickestIn; in += 0.25) {
    const double nominal = nominalThicknessIn(in * kMmPerInch, true);
    if (nominal * kMmPerInch >= rough - 1e-6) return nominal;
  }
  return kThickestIn;
}

std::map<PartId, int> unplacedCopies(const Rack& rack) {
  std::map<PartId, int> copies;
  for (const Unplaced& u : rack.plan->unplaced) ++copies[u.part];
  return copies;
}

}  // namespace

std::vector<MissingWood> missingWood(const Rack& rack) {
  if (!rack.plan) return {};
  const Yield yield = yieldOf(rack, *rack.plan);
  const bool telling = yield.neededMm2 >= kTellingMm2 && yield.yieldShare() > kTellingShare;
  std::map<std::pair<std::string, double>, MissingWood> groups;
  for (const auto& [id, copies] : unplacedCopies(rack)) {
    const Part* part = rack.findPart(id);
    if (!part) continue;
    const double nominal = nominalFor(*part, rack.shop);
    MissingWood& m = groups[{woodKey(part->species, rack.shop.ownSpecies), nominal}];
    m.species = part->species;
    m.nominalIn = nominal;
    m.copies += copies;
    const double areaMm2 =
        part->outline ? std::abs(signedArea(*part->outline)) : part->lengthMm * part->widthMm;
    m.neededBoardFeet += copies * areaMm2 / kMm2PerFt2 * std::max(1.0, nominal);
  }
  std::vector<MissingWood> all;
  all.reserve(groups.size());
  for (auto& [key, m] : groups) {
    m.yieldFromPlan = telling;
    m.yieldShare = telling ? yield.yieldShare() : kUsualYieldShare;
    m.boardFeet = m.neededBoardFeet / m.yieldShare;
    all.push_back(m);
  }
  return all;
}

std::string missingWoodText(const MissingWood& m) {
  char figures[160];
  std::snprintf(figures, sizeof figures,
                "%.1f bf for %d %s not placed (%.1f bf in the parts, %.0f %% yield, %s)",
                std::ceil(10 * m.boardFeet) / 10, m.copies, m.copies == 1 ? "piece" : "pieces",
                m.neededBoardFeet, 100 * m.yieldShare,
                m.yieldFromPlan ? "as in this plan" : "a usual one");
  return "to buy: " + (m.species.empty() ? std::string("any wood") : m.species) + " " +
         nominalName(m.nominalIn) + ", " + figures;
}

}  // namespace rackside
