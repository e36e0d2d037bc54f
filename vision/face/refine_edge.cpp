// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/refine_edge.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/face/arris_path.h"
#include "vision/face/arris_reading.h"
#include "vision/face/narrow_wall.h"
#include "vision/face/smooth_line.h"

namespace rackside {
namespace {

constexpr double kReachMm = 12;                   // to either side of the rough line
constexpr double kWidestWallMm = 30;              // read beyond that
constexpr double kFaceMm = 36;                    // inward: face, past any bark
constexpr double kSureRough = 12, kSurePath = 2;  // margins of the two paths, to be sure
constexpr double kSureSigmaMm = 1.0;
constexpr double kToldSigmaMm = 1.6;  // where roughness tells the place
// Of the arris itself, alike over long stretches: it is rounded and torn, and light falls on it
// aslant.
constexpr double kPlaceSigmaMm = 0.19, kPlaceSigmaPx = 0.33;
constexpr double kRimMm = 3, kFaceFromMm = 9, kRimAlongMm = 60, kDarkRim = 0.55;
constexpr double kBrighterThanFace = 1.4;  // of light
constexpr double kDoubtSpreads = 0.25;     // of a side
// A side that nearly all follows one smooth curve, found row by row, bears itself out.
constexpr double kBornOutMm = 3, kBearsItselfOut = 0.9, kDoubtSpreadsOnCurve = 0.5;
constexpr double kUnsureSigmaMm = 1.5;
// A side that may follow bark, a shadow or the foot of the wall all along: of rendered scenes such
// sides were 3 to 12 mm off.
constexpr double kLostSigmaMm = 4.5;

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
  const double step = path.size() > 1 ? path[1].x - path[0].x : 1;
  for (int i = 0; from + i * kEdgeStepMm <= to; ++i) {
    const double a = from + i * kEdgeStepMm;
    const double c = interpolate(path, a);
    const double slope = (interpolate(path, a + 8) - interpolate(path, a - 8)) / 16;
    Point out{-slope * sign, sign};
    out = (1 / norm(out)) * out;
    g.line.push_back(along ? Point{a, c} : Point{c, a});
    g.outward.push_back(along ? out : Point{out.y, out.x});
    const long near = std::lround((a - path[0].x) / step);
    const size_t n = size_t(std::clamp(near, 0L, long(path.size()) - 1));
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

// A card on the face is no face.
void limitToMedian(cv::Mat column, double times) {
  std::vector<float> sorted(column.begin<float>(), column.end<float>());
  if (sorted.empty()) return;
  const auto middle = sorted.begin() + std::ptrdiff_t(sorted.size() / 2);
  std::nth_element(sorted.begin(), middle, sorted.end());
  cv::min(column, times * *middle, column);
}

// Rows whose outermost face is far darker than the face farther in, as bark or a shadow that was
// taken for wood would be.
std::vector<bool> darkRims(const EdgeRibbon& r, const std::vector<double>& offset) {
  cv::Mat light(int(r.rows.size()), 2, CV_32F);  // rim, farther in
  const auto mean = [&](int row, double from, double to) {
    const int a = std::clamp(r.middle + int(from / r.stepMm), 0, r.light.cols - 2);
    const int b = std::clamp(r.middle + int(to / r.stepMm), a + 1, r.light.cols - 1);
    float sum = 0;
    for (int k = a; k < b; ++k) sum += r.light.at<cv::Vec3f>(row, k).dot(cv::Vec3f(1, 1, 1));
    return sum / float(b - a);
  };
  for (int i = 0; i < light.rows; ++i) {
    const double at = offset[size_t(i)];
    light.at<float>(i, 0) = mean(i, at - kRimMm, at - 0.7);
    light.at<float>(i, 1) = mean(i, at - 1e3, at - kFaceFromMm);
  }
  limitToMedian(light.col(1), kBrighterThanFace);
  cv::blur(light, light, {1, int(kRimAlongMm / kEdgeStepMm) | 1}, {-1, -1}, cv::BORDER_REPLICATE);
  std::vector<bool> dark;
  dark.reserve(r.rows.size());
  for (int i = 0; i < light.rows; ++i)
    dark.push_back(light.at<float>(i, 0) < kDarkRim * light.at<float>(i, 1));
  return dark;
}

// Where much of a side is in doubt, the rest was chosen between the same rivals.
void spreadDoubt(std::vector<EdgePoint>& side, double fromShare, double sigmaMm) {
  double unsure = 0, seen = 0;
  for (const EdgePoint& p : side) {
    unsure += p.state == EdgeState::unsure;
    seen += p.state != EdgeState::bridged;
  }
  if (unsure <= fromShare * seen) return;
  for (EdgePoint& p : side)
    if (p.state != EdgeState::bridged)
      p.state = EdgeState::unsure, p.sigmaMm = std::max(p.sigmaMm, sigmaMm);
}

}  // namespace

std::vector<EdgePoint> refineSide(FaceViews& views, const RoughOutline& outline,
                                  const RoughSide& side, double from, double to) {
  const Guide guide = guideOf(side, from, to);
  const double reach = kReachMm + widestWall(outline.axis, guide);
  const EdgeRibbon ribbon =
      edgeRibbon(views, outline.axis, guide.line, guide.outward, std::max(reach, kFaceMm), reach);
  const ArrisPath path =
      arrisPath(ribbon, isLong(side.side), !isLong(side.side) || side.sawn != OneCurve::no);
  const bool bearsItselfOut =
      !path.curveMm.empty() && path.onCurve > kBearsItselfOut && side.sawn == OneCurve::clearly;
  std::vector<OffsetReading> readings = readArris(ribbon, path.offsetMm, kEdgeStepMm);
  readNarrowWalls(ribbon, path.offsetMm, readings);
  const std::vector<SmoothOffset> smooth = smoothOffsets(readings, kEdgeStepMm);
  const std::vector<bool> dark = darkRims(ribbon, path.offsetMm);
  std::vector<EdgePoint> points;
  for (size_t i = 0; i < smooth.size(); ++i) {
    EdgePoint p;
    const RibbonRow& row = ribbon.rows[i];
    p.at = row.at + smooth[i].offsetMm * row.outward;
    // A wall that looks like face or ground leaves open where the arris lies.
    const double wall = isNarrowWall(row)                ? row.wallMm / 5
                        : path.wallMargin[i] < kSurePath ? row.wallMm / 3
                                                         : 0;
    p.sigmaMm = std::hypot(smooth[i].sigmaMm, kPlaceSigmaMm + kPlaceSigmaPx * row.mmPerPx, wall);
    const bool told = path.toldByRoughness[i];
    const bool rightPlace = bearsItselfOut || told ||
                            (side.sawn != OneCurve::doubtful && guide.margin[i] >= kSureRough);
    const bool clear = rightPlace && path.margin[i] >= kSurePath &&
                       p.sigmaMm < (told ? kToldSigmaMm : kSureSigmaMm) && !dark[i] &&
                       std::abs(smooth[i].offsetMm - path.offsetMm[i]) < kReachMm / 6;
    if (row.hidden || guide.hidden[i] || !row.seen)
      p.state = EdgeState::bridged;
    else if (!clear)
      p.state = EdgeState::unsure, p.sigmaMm = std::max(p.sigmaMm, kUnsureSigmaMm);
    points.push_back(p);
  }
  if (bearsItselfOut)
    spreadDoubt(points, kDoubtSpreadsOnCurve, kUnsureSigmaMm);
  else
    spreadDoubt(points, kDoubtSpreads, isLong(side.side) ? kLostSigmaMm : kUnsureSigmaMm);
  return points;
}

}  // namespace rackside
