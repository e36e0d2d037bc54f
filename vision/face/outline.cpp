// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/outline.h"

#include <algorithm>
#include <optional>

#include "vision/face/corner.h"
#include "vision/face/side_steps.h"
#include "vision/face/simplify_outline.h"
#include "vision/face/straight_side.h"

namespace rackside {
namespace {

constexpr double kCornerDoubtMm = 35;
constexpr double kOnCurveMm = 1.2, kBulgeMm = 2.5, kLongestChipMm = 200, kShortestWaneMm = 60,
                 kChipSigmaMm = 2.5;
constexpr double kJumpMm = 4, kJumpWithinMm = 40;
constexpr double kChordToleranceMm = 0.08, kLongestChordMm = 25;

// Drops the points of a side that lie past its corners and puts the corners there. Where a side
// leaves its own line close to a corner, a rounding cannot be told from a lost edge.
std::vector<EdgePoint> between(const std::vector<EdgePoint>& side, Point start, Point end) {
  const Point along = (1 / norm(end - start)) * (end - start);
  const double length = norm(end - start);
  const SideLine first = lineAtEnd(side, true), last = lineAtEnd(side, false);
  std::vector<EdgePoint> out{side.front()};
  out.front().at = start;
  for (EdgePoint p : side) {
    const double t = dot(p.at - start, along);
    if (t <= kCornerClearMm || t >= length - kCornerClearMm) continue;
    const SideLine& line = t < length / 2 ? first : last;
    const bool nearCorner = std::min(t, length - t) < kCornerDoubtMm;
    if (nearCorner && offLine(line, p.at) > kCornerOffMm) {
      if (line.straight) p.at = line.at + dot(p.at - line.at, line.along) * line.along;
      p.state = EdgeState::unsure, p.sigmaMm = std::max(p.sigmaMm, kCornerOffMm);
    }
    out.push_back(p);
  }
  if (out.size() > 1 && out[1].state == EdgeState::unsure) out.front().state = EdgeState::unsure;
  out.push_back(side.back());
  out.back().at = end;
  return out;
}

double endAt(const RoughSide& end, double y) {
  std::vector<Point> turned;
  for (const Point& p : end.line) turned.push_back({p.y, p.x});
  return interpolate(turned, y);
}

// A stretch that a sawn side spends on one side of its curve, clearly off it.
struct Excursion {
  size_t first = 0, end = 0;
  double farthestMm = 0;  // outward, negative for a dent
  bool jumps = false;     // it leaves the curve, or comes back, in a step
};

bool jumpsNear(const std::vector<double>& off, size_t at) {
  const size_t reach = size_t(kJumpWithinMm / kEdgeStepMm) / 2;
  const size_t from = at > reach ? at - reach : 0, to = std::min(at + reach, off.size() - 1);
  return std::abs(off[to] - off[from]) > kJumpMm;
}

std::vector<Excursion> excursions(const std::vector<double>& off) {
  std::vector<Excursion> all;
  for (size_t i = 0; i < off.size();) {
    Excursion e{i, i, 0};
    while (e.end < off.size() && std::abs(off[e.end]) > kOnCurveMm &&
           off[e.end] * off[e.first] > 0) {
      if (std::abs(off[e.end]) > std::abs(e.farthestMm)) e.farthestMm = off[e.end];
      ++e.end;
    }
    i = std::max(e.end, i + 1);
    if (e.end == e.first) continue;  // on the curve
    e.jumps = (e.first > 0 && jumpsNear(off, e.first)) ||
              (e.end < off.size() && jumpsNear(off, e.end - 1));
    if (std::abs(e.farthestMm) > kBulgeMm) all.push_back(e);
  }
  return all;
}

// Off the curve, outward positive.
std::vector<double> offCurve(const std::vector<EdgePoint>& side, const SideCurve& curve,
                             double outward) {
  std::vector<double> off;
  off.reserve(side.size());
  for (const EdgePoint& p : side) off.push_back(outward * (p.at.y - curve.at(p.at.x)));
  return off;
}

std::optional<SideCurve> curveOf(const std::vector<EdgePoint>& side) {
  std::vector<Point> line;
  line.reserve(side.size());
  for (const EdgePoint& p : side) line.push_back(p.at);
  return straightSide(line, kOnCurveMm);
}

// A sawn side against the curve that most of it follows. Where it lies outside and is in doubt, or
// got there in a step, it has run on along a shadow, the wall or a neighbour, and is brought back;
// so is a dent too short for wane, as at a knot or a check. A longer dent may be wane, and stays
// unless it is both in doubt and stepped, as along a crack. A short dent or bulge may be a chip as
// well as the ground: unsure.
void holdToCurve(std::vector<EdgePoint>& side, double outward) {
  const auto curve = curveOf(side);
  if (!curve) return doubtBeyondSteps(side);
  for (const Excursion& e : excursions(offCurve(side, *curve, outward))) {
    const auto first = side.begin() + std::ptrdiff_t(e.first),
               end = side.begin() + std::ptrdiff_t(e.end);
    const auto doubtful =
        std::count_if(first, end, [](const EdgePoint& p) { return p.state == EdgeState::unsure; });
    const bool inDoubt = 2 * doubtful > end - first;
    const double lengthMm = double(end - first) * kEdgeStepMm;
    const bool bringBack =
        e.farthestMm > 0 ? e.jumps || inDoubt : lengthMm < kShortestWaneMm || (e.jumps && inDoubt);
    for (auto p = first; p != end; ++p) {
      if (p->state == EdgeState::bridged) continue;
      if (bringBack) p->at.y = curve->at(p->at.x);
      if (bringBack || lengthMm < kLongestChipMm)
        p->state = EdgeState::unsure, p->sigmaMm = std::max(p->sigmaMm, kChipSigmaMm);
    }
  }
}

struct Sides {
  std::vector<EdgePoint> lower, right, upper, left;  // lower and upper by x, the ends by y
};

Sides refineAll(FaceViews& views, const RoughOutline& o) {
  const double leftX = endAt(o.left, 0), rightX = endAt(o.right, 0);
  const double ll = interpolate(o.lower.line, leftX), ul = interpolate(o.upper.line, leftX);
  const double lr = interpolate(o.lower.line, rightX), ur = interpolate(o.upper.line, rightX);
  Sides s;
  s.lower = refineSide(views, o, o.lower, endAt(o.left, ll), endAt(o.right, lr));
  s.upper = refineSide(views, o, o.upper, endAt(o.left, ul), endAt(o.right, ur));
  holdToCurve(s.lower, -1);
  holdToCurve(s.upper, 1);
  s.left = refineSide(views, o, o.left, ll, ul);
  s.right = refineSide(views, o, o.right, lr, ur);
  return s;
}

void append(std::vector<EdgePoint>& all, std::vector<EdgePoint> side, bool backwards) {
  if (backwards) {
    std::reverse(side.begin(), side.end());
    for (size_t i = 0; i + 1 < side.size(); ++i) side[i].state = side[i + 1].state;
  }
  side = simplified(side, kChordToleranceMm, kLongestChordMm);
  all.insert(all.end(), side.begin(), side.end() - 1);  // the next side begins with its corner
}

FoundOutline assemble(const RoughOutline& o, const Sides& s) {
  const Point ll = cornerOf(s.lower, true, s.left, true),
              lr = cornerOf(s.lower, false, s.right, true);
  const Point ur = cornerOf(s.upper, false, s.right, false),
              ul = cornerOf(s.upper, true, s.left, false);
  std::vector<EdgePoint> all;
  append(all, between(s.lower, ll, lr), false);
  append(all, between(s.right, lr, ur), false);
  append(all, between(s.upper, ul, ur), true);
  append(all, between(s.left, ll, ul), true);
  FoundOutline found;
  found.axisAngleRad = o.axis.planeFromAxis.angleRad;
  double length = 0;
  for (size_t i = 0; i < all.size(); ++i) {
    const double l = norm(all[(i + 1) % all.size()].at - all[i].at);
    length += l;
    (all[i].state == EdgeState::sure     ? found.sureShare
     : all[i].state == EdgeState::unsure ? found.unsureShare
                                         : found.bridgedShare) += l;
    found.vertices.push_back(
        {rackside::apply(o.axis.planeFromAxis, all[i].at), all[i].sigmaMm, all[i].state});
  }
  for (double* share : {&found.sureShare, &found.unsureShare, &found.bridgedShare})
    *share /= length;
  return found;
}

}  // namespace

Result<FoundOutline> findOutline(FaceViews& views) {
  auto guess = guessAxis(views);
  if (!guess) return guess.error();
  auto rough = roughOutline(views, *guess);
  if (!rough) return rough.error();
  return assemble(*rough, refineAll(views, *rough));
}

}  // namespace rackside
