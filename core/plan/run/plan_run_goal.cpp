// SPDX-License-Identifier: GPL-3.0-or-later
// What a run of the planner is for: the demand, the stock, whole panels.
#include <algorithm>

#include "core/plan/area_bound.h"
#include "core/plan/idle_cuts.h"
#include "core/plan/plain_planner.h"
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

// What a plan to start from pays, with the stock that it uses.
void PlanRun::payForStock(const Grid& grid, std::vector<Offer>& offers) const {
  const std::map<BoardId, StockCharge> charged = charges();
  for (Offer& o : offers) {
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
  const Demand demand = demandFor(true);
  pay -= demand.waste(copies);
  const double least =
      std::max(pay - std::min(payBound_, payBoundOfCopies_), leastWood(demand.inCopies(copies)));
  return std::max(0.0, std::min(plan.stockMm2, least));
}

// The faces of so many copies, the smallest that are wanted.
double PlanRun::leastWood(double copies) const {
  const auto areaOf = [&](int part) {
    const Part& p = request_.parts[part];
    return p.outline ? area({*p.outline}) : p.lengthMm * p.widthMm;
  };
  std::vector<double> areas;
  const std::vector<char> isStrip = demandFor(true).strips();
  for (size_t p = 0; p < wanted_.size(); ++p)
    if (!isStrip[p])
      areas.insert(areas.end(), std::max(0, wanted_[p]), areaOf(static_cast<int>(p)));
  for (const WantedPanel& panel : panels_) {
    double least = 1e300;
    for (const PanelWay& way : panel.ways) least = std::min(least, way.strips * areaOf(way.part));
    areas.insert(areas.end(), panel.copies, least);
  }
  std::sort(areas.begin(), areas.end());
  double sum = 0;
  for (size_t i = 0; i < areas.size() && static_cast<double>(i + 1) <= copies + 1e-6; ++i)
    sum += areas[i];
  return sum;
}

// The plain planner's plan where it is the better one: no search begins below it. What stands is
// left where it is.
void PlanRun::startPlainly(const Grid& grid) {
  if (!pins_.empty() ||
      std::any_of(offers_.begin(), offers_.end(), [](const Offer& o) { return o.asItIs; }))
    return;
  std::vector<int> wanted = wanted_;
  const std::vector<BoardLayout> layouts = plainLayouts(grid.open, grid.job, wanted);
  std::vector<Offer> plain;
  for (size_t b = 0; b < layouts.size(); ++b) {
    Offer o{static_cast<int>(b), {}, 0, layouts[b], false};
    for (const SectionLayout& section : o.layout.sections)
      for (const StripLayout& strip : section.strips) {
        const BlankKind& kind = grid.job.kinds[strip.kind];
        o.parts.insert(o.parts.end(), kind.copies, kind.part);
      }
    std::sort(o.parts.begin(), o.parts.end());
    PlanWriter writer(request_, options_, grid.job);
    writer.add(*boards_[b], sectionsOf(grid, o));
    o.pay = writer.take().value;
    plain.push_back(std::move(o));
  }
  payForStock(grid, plain);
  if (worthOf(plain) > worthOf(offers_)) std::swap(plain, offers_);
  for (Offer& o : plain) pool_.push_back(std::move(o));
}

// Towards the goal, but for strips that no whole panel takes.
double PlanRun::worthOf(const std::vector<Offer>& offers) const {
  double pay = 0;
  std::vector<int> copies(wanted_.size(), 0);
  for (const Offer& o : offers) {
    pay += o.pay;
    for (const int part : o.parts) ++copies[part];
  }
  return pay - demandFor(leastStock()).waste(copies);
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
