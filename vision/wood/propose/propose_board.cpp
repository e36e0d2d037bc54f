// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/propose_board.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "core/wood/species.h"

namespace rackside {
namespace {

// A knot's axis leans at most about so far as it goes through (tangent): a branch may rise at 30°
// and more, but then its two ends are different knots to whoever cuts the board.
constexpr double kMostLean = 0.6;
constexpr double kMostSizes = 4;   // ratio of the areas of one knot's two ends
constexpr double kEndReachMm = 4;  // a check this near an end of the board is a split
constexpr double kLineStepMm = 8;
constexpr double kThreadMm = 3, kEndThreadMm = 6, kShortPithMm = 70;
constexpr double kTwinLineMm = 6;  // besides the registration, between a check's two lines

// Dark pockets are gum or pitch rather than bark; so they are taken while no wood is named.
bool softOrGummy(const std::string& species) {
  const Species* wood = speciesNamed(species);
  return species.empty() || (wood && wood->traits.gumOrPitch);
}

bool touchesEnd(const MarkShape& shape, const Board& board) {
  const Rect box = bounds(board.outline.polygon());
  for (const Polygon& p : polygonsOf(shape)) {
    const Rect own = bounds(p);
    if (own.x0 < box.x0 + kEndReachMm || own.x1 > box.x1 - kEndReachMm) return true;
  }
  return false;
}

struct Size {
  double lengthMm = 0, widthMm = 0;  // the mean width
};

Size sizeOf(const MarkShape& shape) {
  const Polygons ps = polygonsOf(shape);
  if (ps.empty()) return {};
  const Rect box = bounds(ps.front());
  const double length = std::max({box.width(), box.height(), 0.1});
  return {length, area(ps) / length};
}

// The middle of a long thin shape, as a line of its width.
MarkShape asLine(const MarkShape& shape) {
  if (std::holds_alternative<Stroke>(shape)) return shape;
  const Size size = sizeOf(shape);
  if (const auto* e = std::get_if<Ellipse>(&shape)) {
    const bool first = e->semiX > e->semiY;
    const double angle = e->angleRad + (first ? 0 : CV_PI / 2), half = std::max(e->semiX, e->semiY);
    const Point way{half * std::cos(angle), half * std::sin(angle)};
    return Stroke{{e->centre - way, e->centre + way}, size.widthMm};
  }
  // Along x in steps: the middle between the borders there.
  const Polygons ps = polygonsOf(shape);
  const Rect box = bounds(ps.front());
  const int steps = std::max(2, static_cast<int>(box.width() / kLineStepMm));
  Stroke out{{}, size.widthMm};
  for (int i = 0; i <= steps; ++i) {
    const double x = box.x0 + std::clamp(box.width() * i / steps, 0.1, box.width() - 0.1);
    const Polygons slice = intersect(ps, {rectangle({x - 0.1, box.y0 - 1, x + 0.1, box.y1 + 1})});
    if (slice.empty()) continue;
    const Rect s = bounds(slice.front());
    out.points.push_back({x, (s.y0 + s.y1) / 2});
  }
  return out.points.size() < 2 ? shape : MarkShape(out);
}

// The judge learned on frames of 56 mm. On a whole board pith runs on for long, a dark thread is a
// check, at the end of the board too when it is not quite so thin, and a short dark patch is a
// pocket of gum or bark.
RegionKind onWholeBoard(RegionKind kind, const MarkShape& shape, const Board& board) {
  if (kind != RegionKind::pith && kind != RegionKind::gum) return kind;
  const Size size = sizeOf(shape);
  const bool thread = size.widthMm < (touchesEnd(shape, board) ? kEndThreadMm : kThreadMm);
  if (thread && size.lengthMm > 6 * size.widthMm) return RegionKind::crack;
  return size.lengthMm < kShortPithMm ? RegionKind::gum : kind;
}

void name(Mark& m, RegionKind kind, const MarkShape& shape, const Board& board) {
  switch (kind) {
    case RegionKind::liveKnot:
      m.kind = MarkKind::knot;
      m.soundness = Soundness::sound;
      break;
    case RegionKind::deadKnot:
      m.kind = MarkKind::knot;
      m.soundness = Soundness::loose;
      break;
    case RegionKind::crackedKnot:
      m.kind = MarkKind::knot;
      m.note = kCheckedKnotNote;
      break;
    case RegionKind::crack:
      m.kind = touchesEnd(shape, board) ? MarkKind::split : MarkKind::check;
      break;
    case RegionKind::gum:
      m.kind = softOrGummy(board.species) ? MarkKind::gum : MarkKind::barkPocket;
      break;
    case RegionKind::pith:
      m.kind = MarkKind::pith;
      break;
    case RegionKind::hole:
      m.kind = MarkKind::holeToFill;
      break;
    case RegionKind::barkPocket:
      m.kind = MarkKind::barkPocket;
      break;
    case RegionKind::wormHole:
      m.kind = MarkKind::wormHoles;
      break;
    case RegionKind::streak:
      m.kind = MarkKind::stain;
      m.note = kStreakNote;
      break;
    default:
      m.kind = MarkKind::stain;
  }
}

RegionFamily familyOf(const Mark& m) {
  switch (m.kind) {
    case MarkKind::check:
    case MarkKind::split:
      return RegionFamily::crack;
    case MarkKind::gum:
      return RegionFamily::gum;
    case MarkKind::pith:
      return RegionFamily::pith;
    case MarkKind::stain:
      return m.note == kStreakNote ? RegionFamily::streak : RegionFamily::stain;
    default:
      return RegionFamily::round;
  }
}

bool isLine(const Mark& m) {
  return m.kind == MarkKind::check || m.kind == MarkKind::split;
}
bool isRound(const Mark& m) {
  return m.kind == MarkKind::knot || m.kind == MarkKind::holeToFill ||
         m.kind == MarkKind::barkPocket || m.kind == MarkKind::pith;
}

Point middleOf(const MarkShape& shape) {
  if (const auto* e = std::get_if<Ellipse>(&shape)) return e->centre;
  const Polygons ps = polygonsOf(shape);
  const Rect b = ps.empty() ? Rect{} : bounds(ps.front());
  return {(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
}

bool roundTwins(const MarkShape& a, const MarkShape& b, double slackMm, double thicknessMm) {
  const double areaA = area(polygonsOf(a)), areaB = area(polygonsOf(b));
  if (areaA > kMostSizes * areaB || areaB > kMostSizes * areaA) return false;
  const double own = std::sqrt(std::min(areaA, areaB) / CV_PI);
  // A small knot's neighbour is not its other end: it may lean by its own size at most.
  const double lean = std::min(kMostLean * thicknessMm, 2 * own);
  return norm(middleOf(a) - middleOf(b)) <= slackMm + lean;
}

bool lineTwins(const MarkShape& a, const MarkShape& b, double slackMm) {
  const auto* la = std::get_if<Stroke>(&a);
  const auto* lb = std::get_if<Stroke>(&b);
  if (!la || !lb) return false;
  const Polygons wideA = strokePolygons({la->points, 2 * (slackMm + kTwinLineMm)}),
                 thinB = strokePolygons({lb->points, 1});
  return area(intersect(wideA, thinB)) > 0.5 * area(thinB);
}

bool twins(const Mark& a, const Mark& b, const Board& board) {
  const double slack = board.faceB ? board.faceB->u95Mm : 0;
  if (isLine(a) && isLine(b))
    return lineTwins(*a.onA, *b.onB, slack) || lineTwins(*b.onB, *a.onA, slack);
  return isRound(a) && isRound(b) && roundTwins(*a.onA, *b.onB, slack, board.thicknessMm);
}

// Of two readings of one thing the graver.
void join(Mark& a, const Mark& b) {
  a.onB = b.onB;
  a.through = true;
  const bool hole = a.kind == MarkKind::holeToFill || b.kind == MarkKind::holeToFill;
  if (a.kind != b.kind && b.confidence > a.confidence) a.kind = b.kind;
  if (isRound(a) && hole) a.kind = MarkKind::holeToFill;
  const bool loose = a.soundness == Soundness::loose || b.soundness == Soundness::loose;
  a.soundness = a.kind != MarkKind::knot ? Soundness::unknown
                : loose                  ? Soundness::loose
                                         : a.soundness;
  a.confidence = 1 - (1 - a.confidence) * (1 - b.confidence);
}

void surestFirst(std::vector<Mark>& marks) {
  std::stable_sort(marks.begin(), marks.end(),
                   [](const Mark& a, const Mark& b) { return a.confidence > b.confidence; });
}

}  // namespace

std::vector<Mark> marksFrom(const std::vector<ProposedMark>& proposed, const BoardFace& face,
                            const Board& board, Face side) {
  std::vector<Mark> marks;
  for (const ProposedMark& p : proposed) {
    Mark m;
    m.id.text = newIdText("mk");
    m.author = MarkAuthor::proposal;
    m.confirmed = false;
    m.confidence = std::clamp(std::round(p.confidence * 1000) / 1000, 0.0, 1.0);
    m.depthFrom = side;
    MarkShape shape = carried(p.shape, face.boardFromPicture);
    const RegionKind kind = onWholeBoard(p.kind, shape, board);
    if (kind == RegionKind::crack) shape = asLine(shape);
    name(m, kind, shape, board);
    m.on(side) = shape;
    if (validate(m)) marks.push_back(std::move(m));
  }
  return marks;
}

std::vector<Mark> joinFaces(std::vector<Mark> onA, std::vector<Mark> onB, const Board& board,
                            const MarkModel& model) {
  std::vector<uint8_t> joined(onB.size());
  for (Mark& a : onA) {
    size_t best = onB.size();
    for (size_t i = 0; i < onB.size(); ++i)
      if (!joined[i] && twins(a, onB[i], board) &&
          (best == onB.size() || norm(middleOf(*onB[i].onB) - middleOf(*a.onA)) <
                                     norm(middleOf(*onB[best].onB) - middleOf(*a.onA))))
        best = i;
    if (best == onB.size()) continue;
    joined[best] = 1;
    join(a, onB[best]);
  }
  for (size_t i = 0; i < onB.size(); ++i)
    if (!joined[i]) onA.push_back(std::move(onB[i]));
  const auto tooDoubtful = [&](const Mark& m) {
    return m.confidence < model.least[static_cast<size_t>(familyOf(m))];
  };
  onA.erase(std::remove_if(onA.begin(), onA.end(), tooDoubtful), onA.end());
  surestFirst(onA);
  return onA;
}

}  // namespace rackside
