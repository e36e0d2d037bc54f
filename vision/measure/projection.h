// SPDX-License-Identifier: GPL-3.0-or-later
// The camera model of vision/lens/lens.h and the face's surface, written once for numbers and for
// automatic derivatives.
#pragma once

#include <ceres/rotation.h>

#include "vision/measure/unknowns.h"

namespace rackside::measure {

// pose: cameraFromPlane. False when the point lies behind the camera.
template <class T>
bool project(const T* lens, const T* pose, const T* plane3, T* px) {
  T camera[3];
  ceres::AngleAxisRotatePoint(pose, plane3, camera);
  for (int i = 0; i < 3; ++i) camera[i] += pose[3 + i];
  if (camera[2] < T(1.0)) return false;
  const T u = camera[0] / camera[2];
  const T v = camera[1] / camera[2];
  const T r2 = u * u + v * v;
  const T d = T(1.0) + r2 * (lens[radial1] + r2 * lens[radial2]);
  px[0] = lens[focal] * d * u + lens[centreX];
  px[1] = lens[focal] * d * v + lens[centreY];
  return true;
}

// Height of the bowed face at (x, y); 0 without a bow.
template <class T>
T faceHeight(const std::optional<BowLine>& bow, const T& endsMm, const T& x, const T& y) {
  if (!bow) return T(0.0);
  const T s = ((x - bow->middle.x) * bow->along.x + (y - bow->middle.y) * bow->along.y) *
              T(1.0 / bow->halfMm);
  return endsMm * s * s;
}

// Where point `p` (about the centre) of a piece lies in the plane frame.
template <class T>
void placePoint(const Piece& piece, const std::optional<BowLine>& bow, Point p, const T* place,
                const T* own, const T* shared, T* plane3) {
  const T scale = piece.target.printed ? shared[cardScale] : T(1.0);
  const T x = scale * (T(1.0) + own[stretchX]) * p.x;
  const T y = scale * (T(1.0) + own[stretchY]) * p.y;
  const T c = cos(place[placeTurn]);
  const T s = sin(place[placeTurn]);
  plane3[0] = place[placeX] + c * x - s * y;
  plane3[1] = place[placeY] + s * x + c * y;
  plane3[2] = piece.thicknessIsOwn ? own[ownThickness] : shared[cardThickness];
  if (piece.onBench)
    plane3[2] -= shared[boardThickness];
  else
    plane3[2] += faceHeight(bow, shared[bowEnds], plane3[0], plane3[1]);
}

}  // namespace rackside::measure
