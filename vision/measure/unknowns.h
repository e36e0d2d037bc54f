// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: what is sought, what was seen, and what is known beforehand.
#pragma once

#include <array>
#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "vision/lens/lens.h"
#include "vision/measure/adjustment.h"

namespace rackside::measure {

// Components of each block, in the order in which they are stored.
enum LensPart { focal, centreX, centreY, radial1, radial2, lensParts };
enum PlacePart { placeX, placeY, placeTurn, placeParts };
enum OwnPart { stretchX, stretchY, ownThickness, ownParts };
enum SharedPart { boardThickness, cardThickness, cardScale, bowEnds, sharedParts };
inline constexpr int poseParts = 6;  // cameraFromPlane: angle axis, then translation in mm

using LensBlock = std::array<double, lensParts>;
using PoseBlock = std::array<double, poseParts>;
using PlaceBlock = std::array<double, placeParts>;  // of the target's centre
using OwnBlock = std::array<double, ownParts>;
using SharedBlock = std::array<double, sharedParts>;

struct Unknowns {
  std::vector<LensBlock> lenses;
  std::vector<PoseBlock> cameras;
  std::vector<PlaceBlock> places;
  std::vector<OwnBlock> owns;
  SharedBlock shared{};
};

struct BowLine {  // of Bow: middle, direction and half length
  Point middle;
  Point along;
  double halfMm = 0;
};

// A target as the problem sees it.
struct Piece {
  Target target;
  std::vector<Point> points;  // about the target's centre
  bool onBench = false;
  bool thicknessIsOwn = false;
};

struct Observation {
  int photo = 0;
  int piece = 0;
  int index = 0;
  cv::Point2d px;
  double sigmaPx = 0;
  bool used = true;
};

struct Scene {
  std::vector<cv::Size> sizes;  // by photograph
  std::vector<int> lensOf;      // by photograph: into Unknowns::lenses
  std::vector<Lens> lensPriors;
  std::vector<Piece> pieces;
  std::vector<Observation> seen;
  std::vector<TapedDistance> taped;
  std::vector<TapedDistance> tapedLeftOut;  // contradict the cards beyond all doubt
  std::optional<BowLine> bow;
  SharedBlock sharedPrior{};
  SharedBlock sharedSigma{};  // 0: held
  int gauge = 0;              // the piece that fixes the plane frame
};

// Height above the face at the middle of the bow.
inline double heightOf(const Scene& scene, const Unknowns& u, int piece) {
  const Piece& p = scene.pieces[piece];
  const double own = p.thicknessIsOwn ? u.owns[piece][ownThickness] : u.shared[cardThickness];
  return p.onBench ? own - u.shared[boardThickness] : own;
}

Result<Scene> sceneOf(const std::vector<Sight>& sights, const AdjustmentOptions& options);
// The values before any photograph is looked at; cameras and places are empty poses.
Unknowns priorUnknowns(const Scene& scene);

}  // namespace rackside::measure
