// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/spare_stock.h"

#include <algorithm>
#include <map>

#include "core/base/each_in_parallel.h"
#include "core/plan/drying.h"
#include "core/plan/fit_test.h"
#include "core/plan/left_over.h"

namespace rackside {
namespace {

constexpr double kCellMm = 5;  // as the first plan's

struct Wanted {
  std::vector<Part> parts;  // those that show, once each
  std::vector<BlankKind> kinds;
  LeastSize least{1e300, 1e300};
};

Wanted wantedOf(const PlanRequest& request, const Plan& plan) {
  Wanted wanted;
  std::vector<const Board*> boards;
  for (const Board& b : request.boards) boards.push_back(&b);
  for (const Part& part : request.parts) {
    const bool placed = std::any_of(plan.pieces.begin(), plan.pieces.end(),
                                    [&](const Piece& p) { return p.part == part.id; });
    if (part.showing == Showing::none || !placed) continue;
    const int index = static_cast<int>(wanted.parts.size());
    wanted.parts.push_back(part);
    for (const BlankKind& kind : blankKinds(part, index, request.shop, 1,
                                            dryingShares(boards, part.species, request.shop))) {
      wanted.kinds.push_back(kind);
      wanted.least.lengthMm = std::min(wanted.least.lengthMm, kind.roughLengthMm);
      wanted.least.widthMm = std::min(wanted.least.widthMm, kind.roughWidthMm);
    }
  }
  return wanted;
}

// Of each wanted part, where it would lie on one piece of wood.
std::vector<std::optional<Rect>> placesOn(const LeftOver& wood, const Job& job) {
  const BoardMap map(wood.board, job);
  std::vector<std::optional<Rect>> places(job.parts.size());
  for (const int kind : map.kindsHere()) {
    auto& place = places[job.kinds[kind].part];
    if (place) continue;
    if (const auto found = placeFor(job, map, kind)) place = found->box;
  }
  return places;
}

}  // namespace

std::vector<Spare> spareStock(const PlanRequest& request, const Plan& plan) {
  const Wanted wanted = wantedOf(request, plan);
  if (wanted.parts.empty()) return {};
  // The least wood that will do, and a board nothing is planned on only when no offcut will.
  const std::vector<LeftOver> woods = leftOvers(request, plan, wanted.least);
  const Job job{wanted.parts, wanted.kinds, request.shop, kCellMm};
  std::vector<std::vector<std::optional<Rect>>> places(woods.size());
  eachInParallel(static_cast<int>(woods.size()),
                 [&](int i, int) { places[i] = placesOn(woods[i], job); });
  std::map<PartId, Spare> ofPart;
  for (size_t p = 0; p < wanted.parts.size(); ++p)
    for (size_t w = 0; w < woods.size() && !ofPart.count(wanted.parts[p].id); ++w)
      if (places[w][p])
        ofPart[wanted.parts[p].id] = {{}, woods[w].board.id, *places[w][p], woods[w].whole, {}};
  std::vector<Spare> spares;
  for (const Piece& piece : plan.pieces) {
    const auto shows = [&](const Part& part) { return part.id == piece.part; };
    if (std::none_of(wanted.parts.begin(), wanted.parts.end(), shows)) continue;
    const auto found = ofPart.find(piece.part);
    spares.push_back(found == ofPart.end() ? Spare{} : found->second);
    spares.back().piece = piece.id;
  }
  return spares;
}

}  // namespace rackside
