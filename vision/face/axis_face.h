// SPDX-License-Identifier: GPL-3.0-or-later
// The coarse face turned so that the board lies along x, and cut into cells for finding its sides.
#pragma once

#include "vision/face/board_axis.h"
#include "vision/face/boundary.h"
#include "vision/face/roughness.h"
#include "vision/face/wood_model.h"

namespace rackside {

inline constexpr double kCellFineMm = 1.5;  // across a side
inline constexpr int kCellsLong = 4;        // fine cells in a long one

enum class Side { lower, upper, left, right };  // seen with x to the right, y up

struct AxisFace {
  Pose planeFromAxis;
  CoarseFace face;            // yUp raster of kCellFineMm
  Rect region;                // axis frame
  cv::Mat lab;                // CV_8UC3
  cv::Mat texture;            // CV_8UC2, see textureOf()
  cv::Mat changes;            // CV_32FC3, changesAlong() of x, averaged along it
  std::vector<Point> nadirs;  // under each camera, axis frame
  std::vector<double> heights;
  double thicknessMm = 0;

  int column(double x) const { return int((x - region.x0) / kCellFineMm); }
  int row(double y) const { return int((y - region.y0) / kCellFineMm); }
  // Width at which the side wall shows beyond the face's edge with this outward normal.
  double wallAt(Point at, Point outward, int photo) const;
};

AxisFace axisFace(FaceViews& views, const Pose& planeFromAxis, double halfWidthMm);

// The part of the axis frame between `from` and `to` along a side, as seen outward from it; `first`
// gives, for a place along, where wood is taken for granted.
struct SideWindow {
  Side side = Side::upper;
  double from = 0, to = 0;     // along: x for lower and upper, y for left and right
  double innermost = 0;        // across: where the window begins
  std::vector<Point> middle;   // wood for granted: polyline along → across
  std::vector<Point> corners;  // along → across, as the ends show them: none, one or two
};
BoundaryProblem boundaryProblem(const AxisFace& axis, const SideWindow& window,
                                const WoodModel& model, const RoughnessModel& roughness);
// Back from columns to the axis frame.
std::vector<Point> boundaryLine(const AxisFace& axis, const SideWindow& window,
                                const std::vector<BoundaryColumn>& columns);

double interpolate(const std::vector<Point>& line, double x);  // level beyond its ends

}  // namespace rackside
