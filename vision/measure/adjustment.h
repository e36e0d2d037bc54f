// SPDX-License-Identifier: GPL-3.0-or-later
// The joint adjustment: one problem in which every card seen in every photograph pins down the
// lens, the cameras and where the cards lie, with the covariance of all of it.
//
// Plane frame: millimetres on the board's face, z = 0 there and up towards the camera, x and y
// right-handed seen from above; origin and turn are those of one card (arbitrary until the outline
// fixes the board frame). With a bow, z = 0 is the face at the bow's middle and "the face" is the
// bowed surface everywhere below.
//
// Method: maximum a posteriori over all unknowns (Triggs et al., Bundle Adjustment, 2000), corners
// whitened by their sigma, Cauchy loss while outliers are found, then plain least squares on the
// rest; the corners' sigma is rescaled by the residual; first-order covariance.
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
#include "vision/measure/target.h"

namespace rackside {

// One photograph as the adjustment sees it. Photographs with the same lensGroup share one lens.
struct Sight {
  cv::Size size;
  std::vector<FoundCard> cards;
  std::vector<SeenTarget> others;  // references that are not our printed cards
  Lens prior;
  int lensGroup = 0;
};

struct TapedDistance {  // between the centres of two cards
  int cardA = 0, cardB = 0;
  double mm = 0, sigmaMm = 0;
};

// The board's face as a parabola along a line: it rises by endsMm from the middle of the line to
// either end (negative: the middle is the highest).
struct Bow {
  Point from, to;  // plane frame of an earlier adjustment of the same sights, mm
  double endsMm = 0;
  double sigmaMm = 0;
};

struct AdjustmentOptions {
  CardsOn cardsOn = CardsOn::board;
  double boardThicknessMm = 0;  // needed when the cards lie on the bench
  double boardThicknessSigmaMm = 0.5;
  double cardThicknessMm = 0;
  double cardThicknessSigmaMm = 0.2;  // counts only where cardThicknessMm > 0
  double cardScale = 1;               // measured ÷ nominal length of the print
  double cardScaleSigma = 0.001;      // of an unchecked print; enters u95Total only
  std::vector<TapedDistance> taped;
  std::optional<Bow> bow;
  Status validate() const;
};

struct CardFit {
  int number = 0;  // 0: not one of our cards
  std::string name;
  int corners = 0;   // used, over all photographs
  int rejected = 0;  // set aside as outliers
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
  virtual const Lens& lens(size_t photo) const = 0;  // as adjusted, with its new covariance
  virtual const std::vector<CardFit>& cards() const = 0;
  // Where a card lies, seen from above; empty when it is not in the adjustment.
  virtual std::optional<Pose> planeFromCard(int number) const = 0;
  virtual std::optional<Pose> planeFromTarget(const std::string& name) const = 0;
  virtual double rmsPx() const = 0;  // of all corners used, each coordinate, after the fit
  // The uncertainty of the plane over `region` (plane frame), as independent modes in board
  // coordinates, once the rigid motions that change no distance are taken out.
  virtual std::vector<PlaneMode> planeModes(const Polygon& region,
                                            const Pose& boardFromPlane) const = 0;
  // What limits the measurement of `region` (plane frame) and what to do about it, in plain words;
  // left and right are the board's. Empty when nothing is worth the trouble.
  virtual std::vector<std::string> advice(const Polygon& region,
                                          const Pose& boardFromPlane) const = 0;
  // What looks wrong with the photographs themselves: one card only, too oblique, a card that does
  // not lie flat.
  virtual const std::vector<std::string>& warnings() const = 0;
  virtual ~Adjustment() = default;
};

// Fails with what to do: no card, a card with too few corners, photographs that share no card,
// cards that contradict each other, thickness missing for cards on the bench.
Result<std::unique_ptr<Adjustment>> adjust(const std::vector<Sight>& sights,
                                           const AdjustmentOptions& options);

}  // namespace rackside
