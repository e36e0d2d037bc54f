// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/worth.h"

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

}  // namespace rackside
