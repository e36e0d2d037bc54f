// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/free_places.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/plan/milling.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

constexpr double kPadMm = 10;
constexpr int kSubpixelBits = 6;

const FaceAllows& allowsOf(const Part& part, Face showFace, Face face) {
  if (part.showing == Showing::none) return part.back;
  if (part.showing == Showing::bothFaces) return part.show;
  return face == showFace ? part.show : part.back;
}

}  // namespace

PartSizes sizesOf(const Part& part, const Shop& shop) {
  PartSizes s;
  s.lengthMm = part.lengthMm;
  s.widthMm = part.widthMm;
  s.roughLengthMm =
      std::max(part.lengthMm + shop.lengthAllowanceMm + 2 * shop.snipeMm, shop.shortestSafeMm);
  s.roughWidthMm = std::max(part.widthMm + shop.widthAllowanceMm, shop.narrowestSafeMm);
  return s;
}

// A raster of cells in the turned frame that polygons are filled into; every cell that a border
// meets counts as covered.
class FreePlaces::Cells {
 public:
  Cells(const Rect& box, double angleRad, uchar start)
      : box_(box),
        angle_(angleRad),
        cells_(std::max(1, int(std::ceil((box.height() + 2 * kPadMm) / kCellMm))),
               std::max(1, int(std::ceil((box.width() + 2 * kPadMm) / kCellMm))), start) {}
  void fill(const Polygon& board, uchar value) {
    cv::fillPoly(cells_, std::vector{ring(board)}, cv::Scalar(value), cv::LINE_8, kSubpixelBits);
  }
  void trace(const Polygon& board, uchar value) {
    cv::polylines(cells_, std::vector{ring(board)}, true, cv::Scalar(value), 1, cv::LINE_8,
                  kSubpixelBits);
  }
  cv::Mat1i summed() const {
    cv::Mat sums;
    cv::integral(cells_, sums, CV_32S);
    return sums;
  }

 private:
  std::vector<cv::Point> ring(const Polygon& board) const {
    constexpr double scale = (1 << kSubpixelBits) / kCellMm;
    std::vector<cv::Point> out;
    for (const Point q : rackside::apply(Pose{{0, 0}, -angle_}, board))
      out.emplace_back(cvRound((q.x - box_.x0 + kPadMm - kCellMm / 2) * scale),
                       cvRound((q.y - box_.y0 + kPadMm - kCellMm / 2) * scale));
    return out;
  }
  Rect box_;
  double angle_;
  cv::Mat1b cells_;
};

FreePlaces::FreePlaces(const Board& board, const Part& part, const Shop& shop, Face showFace,
                       double angleRad)
    : angle_(angleRad), sizes_(sizesOf(part, shop)) {
  const Polygon outline = board.outline.polygon();
  box_ = bounds(rackside::apply(Pose{{0, 0}, -angle_}, outline));
  findOutside(board, outline, shop);
  const double takeOff = leastTakeOffMm(board, warpOf(board), shop, sizes_.roughLengthMm,
                                        sizes_.roughWidthMm, part.thicknessMm);
  Cells barred(box_, angle_, 0);
  for (const Face face : {Face::A, Face::B})
    for (const Polygon& p : forbidden(board, face, allowsOf(part, showFace, face), shop, takeOff))
      barred.fill(p, 1);
  barred_ = barred.summed();
}

// As usableWood(), drawn instead of reckoned: the outline less the margin of each stretch, and the
// rough ends, which are trimmed before anything is measured from them.
void FreePlaces::findOutside(const Board& board, const Polygon& outline, const Shop& shop) {
  Cells outside(box_, angle_, 1);
  outside.fill(outline, 0);
  outside.trace(outline, 1);
  const auto& v = board.outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const OutlineVertex& next = v[(i + 1) % v.size()];
    const double margin = edgeMarginMm(v[i], next);
    if (margin <= 0) continue;
    const Point along = next.at - v[i].at;
    const double length = norm(along);
    if (length > 0) {
      const Point aside{-along.y * margin / length, along.x * margin / length};
      outside.fill({v[i].at - aside, next.at - aside, next.at + aside, v[i].at + aside}, 1);
    }
    outside.fill(ellipsePolygon({next.at, margin, margin, 0}, 0.2), 1);
  }
  const Rect b = bounds(outline);
  const EndTrims trims = endTrims(board, shop);
  outside.fill(rectangle({b.x0 - 1, b.y0 - 1, b.x0 + trims.leftMm, b.y1 + 1}), 1);
  outside.fill(rectangle({b.x1 - trims.rightMm, b.y0 - 1, b.x1 + 1, b.y1 + 1}), 1);
  outside_ = outside.summed();
}

bool FreePlaces::empty(const cv::Mat1i& sums, const Rect& r) const {
  const auto cell = [](double v) { return (v + kPadMm) / kCellMm; };
  const int x0 = int(std::floor(cell(r.x0 - box_.x0) + 1e-6));
  const int y0 = int(std::floor(cell(r.y0 - box_.y0) + 1e-6));
  const int x1 = int(std::ceil(cell(r.x1 - box_.x0) - 1e-6));
  const int y1 = int(std::ceil(cell(r.y1 - box_.y0) - 1e-6));
  if (x0 < 0 || y0 < 0 || x1 >= sums.cols || y1 >= sums.rows) return false;
  return sums(y1, x1) - sums(y0, x1) - sums(y1, x0) + sums(y0, x0) == 0;
}

bool FreePlaces::mayLie(Point c) const {
  const Rect finished{c.x, c.y, c.x + sizes_.lengthMm, c.y + sizes_.widthMm};
  const double end = (sizes_.roughLengthMm - sizes_.lengthMm) / 2;
  const double side = (sizes_.roughWidthMm - sizes_.widthMm) / 2;
  const Rect rough{finished.x0 - end, finished.y0 - side, finished.x1 + end, finished.y1 + side};
  return empty(outside_, rough) && empty(barred_, finished);
}

Point FreePlaces::boardFromTurned(Point p) const {
  return rackside::apply(Pose{{0, 0}, angle_}, p);
}

Point FreePlaces::turnedFromBoard(Point p) const {
  return rackside::apply(Pose{{0, 0}, -angle_}, p);
}

std::string unfitReason(const Board& board, const Part& part, const Shop& shop) {
  if (board.isSpokenFor()) return "it is " + stateWords(board);
  if (board.cutUp) return "it is cut up";
  if (!woodServes(part.species, board.species, shop.ownSpecies))
    return "it is " + (board.species.empty() ? "of unknown species" : board.species) + ", not " +
           part.species;
  const PartSizes s = sizesOf(part, shop);
  if (!thickEnough(board, warpOf(board), shop, s.roughLengthMm, s.roughWidthMm, part.thicknessMm))
    return "it is too thin for the part once flattened";
  return {};
}

}  // namespace rackside
