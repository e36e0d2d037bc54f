// SPDX-License-Identifier: GPL-3.0-or-later
// The photographs of one face together with the adjustment that places them: what every step of
// reading the face works from.
#pragma once

#include "vision/face/warp.h"

namespace rackside {

struct FaceViews {
  const Adjustment* adjustment = nullptr;
  std::vector<PhotoPyramid> photos;
  std::vector<int> cards;  // numbers of the cards that were placed
  CardsOn cardsOn = CardsOn::board;
  double thicknessMm = 0;      // 0: unknown
  double cardThicknessMm = 0;  // of card and stock
};

// Where the cards hide the face of a photograph, as outlines in the plane: a card on the bench is
// seen past the face, shifted by its depth below it.
std::vector<Polygon> cardShadows(const FaceViews& views, size_t photo);
// The middles of the cards, plane frame.
std::vector<Point> cardMiddles(const FaceViews& views);

// A quick picture of the plane from all photographs: each pixel from the one that samples it best,
// exposures matched.
struct CoarseFace {
  PlaneRaster raster;
  cv::Mat bgr;     // CV_8UC3
  cv::Mat usable;  // CV_8U: 0 no photograph or a card in the way, 255 wood or ground
  cv::Mat seen;    // CV_8U: 255 where a photograph reaches, cards included
  cv::Mat source;  // CV_8U: the photograph each pixel came from
};
CoarseFace coarseFace(FaceViews& views, const PlaneRaster& raster);

}  // namespace rackside
