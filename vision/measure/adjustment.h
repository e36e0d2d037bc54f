// SPDX-License-Identifier: GPL-3.0-or-later
// The joint adjustment: one problem in which every card seen in every photograph pins down the
// lens, the cameras and where the cards lie, with the covariance of all of it.
//
// Plane frame: millimetres on the board's face, z = 0 there and up towards the camera, x and y
// right-handed seen from above; origin and turn are arbitrary until the outline fixes the board
// frame.
#pragma once

#include <map>
#include <memory>
#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/wood/board.h"
#include "vision/cards/card_finder.h"
#include "vision/lens/lens.h"

namespace rackside {

enum class CardsOn { board, bench };

// One photograph as the adjustment sees it. Photographs with the same lensGroup share one lens.
struct Sight {
  cv::Size size;
  std::vector<FoundCard> cards;
  Lens prior;
  int lensGroup = 0;
};

struct TapedDistance {  // between the centres of two cards
  int cardA = 0, cardB = 0;
  double mm = 0, sigmaMm = 0;
};

struct AdjustmentOptions {
  CardsOn cardsOn = CardsOn::board;
  double boardThicknessMm = 0;  // needed when the cards lie on the bench
  double boardThicknessSigmaMm = 0.5;
  double cardThicknessMm = 0;
  double cardThicknessSigmaMm = 0.2;
  double cardScale = 1;           // measured ÷ nominal length of the print
  double cardScaleSigma = 0.001;  // of an unchecked print; enters u95Total only
  std::vector<TapedDistance> taped;
};

struct CardFit {
  int number = 0;
  int corners = 0;
  double rmsPx = 0;
};

class Adjustment {
 public:
  // Image point of a plane point at height zMm above the face; lens distortion included.
  virtual cv::Point2d imageFromPlane(size_t photo, Point planeMm, double zMm = 0) const = 0;
  // Where the ray of an image point meets the face (z = zMm); empty when it does not.
  virtual std::optional<Point> planeFromImage(size_t photo, cv::Point2d px,
                                              double zMm = 0) const = 0;
  // The camera's centre in the plane frame, mm.
  virtual cv::Point3d cameraCentre(size_t photo) const = 0;
  virtual const Lens& lens(size_t photo) const = 0;
  virtual const std::vector<CardFit>& cards() const = 0;
  virtual std::optional<Pose> planeFromCard(int number) const = 0;
  virtual double rmsPx() const = 0;  // of all corners, after the fit
  // The uncertainty of the plane over `region` (plane frame), as independent modes, once the rigid
  // motions that change no distance are taken out.
  virtual std::vector<PlaneMode> planeModes(const Polygon& region,
                                            const Pose& boardFromPlane) const = 0;
  // What limits the measurement of `region` and what to do about it, in plain words.
  virtual std::vector<std::string> advice(const Polygon& region) const = 0;
  virtual ~Adjustment() = default;
};

// Fails with what to do: no card, one card only half seen, cards that contradict each other.
Result<std::unique_ptr<Adjustment>> adjust(const std::vector<Sight>& sights,
                                           const AdjustmentOptions& options);

}  // namespace rackside
