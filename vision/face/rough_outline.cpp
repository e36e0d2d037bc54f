// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/rough_outline.h"

#include <algorithm>
#include <numeric>
#include <optional>

#include "vision/face/end_support.h"
#include "vision/face/face_beyond.h"
#include "vision/face/straight_side.h"

namespace rackside {
namespace {

constexpr double kHalfWidthMm = 460;  // widest board looked for, from its middle
constexpr double kSeedHalfMm = 10;    // about the middle strip
constexpr double kAxisToleranceRad = 0.002;
constexpr double kSidesAlike = 0.02;    // difference of slope: taper and noise
constexpr double kLeastAlike = 0.05;    // slope of a side against the axis, at most
constexpr double kBeyondCardsMm = 150;  // for the first search of the sides
constexpr double kEndRoomMm = 12;       // past the ends, for the second search of the sides
// Ground is learned this far out; nearer it may be sapwood that was taken for ground, or the wall.
constexpr double kGroundFromMm = 45, kGroundToMm = 220;
constexpr double kEndUnknownMm = 40;
constexpr double kCoreShare = 0.5;  // of the way from the middle to a side: surely face
constexpr double kBulgeMm = 3.5;
constexpr int kStride = 4;
constexpr int kBeyondEndFrom = 4, kBeyondEndTo = 40;  // cells past an end
constexpr double kWoodBeyondEnd = 0.5;

struct Span {
  double from = 0, to = 0;
};

Span spanOf(const std::vector<Point>& middle) {
  return {middle.front().x, middle.back().x};
}

template <class Choose>  // choose(x, y) → +1 wood, -1 ground, 0 neither
WoodModel learn(const AxisFace& axis, Choose choose) {
  std::vector<WoodSample> wood, ground;
  for (int j = 0; j < axis.lab.rows; j += kStride)
    for (int i = 0; i < axis.lab.cols; i += kStride) {
      if (!axis.face.usable.at<uchar>(j, i)) continue;
      const int what = choose(axis.region.x0 + (i + 0.5) * kCellFineMm,
                              axis.region.y0 + (j + 0.5) * kCellFineMm);
      if (what)
        (what > 0 ? wood : ground)
            .push_back({axis.lab.at<cv::Vec3b>(j, i), axis.texture.at<cv::Vec2b>(j, i)});
    }
  return WoodModel(wood, ground);
}

WoodModel firstModel(const AxisFace& axis, const AxisGuess& guess) {
  const Span span = spanOf(guess.middle);
  const double far = 0.55 * std::min(axis.region.y1, -axis.region.y0);
  return learn(axis, [&](double x, double y) {
    const double off = std::abs(y - interpolate(guess.middle, x));
    if (off < kSeedHalfMm && x > span.from - 200 && x < span.to + 200) return 1;
    return off > far ? -1 : 0;
  });
}

WoodModel secondModel(const RoughOutline& o) {
  const double left = o.left.line.front().x, right = o.right.line.front().x;
  return learn(o.axis, [&](double x, double y) {
    const double lower = interpolate(o.lower.line, x), upper = interpolate(o.upper.line, x);
    const double inside = std::min({y - lower, upper - y, x - left, right - x});
    // The last stretch may be a shadow taken for wood; it holds no wood that the rest does not.
    if (inside > 5) return std::min(x - left, right - x) > kEndUnknownMm ? 1 : 0;
    return inside < -kGroundFromMm && inside > -kGroundToMm ? -1 : 0;
  });
}

// Face about the middle line, well inside; ground well outside both sides.
RoughnessModel learnRoughness(const RoughOutline& o, const AxisGuess& guess) {
  std::vector<cv::Vec3f> face, beyond;
  const double left = o.left.line.front().x, right = o.right.line.front().x;
  for (int j = 0; j < o.axis.lab.rows; j += kStride)
    for (int i = 0; i < o.axis.lab.cols; i += kStride) {
      const double x = o.axis.region.x0 + (i + 0.5) * kCellFineMm,
                   y = o.axis.region.y0 + (j + 0.5) * kCellFineMm;
      if (!o.axis.face.usable.at<uchar>(j, i) || x < left || x > right) continue;
      const double lower = interpolate(o.lower.line, x), upper = interpolate(o.upper.line, x),
                   middle = interpolate(guess.middle, x);
      const cv::Vec3f& changes = o.axis.changes.at<cv::Vec3f>(j, i);
      if (y > middle - kCoreShare * (middle - lower) && y < middle + kCoreShare * (upper - middle))
        face.push_back(changes);
      const double outside = std::max(lower - y, y - upper);
      if (outside > kGroundFromMm && outside < kGroundToMm) beyond.push_back(changes);
    }
  return {face, beyond};
}

struct Models {
  WoodModel wood;
  RoughnessModel roughness{{}, {}};
};

RoughSide search(const AxisFace& axis, const SideWindow& window, const Models& model) {
  RoughSide out;
  out.side = window.side;
  const Boundary found = findBoundary(boundaryProblem(axis, window, model.wood, model.roughness));
  out.columns = found.columns, out.sawn = found.sawn;
  out.line = boundaryLine(axis, window, out.columns);
  return out;
}

RoughSide searchLong(const AxisFace& axis, Side side, Span along, const std::vector<Point>& middle,
                     const std::vector<Point>& corners, const Models& model) {
  SideWindow w{side, along.from, along.to, middle.front().y, middle, corners};
  for (const Point& p : middle)
    w.innermost = side == Side::upper ? std::min(w.innermost, p.y) : std::max(w.innermost, p.y);
  return search(axis, w, model);
}

// Ends are looked for from the outermost card outwards, between the two sides.
RoughSide searchEnd(const RoughOutline& o, Side side, const AxisGuess& guess, double endX,
                    const Models& model) {
  const Span span = spanOf(guess.middle);
  SideWindow w;
  w.side = side;
  w.innermost = side == Side::left ? span.from : span.to;
  w.from = interpolate(o.lower.line, endX) + 1;
  w.to = interpolate(o.upper.line, endX) - 1;
  if (w.to - w.from < 30) {  // a narrow board, or sides found wrong: at least a few cells
    const double mid = (w.from + w.to) / 2;
    w.from = mid - 15, w.to = mid + 15;
  }
  w.middle = {{w.from, w.innermost}, {w.to, w.innermost}};
  return search(o.axis, w, model);
}

double medianX(const RoughSide& side) {
  std::vector<double> x;
  for (const Point& p : side.line) x.push_back(p.x);
  std::nth_element(x.begin(), x.begin() + std::ptrdiff_t(x.size() / 2), x.end());
  return x[x.size() / 2];
}

// Slope of a side over `span`, by pairs half the span apart: a few wild columns do no harm.
std::optional<double> slopeOf(const RoughSide& side, Span span) {
  std::vector<Point> line;
  for (const Point& p : side.line)
    if (p.x > span.from && p.x < span.to) line.push_back(p);
  if (line.size() < 8) return std::nullopt;
  std::vector<double> slopes;
  for (size_t i = 0, half = line.size() / 2; i + half < line.size(); ++i)
    slopes.push_back((line[i + half].y - line[i].y) / (line[i + half].x - line[i].x));
  std::nth_element(slopes.begin(), slopes.begin() + std::ptrdiff_t(slopes.size() / 2),
                   slopes.end());
  return slopes[slopes.size() / 2];
}

// The turn that lays the board along x; where the two sides do not run alike, one of them is not
// yet a side of the board, and the grain's direction stands.
double turnLeft(const RoughOutline& o, Span span) {
  const auto lower = slopeOf(o.lower, span), upper = slopeOf(o.upper, span);
  if (!lower || !upper || std::abs(*lower - *upper) > kSidesAlike) return 0;
  return std::atan((*lower + *upper) / 2);
}

AxisGuess turnedBy(const AxisGuess& guess, double angle) {
  AxisGuess out = guess;
  out.planeFromAxis.angleRad += angle;
  const double c = std::cos(angle), s = std::sin(angle);
  for (Point& p : out.middle) p = {c * p.x + s * p.y, -s * p.x + c * p.y};
  return out;
}

double slopeBetween(Point a, Point b) {
  return (b.y - a.y) / (b.x - a.x);
}

struct Corners {  // by what the ends show
  std::vector<Point> lower, upper;
};

Corners cornersOf(const RoughOutline& o, const AxisGuess& guess) {
  Corners corners;
  for (const RoughSide* end : {&o.left, &o.right}) {
    const double coreY = end == &o.left ? guess.middle.front().y : guess.middle.back().y;
    if (const auto span = endSpan(o.axis, *end, coreY)) {
      corners.lower.push_back({medianX(*end), span->lower});
      corners.upper.push_back({medianX(*end), span->upper});
    }
  }
  for (std::vector<Point>* side : {&corners.lower, &corners.upper})
    if (side->size() == 2 && std::abs(slopeBetween((*side)[0], (*side)[1])) > kLeastAlike)
      side->clear();  // no board tapers so much: one of the ends ran on into a neighbour
  return corners;
}

void searchLongSides(RoughOutline& o, const AxisGuess& guess, Span along, const Corners& corners,
                     const Models& model) {
  cv::parallel_for_({0, 2}, [&](const cv::Range& range) {
    for (int i = range.start; i < range.end; ++i)
      (i ? o.upper : o.lower) = searchLong(o.axis, i ? Side::upper : Side::lower, along,
                                           guess.middle, i ? corners.upper : corners.lower, model);
  });
}

void searchEnds(RoughOutline& o, const AxisGuess& guess, Span ends, const Models& model) {
  cv::parallel_for_({0, 2}, [&](const cv::Range& range) {
    for (int i = range.start; i < range.end; ++i)
      (i ? o.right : o.left) =
          searchEnd(o, i ? Side::right : Side::left, guess, i ? ends.to : ends.from, model);
  });
}

void searchAgain(RoughOutline& o, const AxisGuess& guess) {
  const Models model{secondModel(o), learnRoughness(o, guess)};
  const Span ends{medianX(o.left), medianX(o.right)};
  const Corners corners = cornersOf(o, guess);
  searchLongSides(o, guess, {ends.from - kEndRoomMm, ends.to + kEndRoomMm}, corners, model);
  searchEnds(o, guess, ends, model);
}

// Where sapwood was taken for ground, the side is moved out and all is learned and searched anew.
bool moveWhereFaceGoesOn(RoughOutline& o, const AxisGuess& guess) {
  const RoughnessModel model = learnRoughness(o, guess);
  bool moved = false;
  for (RoughSide* side : {&o.lower, &o.upper})
    if (faceGoesOn(o.axis, *side, model)) moveToEndOfFace(o.axis, model, *side), moved = true;
  return moved;
}

// Where it still goes on, the side is no more than a guess.
void doubtWhereFaceGoesOn(RoughOutline& o, const AxisGuess& guess) {
  const RoughnessModel model = learnRoughness(o, guess);
  for (RoughSide* side : {&o.lower, &o.upper})
    if (faceGoesOn(o.axis, *side, model)) side->sawn = OneCurve::doubtful;
}

// A sawn side that bulges outward over a stretch has run on along a shadow, bark or a neighbour:
// there it is brought back to the curve of the rest, and left unsure.
void pullIn(RoughSide& side) {
  if (side.sawn == OneCurve::no) return;
  const double outward = side.side == Side::upper ? 1 : -1;
  const auto curve = straightSide(side.line);
  if (!curve) return;
  for (size_t i = 0; i < side.line.size(); ++i) {
    Point& p = side.line[i];
    if (side.columns[i].hidden || outward * (p.y - curve->at(p.x)) < kBulgeMm) continue;
    p.y = curve->at(p.x);
    side.columns[i].margin = 0;
  }
}

double shareAtPictureEdge(const RoughSide& side) {
  double n = 0;
  for (const BoundaryColumn& c : side.columns) n += c.atPictureEdge;
  return n / double(std::max<size_t>(1, side.columns.size()));
}

// Whether what was taken for an end has wood beyond it: the true one lies outside the picture.
// (Mean evidence was above 1.5 at such ends of the sample photographs, below -0.7 at true ones.)
bool woodGoesOn(const RoughOutline& o, const RoughSide& end, const WoodModel& model) {
  const double outward = end.side == Side::right ? 1 : -1;
  double sum = 0, seen = 0;
  for (const Point& p : end.line)
    for (int k = kBeyondEndFrom; k < kBeyondEndTo; ++k) {
      const int row = std::clamp(o.axis.row(p.y), 0, o.axis.lab.rows - 1),
                column = o.axis.column(p.x + outward * k * kCellFineMm);
      if (column < 0 || column >= o.axis.lab.cols || !o.axis.face.usable.at<uchar>(row, column))
        continue;
      const WoodSample sample{o.axis.lab.at<cv::Vec3b>(row, column),
                              o.axis.texture.at<cv::Vec2b>(row, column)};
      sum += double(model.evidence(sample)), ++seen;
    }
  return sum > kWoodBeyondEnd * seen;
}

Status allInPicture(const RoughOutline& o) {
  const auto fails = [](const std::string& what) {
    return Error{"The board runs out of the picture at its " + what +
                 ". Take the photograph again from farther away, or take several overlapping ones "
                 "along the board."};
  };
  const WoodModel model = secondModel(o);
  if (shareAtPictureEdge(o.left) > 0.3 || woodGoesOn(o, o.left, model))
    return fails("left end (as the cards lie)");
  if (shareAtPictureEdge(o.right) > 0.3 || woodGoesOn(o, o.right, model))
    return fails("right end (as the cards lie)");
  if (shareAtPictureEdge(o.lower) > 0.1) return fails("lower edge");
  if (shareAtPictureEdge(o.upper) > 0.1) return fails("upper edge");
  return success();
}

}  // namespace

Result<RoughOutline> roughOutline(FaceViews& views, const AxisGuess& firstGuess) {
  AxisGuess guess = firstGuess;
  RoughOutline o;
  const double halfWidth = kHalfWidthMm;
  o.axis = axisFace(views, guess.planeFromAxis, halfWidth);
  Span cards = spanOf(guess.middle);
  Models first{firstModel(o.axis, guess)};
  searchLongSides(o, guess, {cards.from - kBeyondCardsMm, cards.to + kBeyondCardsMm}, {}, first);
  const double turn = turnLeft(o, {cards.from - 100, cards.to + 100});
  if (std::abs(turn) > kAxisToleranceRad) {
    guess = turnedBy(guess, turn);
    cards = spanOf(guess.middle);
    o.axis = axisFace(views, guess.planeFromAxis, halfWidth);
    first.wood = firstModel(o.axis, guess);
    searchLongSides(o, guess, {cards.from - kBeyondCardsMm, cards.to + kBeyondCardsMm}, {}, first);
  }
  searchEnds(o, guess, cards, first);
  for (int pass = 0; pass < 2; ++pass) searchAgain(o, guess);
  if (moveWhereFaceGoesOn(o, guess))
    for (int pass = 0; pass < 2; ++pass) searchAgain(o, guess);
  doubtWhereFaceGoesOn(o, guess);
  if (const Status in = allInPicture(o); !in) return in.error();
  pullIn(o.lower);
  pullIn(o.upper);
  return o;
}

}  // namespace rackside
