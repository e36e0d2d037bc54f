// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/blank_growth.h"

#include <algorithm>

#include "core/plan/milling.h"
#include "core/plan/slice.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

// Nothing is gained below this.
constexpr double kWorthGrowingMm = 0.1;
// Inside the border of the region, so that rounding cannot lay a corner outside.
constexpr double kInsideMm = 1e-3;

Polygon inFrameOf(const Blank& blank, const Polygon& p) {
  const double s = std::sin(blank.boardFromBlank.angleRad);
  const double c = std::cos(blank.boardFromBlank.angleRad);
  Polygon out;
  out.reserve(p.size());
  for (const Point q : p) {
    const Point r = q - blank.boardFromBlank.origin;
    out.push_back({r.x * c + r.y * s, r.y * c - r.x * s});
  }
  return out;
}

Polygon turned(const Polygon& p) {
  Polygon out;
  out.reserve(p.size());
  for (const Point q : p) out.push_back({q.y, q.x});
  return out;
}

// How far lo…hi may be stretched along x when it stays between the border's points whose y lies in
// the band; all of them lie outside it now.
std::pair<double, double> stretched(const Polygon& border, double lo, double hi, double bandLo,
                                    double bandHi) {
  double from = -1e300, to = 1e300;
  const double middle = (lo + hi) / 2;
  const auto take = [&](Point q) {
    if (q.x < middle)
      from = std::max(from, q.x);
    else
      to = std::min(to, q.x);
  };
  for (size_t i = 0; i < border.size(); ++i) {
    const Point a = border[i], b = border[(i + 1) % border.size()];
    if (a.y >= bandLo && a.y <= bandHi) take(a);
    for (const double y : {bandLo, bandHi})
      if ((a.y < y) != (b.y < y)) take(a + ((y - a.y) / (b.y - a.y)) * (b - a));
  }
  return {std::min(lo, from + kInsideMm), std::max(hi, to - kInsideMm)};
}

}  // namespace

Overhang overhangOf(const Blank& blank, const Polygon& region) {
  const Rect box = bounds(inFrameOf(blank, region));
  return {-box.x0, box.x1 - blank.roughLengthMm, -box.y0, box.y1 - blank.roughWidthMm};
}

BlankGrowth::BlankGrowth(const PlanRequest& request, const Board& board)
    : request_(request), board_(board), usable_(usableWood(board.outline)) {
  const Rect box = bounds(board.outline.polygon());
  const EndTrims trims = endTrims(board, request.shop);
  fromX_ = box.x0 + trims.leftMm;
  toX_ = box.x1 - trims.rightMm;
}

Polygon BlankGrowth::sureWood(const Polygon& region) const {
  Polygon sure;
  double most = 0;
  for (Polygon& p : intersect(usable_, {region}))
    if (const double size = std::abs(signedArea(p)); size > most) most = size, sure = std::move(p);
  sure = leftPart(sure, {{fromX_, 1}, {fromX_, 0}});
  return leftPart(sure, {{toX_, 0}, {toX_, 1}});
}

void BlankGrowth::grow(Blank& blank, const Polygon& region) const {
  const Overhang over = overhangOf(blank, region);
  if (std::max({over.beforeMm, over.afterMm, over.belowMm, over.aboveMm}) < kWorthGrowingMm) return;
  const Polygon wood = inFrameOf(blank, sureWood(region));
  if (wood.size() < 3) return;
  const double l = blank.roughLengthMm, w = blank.roughWidthMm;
  const auto [x0, x1] = stretched(wood, 0, l, kInsideMm, w - kInsideMm);
  const auto [y0, y1] = stretched(turned(wood), 0, w, x0 + kInsideMm, x1 - kInsideMm);
  if (x1 - x0 - l < kWorthGrowingMm && y1 - y0 - w < kWorthGrowingMm) return;
  Blank grown = blank;
  grown.boardFromBlank.origin = apply(blank.boardFromBlank, Point{x0, y0});
  grown.roughLengthMm = x1 - x0;
  grown.roughWidthMm = y1 - y0;
  if (canBeMilled(blank, grown)) blank = grown;
}

bool BlankGrowth::canBeMilled(const Blank& before, const Blank& after) const {
  const Warp warp = warpOf(board_);
  const auto takeOff = [&](const Blank& b) {
    return leastTakeOffMm(board_, warp, request_.shop, b.roughLengthMm, b.roughWidthMm,
                          b.finishedThicknessMm);
  };
  if (!thickEnough(board_, warp, request_.shop, after.roughLengthMm, after.roughWidthMm,
                   after.finishedThicknessMm))
    return false;
  const double was = takeOff(before), is = takeOff(after);
  return std::none_of(board_.marks.begin(), board_.marks.end(), [&](const Mark& m) {
    return m.depthMm && *m.depthMm <= was && *m.depthMm > is;
  });
}

}  // namespace rackside
