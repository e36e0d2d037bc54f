// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/axis_face.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr double kCornerReachMm = 2500;  // one corner alone tells no more than that far along
constexpr double kChangesMm = 90;        // along, over which changes are averaged
// A crosscut end is straight, though not always square.
constexpr double kMostEndSlope = 0.15, kMostEndBendMm = 2;
constexpr double kTextureMm = 21;  // neighbourhood over which texture is read

bool isLong(Side side) {
  return side == Side::lower || side == Side::upper;
}
double outwardSign(Side side) {
  return side == Side::upper || side == Side::right ? 1 : -1;
}

// Turns a part of the axis picture so that columns run along the side and rows outward.
cv::Mat turned(const cv::Mat& part, Side side) {
  cv::Mat along = isLong(side) ? part : cv::Mat(part.t()), out;
  if (outwardSign(side) > 0) return along;
  cv::flip(along, out, 0);
  return out;
}

cv::Mat cellMeans(const cv::Mat& turnedPart, int interpolation) {
  cv::Mat out;
  cv::resize(turnedPart, out, {std::max(1, turnedPart.cols / kCellsLong), turnedPart.rows}, 0, 0,
             interpolation);
  return out;
}

cv::Rect partOf(const AxisFace& axis, const SideWindow& w) {
  const bool along = isLong(w.side), out = outwardSign(w.side) > 0;
  const cv::Size size = axis.lab.size();
  int x0, x1, y0, y1;
  if (along) {
    x0 = axis.column(w.from), x1 = axis.column(w.to);
    y0 = out ? axis.row(w.innermost) : 0;
    y1 = out ? size.height : axis.row(w.innermost);
  } else {
    y0 = axis.row(w.from), y1 = axis.row(w.to);
    x0 = out ? axis.column(w.innermost) : 0;
    x1 = out ? size.width : axis.column(w.innermost);
  }
  cv::Rect part = cv::Rect(cv::Point(x0, y0), cv::Point(x1, y1)) & cv::Rect({}, size);
  int& length = along ? part.width : part.height;
  length -= length % kCellsLong;  // whole cells only
  return part;
}

struct CellFrame {  // from a cell's (column, row) in a side's window to the axis frame
  Point origin, along, outward;
  Point at(double column, double row) const { return origin + (column * along) + (row * outward); }
};

CellFrame cellFrame(const AxisFace& axis, const SideWindow& w) {
  const cv::Rect part = partOf(axis, w);
  const double s = outwardSign(w.side), fine = kCellFineMm, coarse = kCellFineMm * kCellsLong;
  const double x0 = axis.region.x0 + part.x * fine, x1 = axis.region.x0 + part.br().x * fine;
  const double y0 = axis.region.y0 + part.y * fine, y1 = axis.region.y0 + part.br().y * fine;
  if (isLong(w.side)) return {{x0 + coarse / 2, s > 0 ? y0 : y1}, {coarse, 0}, {0, s * fine}};
  return {{s > 0 ? x0 : x1, y0 + coarse / 2}, {0, coarse}, {s * fine, 0}};
}

cv::Mat changesAlongX(const cv::Mat& lab, const cv::Mat& usable) {
  cv::Mat light, use;
  cv::extractChannel(lab, light, 0);
  light.convertTo(light, CV_32F, 100.0 / 255, 16);  // as the eye steps it (CIE 1976)
  usable.convertTo(use, CV_32F, 1 / 255.0);
  cv::Mat changes = changesAlong(light);
  for (int y = 0; y < lab.rows; ++y)
    for (int x = 0; x < lab.cols; ++x) changes.at<cv::Vec3f>(y, x) *= use.at<float>(y, x);
  return averagedAlong(changes, use, int(kChangesMm / kCellFineMm) | 1);
}

// Evidence of roughness by cell; ends have none, as the grain runs into them.
cv::Mat roughnessEvidence(const cv::Mat& changes, const RoughnessModel& model, bool isLongSide) {
  cv::Mat out = cv::Mat::zeros(changes.size(), CV_32F);
  for (int y = 0; y < out.rows && isLongSide && model.knows(); ++y)
    for (int x = 0; x < out.cols; ++x)
      out.at<float>(y, x) = float(model.evidence(changes.at<cv::Vec3f>(y, x)));
  return out;
}

}  // namespace

double interpolate(const std::vector<Point>& line, double x) {
  if (x <= line.front().x) return line.front().y;
  for (size_t i = 1; i < line.size(); ++i)
    if (x <= line[i].x) {
      const double t = (x - line[i - 1].x) / std::max(1e-9, line[i].x - line[i - 1].x);
      return line[i - 1].y + t * (line[i].y - line[i - 1].y);
    }
  return line.back().y;
}

double AxisFace::wallAt(Point at, Point outward, int photo) const {
  const double towards = dot(outward, nadirs[size_t(photo)] - at);
  return towards <= 0 ? 0 : thicknessMm * towards / (heights[size_t(photo)] + thicknessMm);
}

AxisFace axisFace(FaceViews& views, const Pose& planeFromAxis, double halfWidthMm) {
  AxisFace axis;
  axis.planeFromAxis = planeFromAxis;
  axis.thicknessMm = views.thicknessMm;
  axis.region = seenBox(views, planeFromAxis, 3500);
  axis.region.y0 = std::max(axis.region.y0, -halfWidthMm);
  axis.region.y1 = std::min(axis.region.y1, halfWidthMm);
  axis.face = coarseFace(views, rasterOver(axis.region, planeFromAxis, kCellFineMm, true));
  cv::cvtColor(axis.face.bgr, axis.lab, cv::COLOR_BGR2Lab);
  axis.texture = textureOf(axis.lab, int(kTextureMm / kCellFineMm) | 1);
  axis.changes = changesAlongX(axis.lab, axis.face.usable);
  const double c = std::cos(planeFromAxis.angleRad), s = std::sin(planeFromAxis.angleRad);
  for (size_t p = 0; p < views.photos.size(); ++p) {
    const cv::Point3d eye = views.adjustment->cameraCentre(p);
    const Point d = Point{eye.x, eye.y} - planeFromAxis.origin;
    axis.nadirs.push_back({c * d.x + s * d.y, -s * d.x + c * d.y});
    axis.heights.push_back(eye.z);
  }
  return axis;
}

BoundaryProblem boundaryProblem(const AxisFace& axis, const SideWindow& w, const WoodModel& model,
                                const RoughnessModel& roughness) {
  const cv::Rect part = partOf(axis, w);
  BoundaryProblem p;
  p.alongMm = kCellFineMm * kCellsLong;
  p.acrossMm = kCellFineMm;
  if (!isLong(w.side)) p.mostSlope = kMostEndSlope, p.mostBendMm = kMostEndBendMm;
  const cv::Mat lab = cellMeans(turned(axis.lab(part), w.side), cv::INTER_AREA);
  lab.convertTo(p.lab, CV_32FC3);
  p.usable = cellMeans(turned(axis.face.usable(part), w.side), cv::INTER_AREA) >= 250;
  p.seen = cellMeans(turned(axis.face.seen(part), w.side), cv::INTER_AREA) >= 250;
  const cv::Mat source = cellMeans(turned(axis.face.source(part), w.side), cv::INTER_NEAREST);
  p.evidence =
      model.evidence(p.lab, cellMeans(turned(axis.texture(part), w.side), cv::INTER_NEAREST));
  p.roughness = roughnessEvidence(cellMeans(turned(axis.changes(part), w.side), cv::INTER_AREA),
                                  roughness, isLong(w.side));
  p.wallMm.create(p.lab.size(), CV_32F);
  const CellFrame frame = cellFrame(axis, w);
  const Point outward = (1.0 / norm(frame.outward)) * frame.outward;
  for (int y = 0; y < p.lab.rows; ++y)
    for (int x = 0; x < p.lab.cols; ++x)
      p.wallMm.at<float>(y, x) =
          float(axis.wallAt(frame.at(x, y), outward, source.at<uchar>(y, x)));
  for (int x = 0; x < p.lab.cols; ++x) {
    const Point at = frame.at(x, 0);
    const double along = isLong(w.side) ? at.x : at.y, across = isLong(w.side) ? at.y : at.x;
    const double first = (interpolate(w.middle, along) - across) * outwardSign(w.side);
    p.first.push_back(std::clamp(int(first / kCellFineMm), 0, p.lab.rows - 1));
    if (w.corners.empty()) continue;
    const double expected = (interpolate(w.corners, along) - across) * outwardSign(w.side);
    double far = 1e9;
    for (const Point& c : w.corners) far = std::min(far, std::abs(along - c.x));
    p.expectedRow.push_back(expected / kCellFineMm);
    p.expectedTrust.push_back(w.corners.size() > 1 ? 1 : std::max(0.0, 1 - far / kCornerReachMm));
  }
  return p;
}

std::vector<Point> boundaryLine(const AxisFace& axis, const SideWindow& w,
                                const std::vector<BoundaryColumn>& columns) {
  const CellFrame frame = cellFrame(axis, w);
  std::vector<Point> line;
  for (size_t i = 0; i < columns.size(); ++i) line.push_back(frame.at(double(i), columns[i].row));
  return line;
}

}  // namespace rackside
