// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/refine_edge.h"

#include <algorithm>

#include "vision/face/arris_path.h"
#include "vision/face/arris_reading.h"
#include "vision/face/smooth_line.h"

namespace rackside {
namespace {

constexpr double kReachMm = 12;                   // to either side of the rough line
constexpr double kWidestWallMm = 30;              // read beyond that
constexpr double kSureRough = 12, kSurePath = 2;  // margins of the two paths, to be sure
constexpr double kSureSigmaMm = 0.8;
constexpr double kNarrowWallPx = 2;
constexpr double kPlaceSigmaPx = 0.12;  // of the arris itself, the same along the whole side
constexpr double kUnsureSigmaMm = 1.5;

bool isLong(Side s) {
  return s == Side::lower || s == Side::upper;
}

struct Guide {  // the rough side, resampled
  std::vector<Point> line, outward;
  std::vector<double> margin;
  std::vector<bool> hidden;
};

// The rough path without its one-cell steps, sampled evenly.
Guide guideOf(const RoughSide& side, double from, double to) {
  const bool along = isLong(side.side);
  std::vector<Point> path;  // (along, across)
  std::vector<bool> keep;
  for (size_t i = 0; i < side.line.size(); ++i) {
    const Point p = side.line[i];
    path.push_back(along ? p : Point{p.y, p.x});
    keep.push_back(!side.columns[i].hidden);
  }
  path = smoothed(path, keep);
  Guide g;
  const double sign = side.side == Side::upper || side.side == Side::right ? 1 : -1;
  for (double a = from; a <= to; a += kEdgeStepMm) {
    const double c = interpolate(path, a);
    const double slope = (interpolate(path, a + 8) - interpolate(path, a - 8)) / 16;
    Point out{-slope * sign, sign};
    out = (1 / norm(out)) * out;
    g.line.push_back(along ? Point{a, c} : Point{c, a});
    g.outward.push_back(along ? out : Point{out.y, out.x});
    const double step = path.size() > 1 ? path[1].x - path[0].x : 1;
    const size_t n = size_t(std::clamp(int((a - path[0].x) / step + 0.5), 0, int(path.size()) - 1));
    g.margin.push_back(side.columns[n].margin);
    g.hidden.push_back(side.columns[n].hidden);
  }
  return g;
}

double widestWall(const AxisFace& axis, const Guide& guide) {
  double widest = 0;
  for (size_t i = 0; i < guide.line.size(); i += 20)
    for (int photo = 0; photo < int(axis.nadirs.size()); ++photo)
      widest = std::max(widest, axis.wallAt(guide.line[i], guide.outward[i], photo));
  return std::min(widest, kWidestWallMm);
}

}  // namespace

std::vector<EdgePoint> refineSide(FaceViews& views, const RoughOutline& outline,
                                  const RoughSide& side, double from, double to) {
  const Guide guide = guideOf(side, from, to);
  const EdgeRibbon ribbon = edgeRibbon(views, outline.axis, guide.line, guide.outward,
                                       kReachMm + widestWall(outline.axis, guide));
  const ArrisPath path = arrisPath(ribbon);
  const std::vector<OffsetReading> readings = readArris(ribbon, path.offsetMm, kEdgeStepMm);
  const std::vector<SmoothOffset> smooth = smoothOffsets(readings, kEdgeStepMm);
  std::vector<EdgePoint> points;
  for (size_t i = 0; i < smooth.size(); ++i) {
    EdgePoint p;
    const RibbonRow& row = ribbon.rows[i];
    p.at = row.at + smooth[i].offsetMm * row.outward;
    // A wall too narrow to be told apart, or one that looks like face or ground, leaves open where
    // in its width the arris lies.
    const bool open = row.wallMm < kNarrowWallPx * row.mmPerPx || path.wallMargin[i] < kSurePath;
    const double wall = open ? row.wallMm : 0;
    p.sigmaMm = std::hypot(smooth[i].sigmaMm, kPlaceSigmaPx * row.mmPerPx, wall / 3);
    const bool clear = guide.margin[i] >= kSureRough && path.margin[i] >= kSurePath &&
                       p.sigmaMm < kSureSigmaMm &&
                       std::abs(smooth[i].offsetMm - path.offsetMm[i]) < kReachMm / 6;
    if (row.hidden || guide.hidden[i] || !row.seen)
      p.state = EdgeState::bridged;
    else if (!clear)
      p.state = EdgeState::unsure, p.sigmaMm = std::max(p.sigmaMm, kUnsureSigmaMm);
    points.push_back(p);
  }
  return points;
}

}  // namespace rackside
