// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/shop.h"

#include <array>
#include <cmath>

#include "core/wood/mark_traits.h"

namespace rackside {
namespace {

struct Limit {
  const char* what;
  double valueMm;
  double leastMm;
  double greatestMm;
};

std::array<Limit, 27> limits(const Shop& s) {
  return {{{"crosscut kerf", s.crosscutKerfMm, 0, 20},
           {"rip kerf", s.ripKerfMm, 0, 20},
           {"first rip kerf", s.firstRipKerfMm, 0, 20},
           {"end trim", s.endTrimMm, 0, 1000},
           {"length allowance", s.lengthAllowanceMm, 0, 500},
           {"width allowance", s.widthAllowanceMm, 0, 100},
           {"thickness allowance", s.thicknessAllowanceMm, 0, 50},
           {"length from which a part is long", s.longPartMm, 0, 20000},
           {"thickness allowance of long parts", s.longThicknessAllowanceMm, 0, 50},
           {"least take-off", s.minTakeOffMm, 0, 20},
           {"jointer width", s.jointerWidthMm, 0, 2000},
           {"planer width", s.planerWidthMm, 0, 2000},
           {"snipe", s.snipeMm, 0, 500},
           {"shortest safe piece", s.shortestSafeMm, 0, 2000},
           {"narrowest safe piece", s.narrowestSafeMm, 0, 500},
           {"leg allowance", s.legAllowanceMm, 0, 50},
           {"curved part allowance", s.curvedAllowanceMm, 0, 50},
           {"glue line allowance", s.glueLineAllowanceMm, 0, 20},
           {"useful offcut length", s.usefulOffcutLengthMm, 0, 20000},
           {"useful offcut width", s.usefulOffcutWidthMm, 0, 2000},
           {"moisture of the shop (percent)", s.shopMoisturePercent, 0, 30},
           {"weight of the look", s.lookWeight, 0, 1},
           {"weight of the stock", s.stockWeight, 0, 1e9},
           {"weight of offcuts (no more than that of the stock)", s.offcutWeight, 0, s.stockWeight},
           {"thickness left for the second milling", s.restAllowanceMm, 0, 20},
           {"width from which a part is wide", s.widePartMm, 0, 2000},
           {"decimals shown", static_cast<double>(s.show.decimals), 0, 3}}};
}

}  // namespace

double Shop::clearance(MarkKind kind) const {
  const auto found = clearanceMm.find(kind);
  if (found != clearanceMm.end()) return found->second;
  return defaultClearances().at(kind);
}

double Shop::thicknessAllowance(double finishedLengthMm) const {
  return finishedLengthMm >= longPartMm ? longThicknessAllowanceMm : thicknessAllowanceMm;
}

std::map<MarkKind, double> Shop::defaultClearances() {
  std::map<MarkKind, double> all;
  for (const MarkTraits& traits : allMarkTraits()) all[traits.kind] = traits.clearanceMm;
  return all;
}

Status validate(const Shop& shop) {
  const auto outside = [](double v, double least, double greatest) {
    return !std::isfinite(v) || v < least || v > greatest;
  };
  for (const Limit& l : limits(shop))
    if (outside(l.valueMm, l.leastMm, l.greatestMm))
      return Error{"Shop: the " + std::string(l.what) + " must be from " +
                   formatLength(l.leastMm, {}, false) + " to " +
                   formatLength(l.greatestMm, {}, false) + "."};
  for (const auto& [kind, mm] : shop.clearanceMm)
    if (outside(mm, 0, 500))
      return Error{"Shop: the clearance round a " + std::string(name(kind)) +
                   " must be from 0 to 500 mm."};
  const int d = shop.show.denominator;
  if (d < 1 || d > 64 || (d & (d - 1)) != 0)
    return Error{"Shop: inches are shown in 1, 1/2, 1/4, 1/8, 1/16, 1/32 or 1/64."};
  return success();
}

}  // namespace rackside
