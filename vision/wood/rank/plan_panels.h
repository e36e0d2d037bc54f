// SPDX-License-Identifier: GPL-3.0-or-later
// The strips of a plan's panels, laid in order by what the wood looks like. The planner knows no
// pictures: it lays them as they lay in the board, with sapwood to the edges.
#pragma once

#include <vector>

#include "core/plan/planner.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

// Lightness and warmth of boards that have a picture and serve a part that may be glued up, so that
// strips of several boards are matched (core/plan/panel_strips.h). Faces that cannot be read are
// left out; nothing fails.
BoardTones boardTones(const std::vector<Board>& boards, const std::vector<Part>& parts,
                      const FigureSource& figures, const std::vector<Species>& own = {});

// Each panel whose strips are not sawn yet and whose faces can be read: order and flips by the
// seams that show least, sapwood kept to the panel's outer edges; the strips are numbered anew. The
// worst seam is told in the panel's remarks.
void orderPanels(const std::vector<Board>& boards, const FigureSource& figures, Plan& plan);

}  // namespace rackside
