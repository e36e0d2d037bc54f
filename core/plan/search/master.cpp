// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/master.h"

#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace rackside {
namespace {

// Of a whole choice: nodes · (rows + columns). About a second.
constexpr int kChoiceWork = 400000;
constexpr int kNodesNear = 200;
constexpr double kBallast = 1e-3;
constexpr int kMostPivots = 200000;
// What a strip that is missing from a panel asked for costs, in strips.
constexpr double kMissing = 2;

using SetBounds = void (*)(glp_prob*, int, int, double, double);

void setWithin(glp_prob* lp, SetBounds set, int index, double least, double most) {
  set(lp, index, least < most ? GLP_DB : GLP_FX, least, most);
}

struct Patience {
  const std::function<bool()>& shouldEnd;
  int nodes;
};

void endWhenTired(glp_tree* tree, void* info) {
  Patience& patience = *static_cast<Patience*>(info);
  if (glp_ios_reason(tree) != GLP_ISELECT) return;
  if (--patience.nodes < 0 || patience.shouldEnd()) glp_ios_terminate(tree);
}

}  // namespace

struct Master::Problem {
  glp_prob* lp = nullptr;
};

int Likeness::moved(const Offer& offer) const {
  std::vector<int> both;
  std::set_intersection(offer.parts.begin(), offer.parts.end(), parts[offer.board].begin(),
                        parts[offer.board].end(), std::back_inserter(both));
  const auto known = std::count_if(offer.parts.begin(), offer.parts.end(),
                                   [&](int part) { return copies[part] > 0; });
  return static_cast<int>(known) - static_cast<int>(both.size());
}

Master::Master(int boards, const Demand& demand, std::vector<Likeness> limits)
    : problem_(std::make_unique<Problem>()),
      boards_(boards),
      parts_(static_cast<int>(demand.left.size())),
      limits_(std::move(limits)) {
  glp_term_out(GLP_OFF);
  problem_->lp = glp_create_prob();
  glp_set_obj_dir(problem_->lp, GLP_MAX);
  glp_add_rows(problem_->lp, parts_ + boards_ + static_cast<int>(limits_.size()));
  for (int p = 0; p < parts_; ++p) glp_set_row_bnds(problem_->lp, p + 1, GLP_UP, 0, demand.left[p]);
  for (int b = 0; b < boards_; ++b) glp_set_row_bnds(problem_->lp, parts_ + b + 1, GLP_UP, 0, 1);
  for (size_t k = 0; k < limits_.size(); ++k)
    glp_set_row_bnds(problem_->lp, parts_ + boards_ + static_cast<int>(k) + 1, GLP_LO,
                     limits_[k].leastMoved, 0);
  for (size_t k = 0; k < limits_.size(); ++k) addLimit(k, demand);
  mayBeNegative_.assign(parts_, 0);
  for (const WantedPanel& panel : demand.panels) addPanel(panel, demand);
  addBallast();
}

// GLPK 5.0 aborts on cover cuts when its presolver leaves no column at all. Of these three, worth
// nothing beside any part, any two bar each other: the presolver cannot take them out, and one is
// chosen whole of itself. (Without cover cuts plans were far worse where there are panels.)
void Master::addBallast() {
  const int row = glp_add_rows(problem_->lp, 3);
  for (int i = 0; i < 3; ++i) glp_set_row_bnds(problem_->lp, row + i, GLP_UP, 0, 1);
  for (int i = 0; i < 3; ++i) {
    ballast_[i] = addColumn((i == 0 ? 3 : 1) * kBallast, {row + i, row + (i + 1) % 3}, {1, 1});
    glp_set_col_bnds(problem_->lp, ballast_[i], GLP_DB, 0, 1);
  }
}

int Master::addColumn(double pay, std::vector<int> rows, std::vector<double> counts) {
  const int column = glp_add_cols(problem_->lp, 1);
  glp_set_col_bnds(problem_->lp, column, GLP_LO, 0, 0);
  glp_set_obj_coef(problem_->lp, column, pay);
  rows.insert(rows.begin(), 0);
  counts.insert(counts.begin(), 0);
  glp_set_mat_col(problem_->lp, column, static_cast<int>(rows.size()) - 1, rows.data(),
                  counts.data());
  return column;
}

// Strips laid out = those of the panels made whole in that way + those thrown away − those missing
// from panels that are asked for. No more are laid out than all copies have.
void Master::addPanel(const WantedPanel& panel, const Demand& demand) {
  glp_prob* lp = problem_->lp;
  const int together = glp_add_rows(lp, 1 + static_cast<int>(panel.ways.size()));
  setWithin(lp, glp_set_row_bnds, together, panel.least, panel.copies);
  int most = together;
  for (const PanelWay& way : panel.ways) {
    const int row = way.part + 1, held = demand.heldOf(way.part);
    glp_set_row_bnds(lp, row, GLP_FX, -held, -held);
    glp_set_row_bnds(lp, ++most, GLP_UP, 0, panel.most(way) * way.strips);
    const double strips = way.strips;
    const int whole = addColumn(0, {row, together, most}, {-strips, 1, strips});
    setWithin(lp, glp_set_col_bnds, whole, way.least, panel.most(way));
    wholePanels_.push_back(whole);
    addColumn(-way.mostWorth, {row, most}, {-1, 1});
    if (panel.asked(way)) addColumn(-kMissing * way.mostWorth, {row}, {1});
    mayBeNegative_[way.part] = panel.asked(way) ? 1 : 0;
  }
}

// Copies that the other plan does not have lie nowhere else: what is laid out of a part beyond what
// it has does not count as moved.
void Master::addLimit(size_t limit, const Demand& demand) {
  const int row = parts_ + boards_ + static_cast<int>(limit) + 1;
  addColumn(-limits_[limit].missing, {row}, {1});
  excessRows_.emplace_back();
  for (int p = 0; p < parts_; ++p) {
    const int has = limits_[limit].copies[p];
    if (has == 0 || demand.left[p] <= has) continue;
    const int excess = glp_add_rows(problem_->lp, 1);
    glp_set_row_bnds(problem_->lp, excess, GLP_UP, 0, has);
    addColumn(0, {row, excess}, {-1, -1});
    excessRows_.back()[p] = excess;
  }
}

Master::~Master() {
  glp_delete_prob(problem_->lp);
}

void Master::add(const Offer& offer) {
  std::vector<int> rows;
  std::vector<double> counts;
  for (size_t i = 0; i < offer.parts.size(); ++i) {
    if (i > 0 && offer.parts[i] == offer.parts[i - 1]) {
      counts.back() += 1;
    } else {
      rows.push_back(offer.parts[i] + 1);
      counts.push_back(1);
    }
  }
  const size_t parts = rows.size();
  rows.push_back(parts_ + offer.board + 1);
  counts.push_back(1);
  for (size_t k = 0; k < limits_.size(); ++k)
    if (const int moved = limits_[k].moved(offer); moved > 0) {
      rows.push_back(parts_ + boards_ + static_cast<int>(k) + 1);
      counts.push_back(moved);
    }
  for (const auto& excess : excessRows_)
    for (size_t i = 0; i < parts; ++i)
      if (const auto row = excess.find(rows[i] - 1); row != excess.end()) {
        rows.push_back(row->second);
        counts.push_back(counts[i]);
      }
  const int column = addColumn(offer.pay, rows, counts);
  if (offers_++ == 0) firstOffer_ = column;
  boardOf_.push_back(offer.board);
}

bool Master::solve() {
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.meth = GLP_PRIMAL;
  how.it_lim = kMostPivots;
  if (glp_simplex(problem_->lp, &how) == 0 && glp_get_status(problem_->lp) == GLP_OPT) return true;
  // A basis that went bad is built again from nothing.
  glp_std_basis(problem_->lp);
  return glp_simplex(problem_->lp, &how) == 0 && glp_get_status(problem_->lp) == GLP_OPT;
}

double Master::value() const {
  return glp_get_obj_val(problem_->lp);
}

std::vector<double> Master::prices() const {
  std::vector<double> prices;
  prices.reserve(parts_);
  for (int p = 0; p < parts_; ++p) {
    const double price = glp_get_row_dual(problem_->lp, p + 1);
    prices.push_back(mayBeNegative_[p] ? price : std::max(0.0, price));
  }
  return prices;
}

double Master::boardPrice(int board) const {
  return std::max(0.0, glp_get_row_dual(problem_->lp, parts_ + board + 1));
}

double Master::likenessPrice(int limit) const {
  return std::max(0.0, -glp_get_row_dual(problem_->lp, parts_ + boards_ + limit + 1));
}

double Master::reducedCost(int offer) const {
  return std::max(0.0, -glp_get_col_dual(problem_->lp, column(offer)));
}

double Master::fraction(int offer) const {
  return glp_get_col_prim(problem_->lp, column(offer));
}

std::vector<double> Master::wholePanels() const {
  std::vector<double> whole;
  whole.reserve(wholePanels_.size());
  for (const int column : wholePanels_) whole.push_back(glp_get_col_prim(problem_->lp, column));
  return whole;
}

double Master::copies(int part) const {
  return glp_get_row_prim(problem_->lp, part + 1);
}

void Master::take(int offer) {
  glp_set_col_bnds(problem_->lp, column(offer), GLP_FX, 1, 1);
}

void Master::forbid(int offer) {
  glp_set_col_bnds(problem_->lp, column(offer), GLP_FX, 0, 0);
}

// Only offers that a choice worth more than `atLeast` could hold are asked for whole; the others
// are left out, as their reduced cost alone would take it below.
void Master::askForWhole(double atLeast) {
  const double spare = value() - atLeast;
  std::vector<char> hopeless(offers_, 0);
  for (int o = 0; o < offers_; ++o)
    hopeless[o] =
        glp_get_col_type(problem_->lp, column(o)) != GLP_FX &&
        glp_get_col_stat(problem_->lp, column(o)) == GLP_NL &&
        -glp_get_col_dual(problem_->lp, column(o)) > spare + 1e-6 * (1 + std::abs(atLeast));
  for (int o = 0; o < offers_; ++o) {
    if (hopeless[o]) forbid(o);
    if (glp_get_col_type(problem_->lp, column(o)) != GLP_FX)
      glp_set_col_kind(problem_->lp, column(o), GLP_BV);
  }
  for (const int whole : wholePanels_) glp_set_col_kind(problem_->lp, whole, GLP_IV);
}

std::vector<int> Master::wholeChoice(double atLeast, const std::function<bool()>& shouldEnd) {
  if (!solve()) return {};
  return choose(atLeast, false, shouldEnd);
}

std::vector<int> Master::wholeChoiceNear(const std::vector<int>& kept, double atLeast,
                                         const std::function<bool()>& shouldEnd) {
  for (int o = 0; o < offers_; ++o) {
    const int stays = kept[boardOf_[o]];
    if (stays == kFree) continue;
    if (stays == o)
      take(o);
    else
      forbid(o);
  }
  if (solve() && value() > atLeast) return choose(atLeast, true, shouldEnd);
  freeAll();
  return {};
}

// Frees all offers again.
std::vector<int> Master::choose(double atLeast, bool near, const std::function<bool()>& shouldEnd) {
  askForWhole(atLeast);
  const int nodes = near ? kNodesNear : 10 + kChoiceWork / (parts_ + boards_ + offers_);
  Patience patience{shouldEnd, nodes};
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.mip_gap = 1e-6;
  how.br_tech = GLP_BR_PCH;
  how.bt_tech = GLP_BT_BLB;
  if (near) {
    how.bt_tech = GLP_BT_BPH;
    how.presolve = how.gmi_cuts = how.mir_cuts = how.clq_cuts = how.cov_cuts = GLP_ON;
    for (const int column : ballast_) glp_set_col_kind(problem_->lp, column, GLP_BV);
  }
  how.ps_heur = GLP_OFF;
  how.cb_func = endWhenTired;
  how.cb_info = &patience;
  std::vector<int> chosen;
  const int outcome = solve() ? glp_intopt(problem_->lp, &how) : GLP_EFAIL;
  const int status = glp_mip_status(problem_->lp);
  if ((outcome == 0 || outcome == GLP_ESTOP || outcome == GLP_EMIPGAP) &&
      (status == GLP_OPT || status == GLP_FEAS) && glp_mip_obj_val(problem_->lp) > atLeast)
    for (int o = 0; o < offers_; ++o)
      if (glp_mip_col_val(problem_->lp, column(o)) > 0.5) chosen.push_back(o);
  freeAll();
  return chosen;
}

void Master::freeAll() {
  for (const int whole : wholePanels_) glp_set_col_kind(problem_->lp, whole, GLP_CV);
  for (const int column : ballast_) {
    glp_set_col_kind(problem_->lp, column, GLP_CV);
    glp_set_col_bnds(problem_->lp, column, GLP_DB, 0, 1);
  }
  for (int o = 0; o < offers_; ++o) {
    glp_set_col_kind(problem_->lp, column(o), GLP_CV);
    glp_set_col_bnds(problem_->lp, column(o), GLP_LO, 0, 0);
  }
}

std::vector<Offer> planOf(const std::vector<int>& chosen, const std::vector<Offer>& offers,
                          size_t boards) {
  if (chosen.empty()) return {};
  std::vector<Offer> plan(boards);
  for (size_t b = 0; b < boards; ++b) plan[b].board = static_cast<int>(b);
  for (const int o : chosen) plan[offers[o].board] = offers[o];
  return plan;
}

}  // namespace rackside
