// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/plan_looks.h"

#include "app/command/console.h"
#include "vision/wood/figure_cache.h"
#include "vision/wood/rank/look_maps.h"

namespace rackside::command {

void addLooks(const std::string& rackFolder, PlanRequest& request) {
  RunControl control;
  const FigureSource figures = [&](const Board& board, Face face) {
    RunControl own;
    return figureOf(board, face, rackFolder, defaultCacheFolder(), own);
  };
  LookMaps looks = lookMaps(request.boards, request.parts, figures, control);
  for (const std::string& remark : looks.remarks) message("note: " + remark);
  request.worth = std::move(looks.worth);
}

}  // namespace rackside::command
