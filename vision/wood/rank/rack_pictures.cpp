// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/rack_pictures.h"

#include <utility>

#include "vision/wood/figure_cache.h"
#include "vision/wood/rank/look_maps.h"
#include "vision/wood/rank/plan_panels.h"

namespace rackside {

FigureSource figuresIn(const std::filesystem::path& rackFolder) {
  return [rackFolder](const Board& board, Face face) {
    RunControl own;
    return figureOf(board, face, rackFolder, defaultCacheFolder(), own);
  };
}

RackPictures::RackPictures(std::filesystem::path rackFolder,
                           std::function<void(const std::string&)> remark)
    : rackFolder_(std::move(rackFolder)), remark_(std::move(remark)) {}

void RackPictures::readLooks(PlanRequest& request, RunControl& control) const {
  const FigureSource figures = figuresIn(rackFolder_);
  LookMaps looks = lookMaps(request.boards, request.parts, figures, control);
  if (remark_)
    for (const std::string& remark : looks.remarks) remark_(remark);
  request.worth = std::move(looks.worth);
  request.tones = boardTones(request.boards, request.parts, figures, request.shop.ownSpecies);
}

void RackPictures::orderPanels(const std::vector<Board>& boards, Plan& plan) const {
  rackside::orderPanels(boards, figuresIn(rackFolder_), plan);
}

}  // namespace rackside
