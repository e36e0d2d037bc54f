// SPDX-License-Identifier: GPL-3.0-or-later
// What a run of the planner is for: the demand, the stock, whole panels.
#include <algorithm>

#include "core/plan/area_bound.h"
#include "core/plan/idle_cuts.h"
#include "core/plan/run/plan_run.h"

namespace rackside {

// What is left to the search; with `stock` for the goal of least stock.
Demand PlanRun::demandFor(bool stock) const {
  Demand demand{wanted_, panels_, held_};
  for (WantedPanel& panel : demand.panels)
    for (PanelWay& way : panel.ways) {
      const Part& strip = request_.parts[way.part];
      way.mostWorth = stock
                          ? payOfCopy_ / way.strips
                          : baseValue(strip) * greatestGain(request_, strip, options_.weights.look);
    }
  return demand;
}

// Least stock charges every mm² alike; most value by price and weight.
std::map<BoardId, StockCharge> PlanRun::charges() const {
  std::map<BoardId, StockCharge> all;
  for (const Board* b : boards_) {
    const StockCharge charge =
        leastStock() ? StockCharge{1, 1} : stockChargeOf(*b, options_.weights);
    if (charge.any()) all[b->id] = charge;
  }
  return all;
}

// Least stock: of these copies, whatever wood they take.
double PlanRun::payOf(const std::vector<int>& parts) const {
  double pay = 0;
  for (const int part : parts) pay += payOfCopy_ / stripsOf_[part];
  return pay;
}

// What the plan to start from pays towards least stock.
void PlanRun::payForStock(const Grid& grid) {
  const std::map<BoardId, StockCharge> charged = charges();
  for (Offer& o : offers_) {
    const Board& board = *boards_[o.board];
    const auto charge = charged.find(board.id);
    if (charge == charged.end()) continue;
    PlanWriter writer(request_, options_, grid.job);
    if (o.asItIs)
      writer.addAsItIs(*request_.current, *boards_[o.board]);
    else
      writer.add(*boards_[o.board], sectionsOf(grid, o));
    const Plan plan = writer.take();
    double worth = leastStock() ? payOf(o.parts) : plan.value;
    if (!leastStock())
      for (const Piece& piece : plan.pieces)
        if (isPinned(piece)) worth -= piece.worth;
    o.pay = plan.stockMm2 > 0
                ? worth + charge->second.value(area({board.outline.polygon()}), plan.stockMm2)
                : worth;
  }
}

// No plan that places as many copies uses less.
double PlanRun::stockBound(const Plan& plan, const std::vector<Offer>& offers) const {
  if (!leastStock()) return 0;
  double pay = 0;
  std::vector<int> copies(wanted_.size(), 0);
  for (const Offer& o : offers) {
    pay += payOf(o.parts);
    for (const int part : o.parts) ++copies[part];
  }
  pay -= demandFor(true).waste(copies);
  return std::max(0.0, std::min(plan.stockMm2, pay - payBound_));
}

// Strips that no whole panel takes, those that were not planned before and are worth least first.
void PlanRun::takeOutSurplus(Plan& plan) const {
  std::set<PieceId> surplus;
  for (const WantedPanel& panel : panels_) {
    int whole = panel.copies;
    for (const PanelWay& way : panel.ways) {
      std::vector<const Piece*> strips;
      for (const Piece& piece : plan.pieces)
        if (piece.part == request_.parts[way.part].id) strips.push_back(&piece);
      const int elsewhere = heldElsewhere_[way.part];
      const int all = static_cast<int>(strips.size()) + elsewhere;
      const int taken = std::min(whole, all / way.strips);
      whole -= taken;
      const auto isOld = [&](const Piece* piece) {
        return request_.current &&
               std::any_of(request_.current->pieces.begin(), request_.current->pieces.end(),
                           [&](const Piece& p) { return p.id == piece->id; });
      };
      std::stable_sort(strips.begin(), strips.end(), [&](const Piece* a, const Piece* b) {
        const bool oldA = isOld(a), oldB = isOld(b);
        return oldA != oldB ? oldA : a->worth > b->worth;
      });
      const int used = std::max(0, taken * way.strips - elsewhere);
      for (size_t i = static_cast<size_t>(used); i < strips.size(); ++i)
        surplus.insert(strips[i]->id);
    }
  }
  takeOut(surplus, plan);
}

}  // namespace rackside
