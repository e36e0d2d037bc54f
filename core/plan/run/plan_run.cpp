// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/plan_run.h"

#include <algorithm>
#include <cmath>

#include "core/base/each_in_parallel.h"
#include "core/plan/area_bound.h"
#include "core/plan/default_weights.h"
#include "core/plan/drying.h"
#include "core/plan/finer_columns.h"
#include "core/plan/left_over.h"
#include "core/plan/long_rips.h"
#include "core/plan/search/first_plan.h"
#include "core/plan/standing.h"
#include "core/plan/worth.h"

namespace rackside {
namespace {

// A plan loses what a column rounds away, and the bound pays for as much again: with these a third
// of a percent, with columns twice as wide more than one, for two thirds of the time. The first
// plan is made on columns eight times as wide: of the same value as on four times, for two thirds
// of the time.
constexpr double kFineMm = 1.25;
constexpr int kCoarser = 8;
// A better plan is written and checked at most so often.
constexpr double kPublishSeconds = 0.5;
// Least stock: a copy is worth as much as this many of the largest board.
constexpr double kBoardsACopy = 4;
// Of the time, when plans that differ are wanted as well.
constexpr double kSearchShare = 0.8;

double valuePerMm2(const PlanRequest& request) {
  double best = 0;
  for (const Part& p : request.parts)
    best = std::max(best, baseValue(p) / (p.outline ? area({*p.outline}) : p.lengthMm * p.widthMm));
  return best;
}

}  // namespace

PlanRun::Grid::Grid(const PlanRun& run, const std::vector<BlankKind>& kinds, double cellMm,
                    const std::vector<char>& without)
    : job{run.request_.parts, kinds, run.request_.shop, cellMm} {
  maps.resize(run.boards_.size());
  eachInParallel(static_cast<int>(maps.size()), [&](int b, int) {
    if (!without[b]) maps[b] = std::make_unique<BoardMap>(*run.boards_[b], job, run.pins_);
  });
  for (const auto& map : maps) open.push_back(map.get());
}

PlanRun::PlanRun(const Reduced& reduced, const PlanOptions& options, const PlanChoice& choice,
                 std::vector<PinnedSection> pins, const RunTime& time, RunControl& control)
    : request_(reduced.request),
      options_(options),
      choice_(choice),
      time_(time),
      control_(control),
      pins_(std::move(pins)),
      panels_(reduced.panels),
      stripsOf_(reduced.request.parts.size(), 1) {
  const PlanRequest& request = reduced.request;
  until_ = time.untilSeconds;
  if (choice.most > 1) until_ = seconds() + kSearchShare * (time.untilSeconds - seconds());
  for (const Board& b : request.boards)
    if (mayBeCut(request, b)) boards_.push_back(&b);
  for (size_t p = 0; p < request.parts.size(); ++p) {
    const Part& part = request.parts[p];
    for (BlankKind& k :
         blankKinds(part, static_cast<int>(p), request.shop, options.mostCopiesInBlank,
                    dryingShares(boards_, part.species, request.shop)))
      kinds_.push_back(k);
  }
  held_ = pinnedCopies(request, pins_);
  for (size_t p = 0; p < request.parts.size(); ++p)
    wanted_.push_back(request.parts[p].copies - held_[p]);
  heldElsewhere_ = reduced.held;
  heldElsewhere_.resize(request.parts.size(), 0);
  for (size_t p = 0; p < held_.size(); ++p) held_[p] += heldElsewhere_[p];
  for (const WantedPanel& panel : panels_)
    for (const PanelWay& way : panel.ways) stripsOf_[way.part] = way.strips;
  offers_.resize(boards_.size());
  for (size_t b = 0; b < offers_.size(); ++b) offers_[b].board = static_cast<int>(b);
  besidePins_.resize(boards_.size());
  bound_ = gridBound_ = areaBound(request, options);
  setUpGoal();
}

// For least stock every copy pays alike, and more than the largest few boards hold: placing comes
// before saving.
void PlanRun::setUpGoal() {
  goalKinds_ = kinds_;
  if (!leastStock()) return;
  for (const Board* b : boards_)
    payOfCopy_ = std::max(payOfCopy_, kBoardsACopy * area({b->outline.polygon()}));
  for (BlankKind& k : goalKinds_) k.value = k.copies * payOfCopy_ / stripsOf_[k.part];
}

double PlanRun::seconds() const {
  return std::chrono::duration<double>(Clock::now() - time_.start).count();
}

bool PlanRun::shouldEnd() const {
  return control_.shouldEnd() || seconds() >= until_ || (time_.isEnough && time_.isEnough());
}

// Boards on which the current plan still stands start as they are, pins and all.
void PlanRun::findStanding() {
  if (!request_.current) return;
  eachInParallel(static_cast<int>(boards_.size()), [&](int b, int) {
    offers_[b].asItIs = standsOn(request_, *request_.current, *boards_[b]);
  });
  std::vector<int> left = wanted_;
  for (Offer& o : offers_) {
    if (!o.asItIs) continue;
    std::vector<int> after = left;
    for (const Piece& piece : request_.current->pieces)
      for (size_t p = 0; p < request_.parts.size(); ++p)
        if (piece.board == boards_[o.board]->id && request_.parts[p].id == piece.part &&
            !isPinned(piece)) {
          o.parts.push_back(static_cast<int>(p));
          o.pay += placedWorth(request_, options_.weights, request_.parts[p], piece);
          --after[p];
        }
    std::sort(o.parts.begin(), o.parts.end());
    if (std::all_of(after.begin(), after.end(), [](int n) { return n >= 0; }))
      left = after;
    else
      o = {o.board, {}, 0, {}, false};  // fewer copies are wanted than were
  }
  // What lost its place may find another on a board that holds nothing yet.
  std::vector<int> copies = wanted_;
  for (size_t p = 0; p < copies.size(); ++p) copies[p] -= left[p];
  if (demandFor(false).lacks(copies))
    for (Offer& o : offers_)
      if (o.parts.empty()) o.asItIs = false;
}

bool PlanRun::isPinned(const Piece& piece) const {
  for (const PinnedSection& s : pins_)
    for (const PinnedBlank& b : s.blanks)
      if (b.blank.id == piece.blank) return true;
  return false;
}

void PlanRun::fillPins(const Grid& grid) {
  if (pins_.empty()) return;
  std::vector<int> left = wanted_;
  for (const Offer& o : offers_)
    for (const int part : o.parts) --left[part];
  std::vector<int> before = left;
  double width = 0;
  for (const PinnedSection& s : pins_) {
    for (const PinnedBlank& b : s.blanks)
      for (const Piece& piece : b.pieces) pinnedWorth_ += piece.worth;
    for (size_t b = 0; b < boards_.size(); ++b)
      if (boards_[b]->id == s.board)
        width +=
            area(intersect({boards_[b]->outline.polygon()}, {rectangle({s.x0, -1e5, s.x1, 1e5})}));
  }
  // Nothing beside the pins is worth more than that wood filled with the dearest part.
  pinnedWorth_ += width * valuePerMm2(request_) * (1 + options_.weights.look);
  for (size_t b = 0; b < boards_.size(); ++b) {
    const auto pins = std::count_if(pins_.begin(), pins_.end(), [&](const PinnedSection& s) {
      return s.board == boards_[b]->id;
    });
    if (grid.open[b] && pins > 0)
      besidePins_[b] = fillBesidePins(*grid.open[b], grid.job, request_.worth,
                                      options_.weights.look, pins_, left);
    else
      besidePins_[b].resize(static_cast<size_t>(pins));
  }
  for (size_t p = 0; p < left.size(); ++p) {
    wanted_[p] -= before[p] - left[p];
    held_[p] += before[p] - left[p];
    pinnedWorth_ +=
        (before[p] - left[p]) * baseValue(request_.parts[p]) * (1 + options_.weights.look);
  }
}

RackProblem PlanRun::problemOn(const Grid& grid) const {
  return {grid.job,
          grid.open,
          request_.worth,
          options_.weights.look,
          demandFor(false),
          0,
          leastStock() ? std::map<BoardId, StockCharge>{} : charges()};
}

RackProblem PlanRun::goalOn(const Grid& grid) const {
  if (!leastStock()) return problemOn(grid);
  return {grid.job, grid.open, noLooks_, 0, demandFor(true), payOfCopy_, charges()};
}

std::vector<WrittenSection> PlanRun::sectionsOf(const Grid& grid, const Offer& offer) const {
  const BoardMap& map = *grid.open[offer.board];
  std::vector<WrittenSection> sections;
  if (map.hasPins() || map.hasMetal())
    for (const SectionLayout& s : offer.layout.sections)
      sections.push_back(writtenSection(map, grid.job, s));
  else
    sections = withLongRips(map, grid.job, offer.layout,
                            {request_.worth, options_.weights.look,
                             worthOfCut(request_.shop, request_.parts, options_.weights)});
  size_t i = 0;
  for (const PinnedSection& pin : pins_) {
    if (pin.board != map.board().id) continue;
    sections.push_back(writtenSection(map, grid.job, pin, besidePins_[offer.board][i++].layout));
  }
  std::sort(sections.begin(), sections.end(),
            [](const WrittenSection& a, const WrittenSection& b) { return a.x0 < b.x0; });
  return sections;
}

Plan PlanRun::written(const Grid& grid, const std::vector<Offer>& offers) const {
  PlanWriter writer(request_, options_, grid.job);
  if (request_.current) writer.reserveIds(*request_.current);
  for (const PinnedSection& s : pins_)
    for (const PinnedBlank& b : s.blanks) writer.keep(b.pieces, {b.blank}, {});
  for (const Offer& o : offers)
    if (o.asItIs && request_.current) writer.keepBoard(*request_.current, boards_[o.board]->id);
  for (const Offer& o : offers) {
    if (o.asItIs && request_.current)
      writer.addAsItIs(*request_.current, *boards_[o.board]);
    else
      writer.add(*boards_[o.board], sectionsOf(grid, o));
  }
  Plan plan = writer.take();
  takeOutSurplus(plan);
  plan.bound = bound_;
  plan.gridBound = gridBound_;
  plan.stockBound = stockBound(plan, offers);
  plan.stopped = stopped_.empty() ? "the search goes on" : stopped_;
  return plan;
}

void PlanRun::publish(const Grid& grid, const std::vector<Offer>& offers) {
  if (time_.better) time_.better(written(grid, offers));
}

void PlanRun::search(const Grid& grid) {
  payForStock(grid, offers_);
  startPlainly(grid);
  RackSearch search(goalOn(grid), options_.seed, [this] { return shouldEnd(); });
  search.startFrom(offers_, std::move(pool_));
  const bool more = goOn(search, grid, [] { return false; });
  offers_ = search.best();
  stopped_ = more ? whyStopped() : "nothing better was left to try";
  findOthers(search);
}

// A round of prices takes a small part of the time on coarse columns: what is found there is where
// the fine ones begin.
void PlanRun::searchCoarsely(const Grid& grid) {
  payForStock(grid, offers_);
  RackSearch search(goalOn(grid), options_.seed, [this] { return shouldEnd(); });
  search.startFrom(offers_, {});
  (void)goOn(search, grid, [&] { return search.settled(); });
  offers_ = search.best();
  pool_ = search.offers();
}

// False when nothing was left to try; better plans are handed on.
bool PlanRun::goOn(RackSearch& search, const Grid& grid, const std::function<bool()>& isEnough) {
  double shown = search.bestPay(), shownAt = seconds();
  bool more = true;
  while (more && !isEnough() && !shouldEnd()) {
    more = search.step();
    noteBounds(search);
    control_.report(std::min(0.99, seconds() / time_.limitSeconds), "looking for a better plan");
    if (search.bestPay() <= shown || (more && seconds() - shownAt < kPublishSeconds)) continue;
    publish(grid, search.best());
    shown = search.bestPay(), shownAt = seconds();
  }
  return more;
}

void PlanRun::findOthers(RackSearch& search) {
  plans_ = {offers_};
  size_t pieces = 0;
  for (const Offer& o : offers_) pieces += o.parts.size();
  for (const PinnedSection& s : pins_)
    for (const PinnedBlank& b : s.blanks) pieces += b.pieces.size();
  for (const auto& ofBoard : besidePins_)
    for (const FilledSection& f : ofBoard) pieces += f.parts.size();
  const double leastMoved = std::ceil(choice_.leastElsewhere * static_cast<double>(pieces) - 1e-9);
  until_ = time_.untilSeconds;
  while (static_cast<int>(plans_.size()) < choice_.most && !control_.stopRequested()) {
    std::vector<Offer> other = search.otherThan(plans_, leastMoved, choice_.mostLoss);
    if (other.empty()) break;
    plans_.push_back(std::move(other));
  }
  // The time may have been up before the best was found.
  std::stable_sort(plans_.begin(), plans_.end(), [&](const auto& a, const auto& b) {
    return search.payOf(a) > search.payOf(b) + 1e-6;
  });
  const double least = search.payOf(plans_.front()) - choice_.mostLoss * search.atStake();
  std::erase_if(plans_, [&](const auto& plan) { return search.payOf(plan) < least; });
  offers_ = plans_.front();
}

std::string PlanRun::whyStopped() const {
  return control_.stopRequested() ? "stopped by hand" : "the time was up";
}

void PlanRun::noteBounds(const RackSearch& search) {
  if (leastStock()) {
    payBound_ = std::min(payBound_, search.bound());
    payBoundOfCopies_ = search.boundOfCopies();
  } else {
    bound_ = std::min(bound_, pinnedWorth_ + search.bound());
    gridBound_ = std::min(gridBound_, pinnedWorth_ + search.gridBound());
  }
}

void PlanRun::toFinerColumns(const Grid& fine) {
  const auto stays = [&](Offer& o) {
    return std::all_of(o.layout.sections.begin(), o.layout.sections.end(), [&](SectionLayout& s) {
      return toFiner(s, kCoarser, *fine.open[o.board], fine.job);
    });
  };
  for (Offer& o : offers_)
    if (!stays(o)) o = {o.board, {}, 0, {}, false};
  std::vector<std::vector<Offer>> ofBoard(boards_.size());
  for (Offer& o : pool_) ofBoard[o.board].push_back(std::move(o));
  eachInParallel(static_cast<int>(boards_.size()), [&](int b, int) {
    std::erase_if(ofBoard[b], [&](Offer& o) { return !stays(o); });
  });
  pool_.clear();
  for (auto& offers : ofBoard)
    for (Offer& o : offers) pool_.push_back(std::move(o));
  for (size_t b = 0; b < besidePins_.size(); ++b)
    for (FilledSection& f : besidePins_[b])
      (void)toFiner(f.layout, kCoarser, *fine.open[b], fine.job);
}

std::vector<Plan> PlanRun::make() {
  findStanding();
  std::vector<char> standing;
  for (const Offer& o : offers_) standing.push_back(o.asItIs ? 1 : 0);
  {
    const Grid coarse(*this, kinds_, kCoarser * kFineMm, standing);
    fillPins(coarse);
    offers_ = firstPlan(problemOn(coarse), std::move(offers_));
    publish(coarse, offers_);
    control_.report(0.02, "a first plan");
    if (shouldEnd()) {
      stopped_ = whyStopped();
      return {written(coarse, offers_)};
    }
  }
  const std::vector<char> none(boards_.size(), 0);
  searchCoarsely(Grid(*this, goalKinds_, kCoarser * kFineMm, none));
  const Grid fine(*this, goalKinds_, kFineMm, none);
  toFinerColumns(fine);
  search(fine);
  std::vector<Plan> plans;
  plans.reserve(plans_.size());
  for (const auto& offers : plans_) plans.push_back(written(fine, offers));
  return plans;
}

}  // namespace rackside
