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
constexpr int kMostPivots = 200000;

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

int Likeness::kept(const Offer& offer) const {
  std::vector<int> both;
  std::set_intersection(offer.parts.begin(), offer.parts.end(), parts[offer.board].begin(),
                        parts[offer.board].end(), std::back_inserter(both));
  return static_cast<int>(both.size());
}

Master::Master(int boards, const std::vector<int>& left, std::vector<Likeness> limits)
    : problem_(std::make_unique<Problem>()),
      boards_(boards),
      parts_(static_cast<int>(left.size())),
      limits_(std::move(limits)) {
  glp_term_out(GLP_OFF);
  problem_->lp = glp_create_prob();
  glp_set_obj_dir(problem_->lp, GLP_MAX);
  glp_add_rows(problem_->lp, parts_ + boards_ + static_cast<int>(limits_.size()));
  for (int p = 0; p < parts_; ++p) glp_set_row_bnds(problem_->lp, p + 1, GLP_UP, 0, left[p]);
  for (int b = 0; b < boards_; ++b) glp_set_row_bnds(problem_->lp, parts_ + b + 1, GLP_UP, 0, 1);
  for (size_t k = 0; k < limits_.size(); ++k)
    glp_set_row_bnds(problem_->lp, parts_ + boards_ + static_cast<int>(k) + 1, GLP_UP, 0,
                     limits_[k].most);
}

Master::~Master() {
  glp_delete_prob(problem_->lp);
}

void Master::add(const Offer& offer) {
  const int column = glp_add_cols(problem_->lp, 1);
  ++offers_;
  glp_set_col_bnds(problem_->lp, column, GLP_LO, 0, 0);
  glp_set_col_kind(problem_->lp, column, GLP_CV);
  glp_set_obj_coef(problem_->lp, column, offer.pay);
  std::vector<int> rows{0};
  std::vector<double> counts{0};
  for (size_t i = 0; i < offer.parts.size(); ++i) {
    if (i > 0 && offer.parts[i] == offer.parts[i - 1]) {
      counts.back() += 1;
    } else {
      rows.push_back(offer.parts[i] + 1);
      counts.push_back(1);
    }
  }
  rows.push_back(parts_ + offer.board + 1);
  counts.push_back(1);
  for (size_t k = 0; k < limits_.size(); ++k)
    if (const int kept = limits_[k].kept(offer); kept > 0) {
      rows.push_back(parts_ + boards_ + static_cast<int>(k) + 1);
      counts.push_back(kept);
    }
  glp_set_mat_col(problem_->lp, column, static_cast<int>(rows.size()) - 1, rows.data(),
                  counts.data());
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
  for (int p = 0; p < parts_; ++p)
    prices.push_back(std::max(0.0, glp_get_row_dual(problem_->lp, p + 1)));
  return prices;
}

double Master::boardPrice(int board) const {
  return std::max(0.0, glp_get_row_dual(problem_->lp, parts_ + board + 1));
}

double Master::likenessPrice(int limit) const {
  return std::max(0.0, glp_get_row_dual(problem_->lp, parts_ + boards_ + limit + 1));
}

double Master::fraction(int offer) const {
  return glp_get_col_prim(problem_->lp, offer + 1);
}

void Master::take(int offer) {
  glp_set_col_bnds(problem_->lp, offer + 1, GLP_FX, 1, 1);
}

void Master::forbid(int offer) {
  glp_set_col_bnds(problem_->lp, offer + 1, GLP_FX, 0, 0);
}

// Only offers that a choice worth more than `atLeast` could hold are asked for whole; the others
// are left out, as their reduced cost alone would take it below.
void Master::askForWhole(double atLeast) {
  const double spare = value() - atLeast;
  std::vector<char> hopeless(static_cast<size_t>(offers_) + 1, 0);
  for (int o = 1; o <= offers_; ++o)
    hopeless[o] = glp_get_col_stat(problem_->lp, o) == GLP_NL &&
                  -glp_get_col_dual(problem_->lp, o) > spare + 1e-6 * (1 + std::abs(atLeast));
  for (int o = 1; o <= offers_; ++o) {
    glp_set_col_kind(problem_->lp, o, GLP_BV);
    if (hopeless[o]) glp_set_col_bnds(problem_->lp, o, GLP_FX, 0, 0);
  }
}

std::vector<int> Master::wholeChoice(double atLeast, const std::function<bool()>& shouldEnd) {
  if (!solve()) return {};
  askForWhole(atLeast);
  Patience patience{shouldEnd, 10 + kChoiceWork / (parts_ + boards_ + offers_)};
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.mip_gap = 1e-6;
  how.br_tech = GLP_BR_PCH;
  how.bt_tech = GLP_BT_BLB;
  how.ps_heur = GLP_OFF;
  how.cb_func = endWhenTired;
  how.cb_info = &patience;
  std::vector<int> chosen;
  const int outcome = solve() ? glp_intopt(problem_->lp, &how) : GLP_EFAIL;
  const int status = glp_mip_status(problem_->lp);
  if ((outcome == 0 || outcome == GLP_ESTOP || outcome == GLP_EMIPGAP) &&
      (status == GLP_OPT || status == GLP_FEAS) && glp_mip_obj_val(problem_->lp) > atLeast)
    for (int o = 0; o < offers_; ++o)
      if (glp_mip_col_val(problem_->lp, o + 1) > 0.5) chosen.push_back(o);
  for (int o = 1; o <= offers_; ++o) {
    glp_set_col_kind(problem_->lp, o, GLP_CV);
    glp_set_col_bnds(problem_->lp, o, GLP_LO, 0, 0);
  }
  return chosen;
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
