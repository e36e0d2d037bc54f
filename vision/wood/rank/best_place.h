// SPDX-License-Identifier: GPL-3.0-or-later
// The best place for one part on one face.
#pragma once

#include <optional>

#include "vision/wood/rank/free_places.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

class FaceFigure {
 public:
  explicit FaceFigure(const FigureMaps& maps) : maps_(maps), sums_(maps) {}
  // What lies under the part's finished outline (part frame) when its frame lies so.
  PlaceReading under(const Pose& boardFromPart, const Part& part, Face showFace) const;
  double grainRad() const;  // mean over the face
  const FigureMaps& maps() const { return maps_; }

 private:
  FigureSums::Sum over(const Pose& pose, const Rect& partRect) const;
  void readArches(const Pose& pose, const Part& part, PlaceReading& place) const;
  const FigureMaps& maps_;
  FigureSums sums_;
};

// Turned so that the part's length follows the board's axis or the grain; empty where the part fits
// nowhere.
std::optional<Placement> bestPlace(const Board& board, const Part& part, const Shop& shop,
                                   Face face, const Wish& wish, const FaceFigure& figure);

}  // namespace rackside
