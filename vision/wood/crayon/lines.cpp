// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/lines.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "vision/wood/propose/region_shape.h"

namespace rackside {
namespace {

constexpr double kLineLeastMm = 130, kPieceLeastMm = 25;
constexpr double kLineSlimness = 7, kPieceSlimness = 2;  // length by width
constexpr double kWander = 0.22;                         // across, by length
constexpr double kSteepest = 0.5;                        // across by along
constexpr double kMostGapMm = 55, kMostStepMm = 14;      // from piece to piece
constexpr double kLeastDrawn = 0.6;                      // of a line's length

double lengthOf(const Stroke& s) {
  return s.points.back().x - s.points.front().x;
}

// Where the piece would be at x if it ran on as it ends.
double runOn(const Stroke& s, double x) {
  const Point last = s.points.back(), first = s.points.front();
  const double slope = (last.y - first.y) / std::max(1.0, last.x - first.x);
  return last.y + std::clamp(slope, -0.1, 0.1) * (x - last.x);
}

bool runsInto(const Stroke& a, const Stroke& b, double mmPerPx) {
  const double gap = b.points.front().x - a.points.back().x;
  return gap > -kMostStepMm / mmPerPx && gap < kMostGapMm / mmPerPx &&
         std::abs(b.points.front().y - runOn(a, b.points.front().x)) < kMostStepMm / mmPerPx;
}

struct Chain {
  Stroke line;
  double drawnPx = 0;
  void append(const Stroke& s) {
    const double now = line.points.empty() ? 0 : drawnPx, more = lengthOf(s);
    line.widthMm = (line.widthMm * now + s.widthMm * more) / (now + more);
    line.points.insert(line.points.end(), s.points.begin(), s.points.end());
    drawnPx += more;
  }
};

}  // namespace

std::optional<Stroke> linePieceOf(const Scrawl& s) {
  std::vector<cv::Point> points;
  cv::findNonZero(s.mask, points);
  const cv::RotatedRect turned = cv::minAreaRect(points);
  const double length = std::max(turned.size.width, turned.size.height) * s.mmPerPx,
               across = std::min(turned.size.width, turned.size.height) * s.mmPerPx;
  if (length < kPieceLeastMm || length < kPieceSlimness * s.widthMm ||
      across > s.widthMm + kWander * length)
    return std::nullopt;
  Region region;
  const cv::Rect box = cv::boundingRect(s.mask);
  region.box = box + s.box.tl();
  region.mask = s.mask(box).clone();
  region.areaPx = static_cast<int>(points.size());
  Stroke line = std::get<Stroke>(shapeOf(region, RegionKind::crack));
  if (line.points.front().x > line.points.back().x)
    std::reverse(line.points.begin(), line.points.end());
  const Point way = line.points.back() - line.points.front();
  if (std::abs(way.y) > kSteepest * std::abs(way.x)) return std::nullopt;
  return line;
}

bool isALine(const Stroke& piece, double mmPerPx) {
  const double length = lengthOf(piece);
  return length * mmPerPx >= kLineLeastMm && length >= kLineSlimness * piece.widthMm;
}

std::vector<CrayonStroke> linesOf(std::vector<Stroke> pieces, double mmPerPx) {
  std::sort(pieces.begin(), pieces.end(), [](const Stroke& a, const Stroke& b) {
    return a.points.front().x < b.points.front().x;
  });
  std::vector<Chain> chains;
  for (const Stroke& piece : pieces) {
    const auto before = std::find_if(chains.begin(), chains.end(), [&](const Chain& c) {
      return runsInto(c.line, piece, mmPerPx);
    });
    (before == chains.end() ? chains.emplace_back() : *before).append(piece);
  }
  std::vector<CrayonStroke> lines;
  for (const Chain& c : chains) {
    if (!isALine(c.line, mmPerPx) || c.drawnPx < kLeastDrawn * lengthOf(c.line)) continue;
    lines.push_back({StrokeKind::line, 0.9, c.line});
  }
  return lines;
}

}  // namespace rackside
