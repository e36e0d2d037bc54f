// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/copy_penalties.h"

#include <glpk.h>

#include <algorithm>
#include <memory>

namespace rackside {

void CopyPenalties::add(double pay, std::vector<int> copies) {
  ways_.push_back({pay, std::move(copies)});
}

// Shares of ways, one in all, no part more often than wanted: what most is paid for.
std::vector<double> CopyPenalties::best() const {
  const int parts = static_cast<int>(left_->size());
  const std::unique_ptr<glp_prob, void (*)(glp_prob*)> lp(glp_create_prob(), glp_delete_prob);
  glp_set_obj_dir(lp.get(), GLP_MAX);
  glp_add_rows(lp.get(), parts + 1);
  for (int p = 0; p < parts; ++p)
    glp_set_row_bnds(lp.get(), p + 1, GLP_UP, 0, std::max(0, (*left_)[p]));
  glp_set_row_bnds(lp.get(), parts + 1, GLP_UP, 0, 1);
  glp_add_cols(lp.get(), static_cast<int>(ways_.size()));
  for (size_t w = 0; w < ways_.size(); ++w) {
    std::vector<int> rows{0};
    std::vector<double> counts{0};
    for (int p = 0; p < parts; ++p)
      if (ways_[w].copies[p] > 0) rows.push_back(p + 1), counts.push_back(ways_[w].copies[p]);
    rows.push_back(parts + 1), counts.push_back(1);
    const int column = static_cast<int>(w) + 1;
    glp_set_col_bnds(lp.get(), column, GLP_LO, 0, 0);
    glp_set_obj_coef(lp.get(), column, ways_[w].pay);
    glp_set_mat_col(lp.get(), column, static_cast<int>(rows.size()) - 1, rows.data(),
                    counts.data());
  }
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  if (glp_simplex(lp.get(), &how) != 0 || glp_get_status(lp.get()) != GLP_OPT) return {};
  std::vector<double> penalties;
  penalties.reserve(parts);
  for (int p = 0; p < parts; ++p)
    penalties.push_back(std::max(0.0, glp_get_row_dual(lp.get(), p + 1)));
  return penalties;
}

}  // namespace rackside
