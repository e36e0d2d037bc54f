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

Polygons turned(const Polygons& polygons, double angleRad) {
  Polygons out;
  for (const Polygon& p : polygons) out.push_back(rackside::apply(Pose{{0, 0}, -angleRad}, p));
  return out;
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

FreePlaces::FreePlaces(const Board& board, const Part& part, const Shop& shop, Face showFace,
                       double angleRad)
    : angle_(angleRad), sizes_(sizesOf(part, shop)) {
  Polygons wood = usableWood(board.outline);
  const Rect outline = bounds(board.outline.polygon());
  // Rough ends are trimmed before anything is measured from them.
  wood = intersect(wood, {rectangle({outline.x0 + shop.endTrimMm, outline.y0 - 1,
                                     outline.x1 - shop.endTrimMm, outline.y1 + 1})});
  const double takeOff = leastTakeOffMm(board, warpOf(board), sizes_.roughLengthMm,
                                        sizes_.roughWidthMm, part.thicknessMm);
  Polygons barred;
  for (const Face face : {Face::A, Face::B})
    for (Polygon& p : forbidden(board, face, allowsOf(part, showFace, face), shop, takeOff))
      barred.push_back(std::move(p));
  box_ = {1e9, 1e9, -1e9, -1e9};
  const Polygons turnedWood = turned(wood, angle_);
  for (const Polygon& p : turnedWood) {
    const Rect b = bounds(p);
    box_ = {std::min(box_.x0, b.x0), std::min(box_.y0, b.y0), std::max(box_.x1, b.x1),
            std::max(box_.y1, b.y1)};
  }
  if (turnedWood.empty()) box_ = {};
  outside_ = sumsOf(turnedWood, true);
  barred_ = sumsOf(turned(barred, angle_), false);
}

// Cells touched by `solid` (or, inverted, not wholly inside it), summed.
cv::Mat1i FreePlaces::sumsOf(const Polygons& solid, bool inverted) const {
  const int columns = int(std::ceil((box_.width() + 2 * kPadMm) / kCellMm));
  const int rows = int(std::ceil((box_.height() + 2 * kPadMm) / kCellMm));
  cv::Mat1b cells(std::max(1, rows), std::max(1, columns), uchar(inverted ? 1 : 0));
  const double scale = (1 << kSubpixelBits) / kCellMm;
  std::vector<std::vector<cv::Point>> fill;
  for (const Polygon& p : solid) {
    std::vector<cv::Point> ring;
    for (const Point q : p)
      ring.emplace_back(cvRound(((q.x - box_.x0 + kPadMm) - kCellMm / 2) * scale),
                        cvRound(((q.y - box_.y0 + kPadMm) - kCellMm / 2) * scale));
    if (signedArea(p) > 0 || !inverted)
      cv::fillPoly(cells, std::vector{ring}, cv::Scalar(inverted ? 0 : 1), cv::LINE_8,
                   kSubpixelBits);
    else
      fill.push_back(ring);  // a hole in the wood, below
    // fillPoly also fills cells that the border only touches: right for what is barred, wrong for
    // the wood, whose border cells are outside.
    if (inverted)
      cv::polylines(cells, std::vector{ring}, true, cv::Scalar(1), 1, cv::LINE_8, kSubpixelBits);
  }
  for (const auto& ring : fill)
    cv::fillPoly(cells, std::vector{ring}, cv::Scalar(1), cv::LINE_8, kSubpixelBits);
  cv::Mat sums;
  cv::integral(cells, sums, CV_32S);
  return sums;
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
  if (board.setApart) return "it is set apart";
  if (!part.species.empty() && board.species != part.species)
    return "it is " + (board.species.empty() ? "of unknown species" : board.species) + ", not " +
           part.species;
  const PartSizes s = sizesOf(part, shop);
  if (!thickEnough(board, warpOf(board), shop, s.roughLengthMm, s.roughWidthMm, part.thicknessMm))
    return "it is too thin for the part once flattened";
  return {};
}

}  // namespace rackside
