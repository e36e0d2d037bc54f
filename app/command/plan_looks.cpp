// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/plan_looks.h"

#include "app/command/console.h"
#include "vision/wood/figure_cache.h"
#include "vision/wood/rank/look_maps.h"
#include "vision/wood/rank/plan_panels.h"

namespace rackside::command {

namespace {

FigureSource figuresOf(const std::string& rackFolder) {
  return [rackFolder](const Board& board, Face face) {
    RunControl own;
    return figureOf(board, face, rackFolder, defaultCacheFolder(), own);
  };
}

}  // namespace

void addLooks(const std::string& rackFolder, PlanRequest& request) {
  RunControl control;
  const FigureSource figures = figuresOf(rackFolder);
  LookMaps looks = lookMaps(request.boards, request.parts, figures, control);
  for (const std::string& remark : looks.remarks) message("note: " + remark);
  request.worth = std::move(looks.worth);
  request.tones = boardTones(request.boards, request.parts, figures);
}

void orderPanels(const std::string& rackFolder, const PlanRequest& request, Plan& plan) {
  rackside::orderPanels(request.boards, figuresOf(rackFolder), plan);
}

}  // namespace rackside::command
