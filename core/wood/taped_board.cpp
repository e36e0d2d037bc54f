// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/taped_board.h"

#include <algorithm>
#include <cmath>

#include "core/wood/measure.h"

namespace rackside {
namespace {

constexpr double kLongestMm = 20000, kWidestMm = 3000, kThickestMm = 400;

bool within(double value, double greatest) {
  return std::isfinite(value) && value > 0 && value <= greatest;
}

std::string faultOf(const TapedBoard& t) {
  if (t.name.empty()) return "it has no name";
  if (!within(t.lengthMm, kLongestMm)) return "its length must be more than 0 and at most 20 m";
  if (t.widthsMm.empty()) return "it has no width";
  for (const double w : t.widthsMm)
    if (!within(w, kWidestMm)) return "a width must be more than 0 and at most 3 m";
  if (t.thicknessMm != 0 && !within(t.thicknessMm, kThickestMm))
    return "its thickness must be more than 0 and at most 400 mm";
  if (!std::isfinite(t.pricePerBoardFoot) || t.pricePerBoardFoot < 0)
    return "its price must be 0 or more";
  return {};
}

// A tape that is long or short by an unknown share of its limit, a rectangular spread (GUM 4.3.7).
double shareOffPerMetre(double lengthMm) {
  return classTwoTapeLimitMm(lengthMm) / std::sqrt(3.0) / (lengthMm / 1000);
}

std::vector<PlaneMode> tapeModes(const TapedBoard& t) {
  PlaneMode along, across;
  along.dx[1] = shareOffPerMetre(t.lengthMm);
  across.dy[2] = shareOffPerMetre(*std::max_element(t.widthsMm.begin(), t.widthsMm.end()));
  return {along, across};
}

Outline outlineOf(const TapedBoard& t) {
  Outline outline;
  outline.planeModes = tapeModes(t);
  const auto add = [&outline](double x, double y) {
    outline.vertices.push_back({{x, y}, kTapedEdgeSigmaMm, EdgeState::drawn});
  };
  add(0, 0);
  add(t.lengthMm, 0);
  const size_t n = t.widthsMm.size();
  if (n == 1) {
    add(t.lengthMm, t.widthsMm[0]);
    add(0, t.widthsMm[0]);
    return outline;
  }
  for (size_t i = n; i-- > 0;)
    add(t.lengthMm * static_cast<double>(i) / static_cast<double>(n - 1), t.widthsMm[i]);
  return outline;
}

}  // namespace

double classTwoTapeLimitMm(double lengthMm) {
  constexpr double kBaseMm = 0.3, kPerMetreMm = 0.2, kEndMm = 0.2;
  return kBaseMm + kPerMetreMm * std::ceil(lengthMm / 1000) + kEndMm;
}

Result<Board> boardByTape(const TapedBoard& taped) {
  if (const std::string wrong = faultOf(taped); !wrong.empty())
    return Error{"The board \"" + taped.name + "\" cannot be entered: " + wrong + "."};
  Board board;
  board.id.text = newIdText("board");
  board.name = taped.name;
  board.species = taped.species;
  board.place = taped.place;
  board.thicknessMm = taped.thicknessMm;
  board.thicknessSaid = taped.thicknessSaid;
  board.pricePerBoardFoot = taped.pricePerBoardFoot;
  board.airDried = taped.airDried;
  board.outline = outlineOf(taped);
  board.lengthMm = lengthOf(board.outline);
  constexpr double kStepMm = 100;  // as Board::widthsMm says
  board.widthsMm = widthsEvery(board.outline, kStepMm);
  return board;
}

}  // namespace rackside
