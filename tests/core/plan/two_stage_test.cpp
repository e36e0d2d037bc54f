// SPDX-License-Identifier: GPL-3.0-or-later
// Plans and their bound against a general-purpose solver: on boards that are clear rectangles the
// best plan of crosscuts and rips is the optimum of an integer program, written here from the
// definition of two-stage cutting alone (Gilmore and Gomory 1965, "Multistage cutting stock
// problems of two and more dimensions"; the program is that of Lodi and Monaci 2003, "Integer
// linear programming models for 2-staged two-dimensional knapsack problems") and solved by GLPK's
// branch and cut.
#include <glpk.h>

#include <catch2/catch.hpp>
#include <memory>
#include <random>

#include "core/plan/checker.h"
#include "core/plan/planner.h"

using namespace rackside;

namespace {

// What a strip may hold: so many copies of a part, end to end.
struct Kind {
  int part, copies;
  double length, width, value;  // rough
};

PlanRequest clearRack(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](int lo, int hi) {
    return static_cast<double>(lo + static_cast<int>(random() % static_cast<unsigned>(hi - lo)));
  };
  PlanRequest request;
  for (int b = 0; b < 1 + static_cast<int>(seed % 2); ++b) {
    Board board;
    board.id = {"board-" + std::to_string(b)};
    board.name = std::to_string(b + 1);
    board.thicknessMm = 27;
    for (const Point p : rectangle({0, 0, between(1400, 2200), between(150, 260)}))
      board.outline.vertices.push_back({p, 0, EdgeState::sure});
    request.boards.push_back(board);
  }
  for (int i = 0; i < 4; ++i) {
    Part part;
    part.id = {"part-" + std::to_string(i)};
    part.name = part.id.text;
    part.lengthMm = between(440, 1000);
    part.widthMm = between(45, 120);
    part.thicknessMm = 20;
    part.copies = 1 + static_cast<int>(random() % 3);
    part.showing = Showing::oneFace;
    request.parts.push_back(part);
  }
  return request;
}

class TwoStageProgram {
 public:
  explicit TwoStageProgram(const PlanRequest& request)
      : request_(request), lp_(glp_create_prob(), glp_delete_prob) {
    for (int p = 0; p < static_cast<int>(request.parts.size()); ++p) addKinds(p);
    glp_set_obj_dir(lp_.get(), GLP_MAX);
    demand_ = glp_add_rows(lp_.get(), static_cast<int>(request.parts.size()));
    for (size_t p = 0; p < request.parts.size(); ++p)
      glp_set_row_bnds(lp_.get(), demand_ + static_cast<int>(p), GLP_UP, 0,
                       request.parts[p].copies);
    for (const Board& board : request.boards) addBoard(board);
  }

  double optimum() {
    glp_iocp how;
    glp_init_iocp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.presolve = GLP_ON;
    how.mir_cuts = how.cov_cuts = GLP_ON;
    how.tm_lim = 20000;
    REQUIRE(glp_intopt(lp_.get(), &how) == 0);
    REQUIRE(glp_mip_status(lp_.get()) == GLP_OPT);
    return glp_mip_obj_val(lp_.get());
  }

 private:
  static constexpr int kSections = 4;  // of a board: no more of these parts lie end to end

  void addKinds(int index) {
    const Part& part = request_.parts[static_cast<size_t>(index)];
    const Shop& shop = request_.shop;
    for (int n = 1; n <= part.copies; ++n)
      kinds_.push_back({index, n,
                        n * part.lengthMm + (n - 1) * shop.crosscutKerfMm + shop.lengthAllowanceMm +
                            2 * shop.snipeMm,
                        part.widthMm + shop.widthAllowanceMm, n * part.lengthMm * part.widthMm});
  }

  int row(double most) {
    const int r = glp_add_rows(lp_.get(), 1);
    glp_set_row_bnds(lp_.get(), r, GLP_UP, 0, most);
    return r;
  }

  void column(double value, double most, const std::vector<std::pair<int, double>>& entries) {
    const int c = glp_add_cols(lp_.get(), 1);
    glp_set_col_kind(lp_.get(), c, GLP_IV);
    glp_set_col_bnds(lp_.get(), c, GLP_DB, 0, most);
    glp_set_obj_coef(lp_.get(), c, value);
    std::vector<int> rows{0};
    std::vector<double> factors{0};
    for (const auto& [r, factor] : entries) rows.push_back(r), factors.push_back(factor);
    glp_set_mat_col(lp_.get(), c, static_cast<int>(entries.size()), rows.data(), factors.data());
  }

  // A section is as long as the strip that leads it; the strips in it are no longer.
  void addBoard(const Board& board) {
    const Rect box = bounds(board.outline.polygon());
    const Shop& shop = request_.shop;
    const int along = row(box.width() - 2 * shop.endTrimMm + shop.crosscutKerfMm);
    std::vector<int> across, one, held, shorter;  // shorter: than the section before
    for (int s = 0; s < kSections; ++s) {
      across.push_back(row(box.height() + shop.ripKerfMm));
      one.push_back(row(1));
      shorter.push_back(row(0));
    }
    for (int s = 0; s < kSections; ++s)
      for (const Kind& strip : kinds_) {
        const int most = request_.parts[static_cast<size_t>(strip.part)].copies / strip.copies;
        const int led = row(0);  // strips of the kind − most · leaders that are as long
        held.push_back(led);
        column(strip.value, most,
               {{demand_ + strip.part, strip.copies},
                {across[s], strip.width + shop.ripKerfMm},
                {led, 1}});
      }
    for (int s = 0; s < kSections; ++s)
      for (const Kind& leader : kinds_) {
        std::vector<std::pair<int, double>> entries{{along, leader.length + shop.crosscutKerfMm},
                                                    {one[s], 1}};
        if (s > 0) entries.push_back({shorter[s], leader.length});
        if (s + 1 < kSections) entries.push_back({shorter[s + 1], -leader.length});
        for (size_t k = 0; k < kinds_.size(); ++k)
          if (kinds_[k].length <= leader.length)
            entries.push_back(
                {held[s * kinds_.size() + k],
                 -request_.parts[static_cast<size_t>(kinds_[k].part)].copies / kinds_[k].copies});
        column(0, 1, entries);
      }
  }

  const PlanRequest& request_;
  std::vector<Kind> kinds_;
  std::unique_ptr<glp_prob, void (*)(glp_prob*)> lp_;
  int demand_ = 0;
};

}  // namespace

TEST_CASE("plans of clear rectangles are those of an integer program", "[planner][bound]") {
  int equal = 0;
  constexpr int kRacks = 5;
  for (unsigned seed = 1; seed <= kRacks; ++seed) {
    const PlanRequest request = clearRack(seed);
    const double optimum = TwoStageProgram(request).optimum();
    PlanOptions options;
    options.limitSeconds = 0.4;
    RunControl control;
    const Result<Plan> plan = makePlan(request, options, control);
    REQUIRE(plan.ok());
    INFO("seed " << seed << ": optimum " << optimum << ", plan " << plan->value << ", bound "
                 << plan->bound);
    CHECK(checkPlan(request, *plan).empty());
    CHECK(plan->bound >= optimum * (1 - 1e-9));
    CHECK(plan->value <= optimum * (1 + 1e-9));
    equal += plan->value >= optimum * (1 - 1e-9) ? 1 : 0;
  }
  // Columns of 1.25 mm may cost a plan a piece that fits by less.
  CHECK(equal >= kRacks - 1);
}
