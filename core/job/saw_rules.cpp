// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/saw_rules.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace rackside {
namespace {

// The less must not be more than the more: a slice that must come off is no surplus that stays on,
// an offcut worth keeping is none, and a size is rounded up by its allowance at most.
struct Order {
  const char* less;
  double lessMm;
  const char* more;
  double moreMm;
};

std::array<Order, 7> orders(const Shop& shop, const SawRules& r) {
  // Without an allowance there is nothing that a step could be too wide for.
  const auto orAny = [](double allowanceMm) { return allowanceMm > 0 ? allowanceMm : 1e9; };
  const char* const along = "thinnest slice along the board";
  const char* const across = "thinnest slice across the board";
  const char* const length = "surplus length that stays on";
  return {{{along, r.leastSliceLengthMm, "useful offcut length", shop.usefulOffcutLengthMm},
           {across, r.leastSliceWidthMm, "useful offcut width", shop.usefulOffcutWidthMm},
           {along, r.leastSliceLengthMm, length, r.mostSurplusLengthMm},
           {across, r.leastSliceWidthMm, "surplus width that stays on", r.mostSurplusWidthMm},
           {length, r.mostSurplusLengthMm, "useful offcut length", shop.usefulOffcutLengthMm},
           {"step of rough lengths", r.roughLengthStepMm, "length allowance",
            orAny(shop.lengthAllowanceMm)},
           {"step of rough widths", r.roughWidthStepMm, "width allowance",
            orAny(shop.widthAllowanceMm)}}};
}

}  // namespace

SawRules sawRules(const Shop& shop) {
  SawRules rules;
  for (const RuleField& f : kRuleFields)
    if (const auto found = shop.extra->find(f.key);
        found != shop.extra->end() && found->is_number())
      rules.*f.value = found->get<double>();
  return rules;
}

Status validateSawRules(const Shop& shop) {
  for (const RuleField& f : kRuleFields) {
    const auto found = shop.extra->find(f.key);
    if (found == shop.extra->end()) continue;
    const double value = found->is_number() ? found->get<double>() : NAN;
    if (!(value >= f.least && value <= f.greatest))
      return Error{"Shop: the " + std::string(f.what) + " (" + f.key + ") must be a number from " +
                   formatLength(f.least, {}, false) + " to " + formatLength(f.greatest, {}, false) +
                   "."};
  }
  for (const Order& o : orders(shop, sawRules(shop)))
    if (o.lessMm > o.moreMm)
      return Error{"Shop: the " + std::string(o.less) + " (" + formatLength(o.lessMm, {}) +
                   ") is more than the " + o.more + " (" + formatLength(o.moreMm, {}) +
                   "), and both cannot be kept. Change one of them."};
  return success();
}

}  // namespace rackside
