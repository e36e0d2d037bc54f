// SPDX-License-Identifier: GPL-3.0-or-later
// What the planner needs of the wood's looks: figure maps turned into worth per place.
#pragma once

#include <string>
#include <vector>

#include "core/plan/value_map.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

struct LookMaps {
  ValueMaps worth;                   // a map for each face with a picture and each look wanted
  std::vector<std::string> remarks;  // faces left out, and why
};

// 0..1 on cells of 20 mm: how far the wood about the cell fulfils the look. Even colour has no map
// on a grey face. Faces that cannot be read are left out with a remark; nothing fails.
LookMaps lookMaps(const std::vector<Board>& boards, const std::vector<Part>& parts,
                  const FigureSource& figures, RunControl& control);

// One of them; figure and map in the board frame.
ValueMap lookMap(const FigureMaps& figure, Look look);

}  // namespace rackside
