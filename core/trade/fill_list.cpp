// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/fill_list.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/trade/fill_volume.h"
#include "core/trade/local_take_off.h"
#include "core/wood/clear_area.h"

namespace rackside {
namespace {

constexpr double kMm3PerMl = 1000;
// One standard deviation of a depth felt with a probe and of a border drawn on a picture (common
// practice, no source).
constexpr double kDepthSigmaMm = 0.5;
constexpr double kDepthSigmaShare = 0.1;
constexpr double kBorderSigmaMm = 0.5;
constexpr double kCover95 = 1.96;  // of a normal distribution (TN 1297, table of k)

bool isHollow(const Mark& m) {
  switch (traitsOf(m.kind).hollow) {
    case HollowWhen::never:
      return false;
    case HollowWhen::always:
    case HollowWhen::dugOut:
      return true;
    case HollowWhen::loose:
      return m.soundness == Soundness::loose;
    case HollowWhen::sound:
      return m.soundness == Soundness::sound && !m.live;
  }
  return false;
}

// Bark, and what is loose, is dug out.
bool isDugOut(const Mark& m) {
  return traitsOf(m.kind).hollow == HollowWhen::dugOut || m.soundness == Soundness::loose;
}

// The widest circle that the mouth holds, by how far it can shrink.
double mouthWidthMm(const Polygons& mouth) {
  double holds = 0, empty = std::sqrt(area(mouth)) + 0.01;
  while (empty - holds > 0.01) {
    const double middle = (holds + empty) / 2;
    (area(offset(mouth, -middle)) > 0 ? holds : empty) = middle;
  }
  return 2 * holds;
}

double perimeter(const Polygons& ps) {
  double sum = 0;
  for (const Polygon& p : ps)
    for (size_t i = 0; i < p.size(); ++i) sum += norm(p[(i + 1) % p.size()] - p[i]);
  return sum;
}

// Finer than a mark is drawn elsewhere: an ellipse's area within 0.2 % (of our own reckoning).
Polygons finePolygons(const MarkShape& shape) {
  constexpr double kCurveMm = 0.01;
  if (const auto* ellipse = std::get_if<Ellipse>(&shape))
    return {ellipsePolygon(*ellipse, kCurveMm)};
  return polygonsOf(shape);
}

Point middle(const Polygons& ps) {
  Point sum;
  double weight = 0;
  for (const Polygon& p : ps)
    for (size_t i = 0; i < p.size(); ++i) {
      const Point a = p[i], b = p[(i + 1) % p.size()];
      const double w = cross(a, b);
      sum = sum + (w / 3) * (a + b);
      weight += w;
    }
  return weight != 0 ? (1 / weight) * sum : sum;
}

// The hollow as it lies below the face: its depth, and the slab of it that the part keeps.
struct Hollow {
  FillProfile profile = FillProfile::bowl;
  bool profileSaid = false;
  double areaMm2 = 0;
  double perimeterMm = 0;
  double depthMm = 0;
  double topMm = 0;
  double bottomMm = 0;
  bool through = false;
};

double volumeMm3(const Hollow& h, FillProfile profile, double depthMm) {
  // Right through, its walls are taken as upright.
  if (h.through) return h.areaMm2 * (h.bottomMm - h.topMm);
  return hollowVolumeMm3(profile, h.areaMm2, depthMm, h.topMm, h.bottomMm);
}

Measured volumeMl(const Hollow& h) {
  const double volume = volumeMm3(h, h.profile, h.depthMm);
  const double border = volume * kBorderSigmaMm * h.perimeterMm / std::max(h.areaMm2, 1.0);
  double depth = 0, profile = 0;
  if (!h.through) {
    const double sigma = std::hypot(kDepthSigmaMm, kDepthSigmaShare * h.depthMm);
    depth = (volumeMm3(h, h.profile, h.depthMm + sigma) -
             volumeMm3(h, h.profile, std::max(h.depthMm - sigma, 0.0))) /
            2;
    // Anything from a wedge to upright walls: a rectangular spread of that width (GUM 4.3.7).
    if (!h.profileSaid)
      profile = (volumeMm3(h, FillProfile::straight, h.depthMm) -
                 volumeMm3(h, FillProfile::wedge, h.depthMm)) /
                (2 * std::sqrt(3.0));
  }
  const double u95 = kCover95 * std::hypot(border, depth, profile);
  return {volume / kMm3PerMl, u95 / kMm3PerMl, u95 / kMm3PerMl};
}

struct Placed {
  const Board& board;
  const Blank& blank;
  const Piece& piece;
  const FillHabits& habits;
};

Hollow hollowOf(const Placed& at, const Mark& mark, const FillSpot& spot) {
  const double wider = spot.dugOut ? at.habits.digOutMm : 0;
  const double takeOffFar =
      localTakeOffMm(at.board, at.blank, otherFace(spot.face), middle(spot.area));
  Hollow h;
  const std::optional<FillProfile> said = saidProfile(mark);
  h.profile = said.value_or(traitsOf(mark.kind).profile);
  h.profileSaid = said.has_value();
  h.areaMm2 = area(spot.area);
  h.perimeterMm = perimeter(spot.area);
  h.depthMm = mark.through ? at.board.thicknessMm : *mark.depthMm + wider;
  h.topMm = spot.takeOffHereMm;
  h.bottomMm = std::min(h.depthMm, h.topMm + at.blank.finishedThicknessMm);
  h.through = mark.through || h.depthMm >= at.board.thicknessMm - takeOffFar;
  if (h.through) h.bottomMm = h.topMm + at.blank.finishedThicknessMm;
  return h;
}

bool suits(const Filler& filler, const FillSpot& spot) {
  return spot.depthMm <= filler.greatestDepthMm && spot.widthMm >= filler.leastWidthMm &&
         (filler.greatestWidthMm <= 0 || spot.widthMm <= filler.greatestWidthMm);
}

void chooseFiller(const FillHabits& habits, FillSpot& spot) {
  spot.drop = spot.volumeMl.value < kDropMl;
  if (spot.drop) return;
  for (size_t i = 0; i < habits.fillers.size() && !spot.filler; ++i)
    if (suits(habits.fillers[i], spot)) spot.filler = i;
  if (spot.filler)
    spot.pours = static_cast<int>(
        std::ceil(spot.depthMm / habits.fillers[*spot.filler].greatestPourMm - 1e-9));
}

std::optional<FillSpot> spotOf(const Placed& at, const Mark& mark, Face face) {
  FillSpot spot;
  spot.dugOut = isDugOut(mark);
  Polygons shape = finePolygons(*mark.on(face));
  if (spot.dugOut) shape = offset(shape, at.habits.digOutMm);
  spot.area = intersect(shape, {at.piece.outline});
  if (area(spot.area) <= 0) return std::nullopt;
  spot.mark = mark.id;
  spot.board = at.board.id;
  spot.piece = at.piece.id;
  spot.part = at.piece.part;
  spot.copy = at.piece.copy;
  spot.face = face;
  spot.kind = mark.kind;
  spot.takeOffHereMm = localTakeOffMm(at.board, at.blank, face, middle(spot.area));
  spot.depthUnknown = !mark.through && !mark.depthMm;
  if (spot.depthUnknown) return spot;
  const Hollow hollow = hollowOf(at, mark, spot);
  spot.depthMm = hollow.bottomMm - hollow.topMm;
  if (spot.depthMm <= 0) return std::nullopt;
  spot.needsDam = hollow.through;
  spot.volumeMl = volumeMl(hollow);
  spot.widthMm = mouthWidthMm(spot.area);
  chooseFiller(at.habits, spot);
  return spot;
}

// A hole through both faces is filled once, from the face that shows.
Face fillFrom(const Piece& piece, const Mark& mark) {
  if (mark.through) return mark.on(piece.showFace) ? piece.showFace : otherFace(piece.showFace);
  if (mark.depthMm) return mark.on(mark.depthFrom) ? mark.depthFrom : otherFace(mark.depthFrom);
  return mark.on(piece.showFace) ? piece.showFace : otherFace(piece.showFace);
}

// Rounds of pouring of one filler, what each takes; a hole's volume is spread evenly over its
// pours, and the holes of one face are poured together before the work is turned.
struct Rounds {
  std::vector<double> ofFace[2];
};

FillerNeed needOf(size_t index, const Filler& filler, const Rounds& rounds) {
  FillerNeed need;
  need.filler = index;
  for (const std::vector<double>& face : rounds.ofFace)
    for (const double ml : face) {
      const double mixed = std::max(ml * (1 + filler.mixingLoss), filler.leastBatchMl);
      need.volumeMl += ml;
      need.mixedMl += mixed;
      if (filler.greatestBatchMl > 0)
        need.cups += static_cast<int>(std::ceil(mixed / filler.greatestBatchMl - 1e-9));
      ++need.pours;
    }
  need.turned = !rounds.ofFace[0].empty() && !rounds.ofFace[1].empty();
  need.massG = need.mixedMl * filler.densityGPerMl;
  // Before the work is turned a face has to be hard.
  const int gaps = need.pours - 1 - (need.turned ? 1 : 0);
  need.hours = gaps * filler.hoursBetweenPours + (need.turned ? 2 : 1) * filler.hoursBeforeNextStep;
  return need;
}

std::vector<FillerNeed> needsOf(const std::vector<FillSpot>& spots, const FillHabits& habits) {
  std::map<size_t, Rounds> byFiller;
  for (const FillSpot& spot : spots) {
    if (!spot.filler) continue;
    auto& rounds = byFiller[*spot.filler].ofFace[spot.face == Face::A ? 0 : 1];
    rounds.resize(std::max(rounds.size(), static_cast<size_t>(spot.pours)));
    for (int i = 0; i < spot.pours; ++i)
      rounds[static_cast<size_t>(i)] += spot.volumeMl.value / spot.pours;
  }
  std::vector<FillerNeed> needs;
  needs.reserve(byFiller.size());
  for (const auto& [index, rounds] : byFiller)
    needs.push_back(needOf(index, habits.fillers[index], rounds));
  return needs;
}

}  // namespace

FillList fillList(const Rack& rack, const Plan& plan, const FillHabits& habits) {
  FillList list;
  for (const Piece& piece : plan.pieces) {
    const Board* board = rack.findBoard(piece.board);
    const auto blank = std::find_if(plan.blanks.begin(), plan.blanks.end(),
                                    [&piece](const Blank& b) { return b.id == piece.blank; });
    if (!board || blank == plan.blanks.end()) continue;
    for (const Mark& mark : board->marks) {
      if (!counts(mark) || !isHollow(mark)) continue;
      const auto spot = spotOf({*board, *blank, piece, habits}, mark, fillFrom(piece, mark));
      if (spot) list.spots.push_back(*spot);
    }
  }
  list.needs = needsOf(list.spots, habits);
  list.drops = static_cast<int>(std::count_if(list.spots.begin(), list.spots.end(),
                                              [](const FillSpot& s) { return s.drop; }));
  return list;
}

}  // namespace rackside
