// SPDX-License-Identifier: GPL-3.0-or-later
// The photographs of one face together with the adjustment that places them: what every step of
// reading the face works from.
#pragma once

#include "vision/face/warp.h"

namespace rackside {

// A printed card or another reference, as it lies.
struct PlacedCard {
  Polygon outline;  // plane frame, seen from straight above
  Point middle;
  double angleRad = 0;  // of its length
  double zMm = 0;       // of its print above the face; negative on the bench
};

struct FaceViews {
  const Adjustment* adjustment = nullptr;
  std::vector<PhotoPyramid> photos;
  std::vector<PlacedCard> cards;
  CardsOn cardsOn = CardsOn::board;
  double thicknessMm = 0;  // of the board, 0: unknown
};

// Where the cards hide the face of a photograph, as outlines in the plane: a card on the bench is
// seen past the face, shifted by its depth below it.
std::vector<Polygon> cardShadows(const FaceViews& views, size_t photo);
std::vector<Point> cardMiddles(const FaceViews& views);  // plane frame
// A printed card where the adjustment placed it.
PlacedCard placedCard(int number, const Pose& planeFromCard, double zMm);

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
