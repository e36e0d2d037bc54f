// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/score.h"

#include <algorithm>

#include "core/base/length.h"
#include "core/plan/blank_kind.h"
#include "core/plan/stock.h"

namespace rackside {
namespace {

// What a board foot counts for where a board has no price, so that thick stock is dear all the
// same.
constexpr double kUnpriced = 1;
// A board foot is 144 in³.
constexpr double kMm3PerBoardFoot = 144 * kMmPerInch * kMmPerInch * kMmPerInch;

double plainValue(const PlanRequest& request, const Plan& plan, const Piece& piece) {
  for (const Part& part : request.parts)
    if (part.id == piece.part) return pieceValue(plan, part, piece);
  return 0;
}

ScoreTerm term(const char* name, double weight, double amount, const char* words) {
  return {name, weight, amount, weight * amount, words};
}

}  // namespace

PlanWeights weightsOf(const Shop& shop) {
  return {shop.lookWeight, shop.stockWeight, shop.offcutWeight};
}

double pricePerMm2(const Board& board) {
  const double price = board.pricePerBoardFoot > 0 ? board.pricePerBoardFoot : kUnpriced;
  return price * board.thicknessMm / kMm3PerBoardFoot;
}

StockCharge stockChargeOf(const Board& board, const PlanWeights& weights) {
  return {weights.stock * pricePerMm2(board), weights.offcut * pricePerMm2(board)};
}

std::vector<ScoreTerm> scoreOf(const PlanRequest& request, const PlanWeights& weights,
                               const Plan& plan) {
  double plain = 0, looks = 0, stock = 0, offcuts = 0;
  for (const Piece& piece : plan.pieces) {
    const double value = plainValue(request, plan, piece);
    plain += value;
    looks += piece.worth - value;
  }
  for (const Board& board : request.boards) {
    const BoardStock used = boardStock(board, plan, request.shop);
    stock += used.boardMm2 * pricePerMm2(board);
    offcuts += used.offcutMm2 * pricePerMm2(board);
  }
  const double lookAmount = weights.look > 0 ? looks / weights.look : 0;
  return {term("parts", 1, plain, "the parts placed, on plain wood"),
          term("looks", weights.look, lookAmount, "their value times how well each place looks"),
          term("stock", -weights.stock, stock, "the price of the boards cut into"),
          term("offcuts", weights.offcut, offcuts, "the price of useful offcuts at their ends")};
}

void giveScore(const PlanRequest& request, const PlanWeights& weights, Plan& plan) {
  plan.score = scoreOf(request, weights, plan);
  plan.value = 0;
  for (const ScoreTerm& t : plan.score) plan.value += t.value;
}

}  // namespace rackside
