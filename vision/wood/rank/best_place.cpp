// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/best_place.h"

#include <algorithm>
#include <cmath>

#include "core/plan/milling.h"
#include "core/wood/clear_area.h"

namespace rackside {
namespace {

constexpr double kStepXMm = 16, kStepYMm = 6;  // of the first search
constexpr size_t kMostStarts = 6;              // places refined from it
constexpr double kFinestMm = 1;
constexpr double kLeastTurnRad = 0.004;  // 4 mm over a metre: not worth turning the part for
constexpr double kPerMark = 0.03;        // of the score, for each mark to fill or live with

struct Tried {
  Point corner;  // turned frame
  double score = 0;
};

Pose poseAt(const FreePlaces& places, Point corner) {
  return {places.boardFromTurned(corner), places.angleRad()};
}

// Along the axis, and along the grain where that differs and the part allows it.
std::vector<double> anglesFor(const Part& part, const FaceFigure& figure) {
  const double grain = figure.grainRad();
  const double most =
      part.grain == GrainRule::free ? 0.09 : std::min(0.09, part.grainToleranceDeg * CV_PI / 180);
  std::vector<double> angles{0};
  if (std::abs(grain) > kLeastTurnRad && std::abs(grain) <= most) angles.push_back(grain);
  return angles;
}

class Search {
 public:
  Search(const Part& part, Face face, const Wish& wish, const FaceFigure& figure,
         const FreePlaces& places)
      : part_(part), face_(face), wish_(wish), figure_(figure), places_(places) {}

  std::optional<Tried> best() const {
    std::vector<Tried> starts = coarse();
    std::optional<Tried> found;
    for (const Tried& start : starts) {
      const Tried better = refined(start);
      if (!found || better.score > found->score) found = better;
    }
    return found;
  }

 private:
  double scoreAt(Point corner) const {
    const PlaceReading place = figure_.under(poseAt(places_, corner), part_, face_);
    // What lay under a card nobody has seen: it counts as half as good as what shows.
    return fulfilment(wish_, place) * (0.5 + 0.5 * std::min(1.0, place.figure.woodShare));
  }
  // Calls visit(corner) on a grid of corners at which the part lies inside the wood's box.
  template <class Visit>
  void overBox(double stepX, double stepY, Visit visit) const {
    const Rect& box = places_.box();
    const int columns = int((box.width() - part_.lengthMm) / stepX);
    const int rows = int((box.height() - part_.widthMm) / stepY);
    for (int i = 0; i <= columns && box.width() >= part_.lengthMm; ++i)
      for (int j = 0; j <= rows && box.height() >= part_.widthMm; ++j)
        visit(Point{box.x0 + i * stepX, box.y0 + j * stepY});
  }
  std::vector<Tried> coarse() const {
    std::vector<Tried> all;
    const auto tryAt = [&](Point corner) {
      if (places_.mayLie(corner)) all.push_back({corner, scoreAt(corner)});
    };
    overBox(kStepXMm, kStepYMm, tryAt);
    // Where it only just fits, every cell is tried.
    if (all.empty()) overBox(FreePlaces::kCellMm, FreePlaces::kCellMm, tryAt);
    std::sort(all.begin(), all.end(),
              [](const Tried& a, const Tried& b) { return a.score > b.score; });
    // Starts near a better one climb to the same place.
    std::vector<Tried> starts;
    for (const Tried& t : all) {
      if (starts.size() == kMostStarts) break;
      if (std::none_of(starts.begin(), starts.end(), [&](const Tried& s) {
            return std::abs(s.corner.x - t.corner.x) < 2 * kStepXMm &&
                   std::abs(s.corner.y - t.corner.y) < 2 * kStepYMm;
          }))
        starts.push_back(t);
    }
    return starts;
  }
  Tried refined(Tried at) const {
    double step = kStepXMm / 2;
    while (step >= kFinestMm) {
      for (bool moved = true; moved;) {
        moved = false;
        for (const Point by : {Point{step, 0}, {-step, 0}, {0, step / 2}, {0, -step / 2}}) {
          const Point corner = at.corner + by;
          if (!places_.mayLie(corner)) continue;
          const double score = scoreAt(corner);
          if (score > at.score + 1e-9) at = {corner, score}, moved = true;
        }
      }
      step /= 2;
    }
    return at;
  }

  const Part& part_;
  Face face_;
  const Wish& wish_;
  const FaceFigure& figure_;
  const FreePlaces& places_;
};

Polygon outlineOn(const Part& part, Face face) {
  if (!part.outline) return rectangle({0, 0, part.lengthMm, part.widthMm});
  Polygon p = *part.outline;
  if (face == Face::B) {
    for (Point& q : p) q.y = part.widthMm - q.y;
    std::reverse(p.begin(), p.end());
  }
  return p;
}

std::string markWords(const Mark& mark, const MarkShape& shape) {
  const Polygons polygons = polygonsOf(shape);
  Rect box = polygons.empty() ? Rect{} : bounds(polygons.front());
  const int size = cvRound(std::max(box.width(), box.height()));
  const bool fill = mark.kind == MarkKind::holeToFill || mark.soundness == Soundness::loose;
  return "one " + std::string(name(mark.kind)) + " " + std::to_string(size) + " mm" +
         (fill ? " to fill" : "");
}

// Marks that the part is allowed to hold and does; what is planed away is not among them.
void addMarks(const Board& board, const Part& part, const Shop& shop, Placement& place) {
  const Face face = place.face;
  const PartSizes sizes = sizesOf(part, shop);
  const double takeOff = leastTakeOffMm(board, warpOf(board), shop, sizes.roughLengthMm,
                                        sizes.roughWidthMm, part.thicknessMm);
  for (const Mark& mark : board.marks) {
    if (!counts(mark) || mark.kind == MarkKind::favour || mark.kind == MarkKind::sapwood) continue;
    if (!mark.through && mark.depthMm && mark.depthFrom == face && *mark.depthMm <= takeOff)
      continue;
    const auto& shape = mark.on(face);
    if (!shape || intersect(polygonsOf(*shape), {place.outline}).empty()) continue;
    place.marks.push_back(mark.id);
    place.reasons.push_back(markWords(mark, *shape));
    place.score -= kPerMark;
  }
}

}  // namespace

FigureSums::Sum FaceFigure::over(const Pose& pose, const Rect& r) const {
  if (pose.angleRad == 0)
    return sums_.over(Rect{pose.origin.x + r.x0, pose.origin.y + r.y0, pose.origin.x + r.x1,
                           pose.origin.y + r.y1});
  return sums_.over(rackside::apply(pose, rectangle(r)), 60);
}

double FaceFigure::grainRad() const {
  const Rect all = maps_.area;
  return readingOf(sums_.over(all), all.width() * all.height()).grainRad;
}

PlaceReading FaceFigure::under(const Pose& pose, const Part& part, Face showFace) const {
  PlaceReading place;
  const double length = part.lengthMm, width = part.widthMm;
  if (part.outline) {
    const Polygon outline = rackside::apply(pose, outlineOn(part, showFace));
    place.figure = readingOf(sums_.over(outline), std::abs(signedArea(outline)));
  } else {
    place.figure = readingOf(over(pose, {0, 0, length, width}), length * width);
  }
  place.slopeRad = std::remainder(place.figure.grainRad - pose.angleRad, CV_PI);
  place.widthMm = width;
  readArches(pose, part, place);
  if (!maps_.sapwood.empty()) {
    const auto share = [&](double from, double to) {
      return readingOf(over(pose, {0, from * width, length, to * width}),
                       length * width * (to - from))
          .sapwoodShare;
    };
    place.sapNear = share(0, 0.15);
    place.sapFar = share(0.85, 1);
    place.sapMiddle = share(0.25, 0.75);
  }
  return place;
}

void FaceFigure::readArches(const Pose& pose, const Part& part, PlaceReading& place) const {
  if (maps_.arches.size() < 2) return;
  double sure = 0, sum = 0, square = 0;
  const double c = std::cos(pose.angleRad), s = std::sin(pose.angleRad);
  for (const ArchPoint& a : maps_.arches) {
    const double dx = a.x - pose.origin.x, dy = a.y - pose.origin.y;
    const double u = c * dx + s * dy, v = c * dy - s * dx;
    if (u < 0 || u > part.lengthMm || v < 0 || v > part.widthMm) continue;
    const double off = v - part.widthMm / 2;
    sure += a.sure;
    sum += a.sure * off;
    square += a.sure * off * off;
  }
  if (sure <= 0) return;
  place.archShare = std::min(1.0, sure * kArchStepMm / part.lengthMm);
  place.archOffMm = sum / sure;
  place.archOffRmsMm = std::sqrt(square / sure);
}

std::optional<Placement> bestPlace(const Board& board, const Part& part, const Shop& shop,
                                   Face face, const Wish& wish, const FaceFigure& figure) {
  std::optional<Placement> best;
  for (const double angle : anglesFor(part, figure)) {
    const FreePlaces places(board, part, shop, face, angle);
    const auto found = Search(part, face, wish, figure, places).best();
    if (!found || (best && found->score <= best->score)) continue;
    Placement p;
    p.board = board.id;
    p.face = face;
    p.boardFromPart = poseAt(places, found->corner);
    p.outline = rackside::apply(p.boardFromPart, outlineOn(part, face));
    p.score = found->score;
    best = std::move(p);
  }
  if (!best) return best;
  best->reading = figure.under(best->boardFromPart, part, face);
  best->reasons = reasons(wish, best->reading);
  const int hidden = cvRound(100 * (1 - best->reading.figure.woodShare));
  if (hidden >= 2)
    best->reasons.push_back(std::to_string(hidden) +
                            " % of it lay hidden under a card when it was photographed");
  addMarks(board, part, shop, *best);
  return best;
}

}  // namespace rackside
