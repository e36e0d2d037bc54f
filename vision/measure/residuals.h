// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: the residuals, as functors for automatic derivatives.
#pragma once

#include <ceres/autodiff_cost_function.h>

#include <stdexcept>

#include "vision/measure/projection.h"

namespace rackside::measure {

struct CornerResidual {
  const Piece* piece;
  const std::optional<BowLine>* bow;
  int index;
  cv::Point2d px;
  double sigmaPx;

  template <class T>
  bool operator()(const T* lens, const T* pose, const T* place, const T* own, const T* shared,
                  T* residual) const {
    T plane3[3], predicted[2];
    placePoint(*piece, *bow, piece->points[index], place, own, shared, plane3);
    if (!project(lens, pose, plane3, predicted)) return false;
    residual[0] = (T(px.x) - predicted[0]) / sigmaPx;
    residual[1] = (T(px.y) - predicted[1]) / sigmaPx;
    return true;
  }
};
using CornerCost = ceres::AutoDiffCostFunction<CornerResidual, 2, lensParts, poseParts, placeParts,
                                               ownParts, sharedParts>;

// Both centres at the height of the face: the step from card to bench is left out of a tape's run.
struct TapedResidual {
  double mm, sigmaMm;
  template <class T>
  bool operator()(const T* a, const T* b, T* residual) const {
    const T dx = a[placeX] - b[placeX];
    const T dy = a[placeY] - b[placeY];
    residual[0] = (sqrt(dx * dx + dy * dy) - T(mm)) / sigmaMm;
    return true;
  }
};
using TapedCost = ceres::AutoDiffCostFunction<TapedResidual, 1, placeParts, placeParts>;

// Whitened distance of a block's free parts from their prior.
struct PriorResidual {
  std::vector<int> parts;
  std::vector<double> mean;       // of those parts
  std::vector<double> whitening;  // square, row by row
  template <class T>
  bool operator()(T const* const* blocks, T* residual) const {
    const size_t n = parts.size();
    for (size_t i = 0; i < n; ++i) {
      residual[i] = T(0.0);
      for (size_t j = 0; j < n; ++j)
        residual[i] += whitening[i * n + j] * (blocks[0][parts[j]] - mean[j]);
    }
    return true;
  }
};

inline CornerResidual residualOf(const Scene& scene, const Observation& o, double sigmaFactor) {
  return {&scene.pieces[o.piece], &scene.bow, o.index, o.px, o.sigmaPx * sigmaFactor};
}

// Taped distances name cards that the scene holds: sceneOf() saw to it.
inline int pieceOfCard(const Scene& scene, int number) {
  for (size_t i = 0; i < scene.pieces.size(); ++i)
    if (scene.pieces[i].target.number == number) return static_cast<int>(i);
  throw std::logic_error("a taped distance names a card that is not in the scene");
}

// A corner's whitened residual by the free unknowns (cornerRows() in normal.cpp).
struct CornerBlocks {
  const double *lens, *pose, *place, *own, *shared;
};
struct CornerColumns {  // -1: held
  std::array<int, lensParts> lens;
  std::array<int, poseParts> pose;
  std::array<int, placeParts> place;
  std::array<int, ownParts> own;
  std::array<int, sharedParts> shared;
};
struct CornerRows {
  static constexpr int most = lensParts + poseParts + placeParts + ownParts + sharedParts;
  int count = 0;
  std::array<int, most> column{};
  std::array<std::array<double, most>, 2> value{};
  double byPlace[2][placeParts] = {};  // whether held or not
};
// Empty when the point lies behind the camera.
std::optional<CornerRows> cornerRows(const CornerResidual& residual, const CornerBlocks& at,
                                     const CornerColumns& columns);

}  // namespace rackside::measure
