// SPDX-License-Identifier: GPL-3.0-or-later
// The shape of a synthetic board: straight-sawn, rough or live edges, taper, crook, bow, ends out
// of square; its true outlines and the mesh that is rendered, from the same vertices. Model frame
// of wood_spec.h.
#pragma once

#include <nlohmann/json.hpp>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside::synthetic {

struct EdgeSpec {
  std::string kind = "sawn";  // sawn, rough, live
  double roughMm = 1.5;       // how far a rough edge strays; a live edge strays ten times as far
  double waneMm = 0;          // the underside stands out by this at most (negative: is cut in)
  double waneFrom = 0, waneTo = 1;  // where, as a share of the length
};

struct BoardShape {
  double lengthMm = 2400, widthMm = 200, thicknessMm = 27;
  double taperMm = 0;                      // width at the right end less width at the left
  double crookMm = 0;                      // edgewise sagitta
  double bowMm = 0;                        // both ends stand up by this (face A hollow)
  double leftSkewMm = 0, rightSkewMm = 0;  // ends out of square over the width
  EdgeSpec nearEdge, farEdge;
  uint32_t seed = 1;
};

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(EdgeSpec, kind, roughMm, waneMm, waneFrom, waneTo)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(BoardShape, lengthMm, widthMm, thicknessMm, taperMm,
                                                crookMm, bowMm, leftSkewMm, rightSkewMm, nearEdge,
                                                farEdge, seed)

// Triangles with texture coordinates: (u, v) in mm of the painted plane.
struct Mesh {
  std::vector<cv::Vec3d> vertices;  // model frame
  std::vector<cv::Vec2d> uv;
  std::vector<cv::Vec3i> triangles;
};

struct BoardSolid {
  Polygon outlineA, outlineB;  // counter-clockwise in (x, y), seen from face A
  Mesh faceA, faceB, nearSide, farSide, leftEnd, rightEnd;
  bool nearIsBark = false, farIsBark = false;
};

BoardSolid boardSolid(const BoardShape& shape);
double bowAt(const BoardShape& shape, double x);  // height of face A above thicknessMm

}  // namespace rackside::synthetic
