// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/worth.h"

#include <cmath>

#include "core/plan/blank_kind.h"

namespace rackside {

const ValueMap* lookMap(const ValueMaps& maps, const BoardId& board, Face face, Look look) {
  if (look == Look::any) return nullptr;
  const auto found = maps.find({board, face, look});
  return found == maps.end() ? nullptr : &found->second;
}

double pieceWorth(const Part& part, const ValueMap* map, double lookWeight, const Rect& place) {
  return baseValue(part) * (1 + (map ? lookWeight * map->mean(place) : 0));
}

double placedWorth(const PlanRequest& request, const PlanWeights& weights, const Part& part,
                   const Piece& piece) {
  const Rect box = bounds(piece.outline);
  const Point centre{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  const bool turned = std::abs(std::sin(piece.angleRad)) > 0.7;
  const double length = turned ? part.widthMm : part.lengthMm;
  const double width = turned ? part.lengthMm : part.widthMm;
  const ValueMap* look = lookMap(request.worth, piece.board, piece.showFace, part.look);
  return pieceWorth(
      part, look, weights.look,
      {centre.x - length / 2, centre.y - width / 2, centre.x + length / 2, centre.y + width / 2});
}

}  // namespace rackside
