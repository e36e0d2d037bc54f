// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_map.h"

#include <algorithm>
#include <cmath>

#include "core/plan/drying.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

constexpr double kLeastAngleStepRad = 0.0035;  // 0.2°: 3.5 mm over a metre
constexpr double kGreatestAngleRad = 0.09;     // 5°: steeper than grain is wanted anywhere

Interval chordAt(const Polygon& p, double x) {
  Interval chord{1e9, -1e9};
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    if ((a.x <= x) == (b.x <= x)) continue;
    const double y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    chord = {std::min(chord.lo, y), std::max(chord.hi, y)};
  }
  return chord;
}

bool sameOnBothFaces(const Part& part) {
  return part.look == Look::any && part.show == part.back;
}

}  // namespace

std::vector<double> ripAngles(const Outline& outline) {
  const Polygon p = outline.polygon();
  const Rect box = bounds(p);
  const auto at = [&](double share) { return box.x0 + share * box.width(); };
  std::vector<double> angles{0};
  const auto offer = [&](double from, double to, double Interval::*edge) {
    const double rise = chordAt(p, at(to)).*edge - chordAt(p, at(from)).*edge;
    const double angle = std::atan2(rise, at(to) - at(from));
    const auto near = [&](double a) { return std::abs(a - angle) < kLeastAngleStepRad; };
    if (std::abs(angle) <= kGreatestAngleRad && std::none_of(angles.begin(), angles.end(), near))
      angles.push_back(angle);
  };
  if (box.width() <= 0) return angles;
  for (const auto& [from, to] : {std::pair{0.08, 0.92}, {0.08, 0.5}, {0.5, 0.92}}) {
    offer(from, to, &Interval::lo);
    offer(from, to, &Interval::hi);
  }
  return angles;
}

BoardMap::BoardMap(const Board& board, const Job& job, const std::vector<PinnedSection>& pins)
    : board_(&board), warp_(warpOf(board)), usable_(usableWood(board.outline)) {
  const Rect box = bounds(board.outline.polygon());
  const EndTrims trims = endTrims(board, job.shop);
  grid_.first = box.x0 + trims.leftMm;
  grid_.width = job.cellMm;
  const double usableLength = box.width() - trims.leftMm - trims.rightMm;
  grid_.count =
      std::max(0, static_cast<int>((usableLength + job.shop.crosscutKerfMm) / job.cellMm));
  findReaches(job.shop);
  findKinds(job);
  findCrosscuts(job.shop.crosscutKerfMm);
  std::vector<double> angles = ripAngles(board.outline);
  for (const PinnedSection& s : pins) {
    if (s.board != board.id) continue;
    pinned_.push_back({s.x0, s.x1 + job.shop.crosscutKerfMm});
    if (std::find(angles.begin(), angles.end(), s.angleRad) == angles.end())
      angles.push_back(s.angleRad);
  }
  for (const double angle : angles) addDirection(angle);
}

double BoardMap::pinnedUpTo() const {
  double x = -1e9;
  for (const Interval& i : pinned_) x = std::max(x, i.hi);
  return x;
}

bool BoardMap::freeOfPins(int from, int to, Reading reading) const {
  const double slack = reading == Reading::forBounds ? grid_.width : 0.001;
  const auto meets = [&](const Interval& pin) {
    return columnX(to) > pin.lo + 0.001 && columnX(from) + slack < pin.hi;
  };
  return std::none_of(pinned_.begin(), pinned_.end(), meets);
}

void BoardMap::findReaches(const Shop& shop) {
  metal_ = barredToCuts(*board_, shop);
  for (size_t m = 0; m < board_->marks.size(); ++m) {
    const Mark& mark = board_->marks[m];
    if (!counts(mark)) continue;
    for (const Face face : {Face::A, Face::B})
      if (reaches(*board_, mark, face))
        reach_.push_back({static_cast<int>(m), face, reachOf(*board_, mark, face, shop)});
  }
}

// Marks shallower than what is milled off are gone.
int BoardMap::permissionOf(const BlankKind& kind, const Part& part, const Shop& shop) {
  const double takeOffMm = leastTakeOffMm(*board_, warp_, shop, kind.roughLengthMm + grid_.width,
                                          kind.roughWidthMm, part.thicknessMm);
  Permission p;
  for (const MarkReach& r : reach_)
    p.push_back(bars(*board_, board_->marks[r.mark], r.face, allowsOn(part, kind.showFace, r.face),
                     takeOffMm)
                    ? 1
                    : 0);
  const auto found = std::find(permissions_.begin(), permissions_.end(), p);
  if (found != permissions_.end()) return static_cast<int>(found - permissions_.begin());
  permissions_.push_back(std::move(p));
  return static_cast<int>(permissions_.size()) - 1;
}

void BoardMap::findKinds(const Job& job) {
  permissionOfKind_.assign(job.kinds.size(), -1);
  const double dryingShare = dryingOf(*board_, job.shop).acrossShare;
  for (size_t k = 0; k < job.kinds.size(); ++k) {
    const BlankKind& kind = job.kinds[k];
    if (kind.dryingShare != dryingShare) continue;
    const Part& part = job.parts[kind.part];
    if (!woodServes(part.species, board_->species, job.shop.ownSpecies)) continue;
    if (!unseenFaceReason(part, *board_, kind.showFace).empty()) continue;
    if (kind.showFace == Face::B && sameOnBothFaces(part) && lookedAt(*board_, Face::A)) continue;
    const double longest = kind.roughLengthMm + job.cellMm;
    if (!thickEnough(*board_, warp_, job.shop, longest, kind.roughWidthMm, part.thicknessMm))
      continue;
    permissionOfKind_[k] = permissionOf(kind, part, job.shop);
    kindsHere_.push_back(static_cast<int>(k));
  }
}

void BoardMap::findCrosscuts(double kerfMm) {
  crosscutBarred_.assign(grid_.count + 1, 0);
  for (const Polygon& p : metal_) {
    const Rect box = bounds(p);
    for (int c = 0; c <= grid_.count; ++c) {
      const double x = columnX(c);
      if (x > box.x0 && x - kerfMm < box.x1) crosscutBarred_[c] = 1;
    }
  }
}

void BoardMap::addDirection(double angleRad) {
  Direction d;
  d.angleRad = angleRad;
  d.reach = {1e9, -1e9};
  for (const Polygon& p : usable_)
    for (const Point q : p) {
      const double across = acrossRip(q, angleRad);
      d.reach = {std::min(d.reach.lo, across), std::max(d.reach.hi, across)};
    }
  d.outside = tracksOutside(usable_, angleRad, grid_);
  d.metal = tracksAcross(metal_, angleRad, grid_);
  d.byReach.reserve(reach_.size());  // byPermission points into it
  for (const MarkReach& r : reach_) d.byReach.push_back(tracksAcross(r.reach, angleRad, grid_));
  for (const Permission& barred : permissions_) {
    std::vector<const Track*> tracks;
    for (size_t i = 0; i < reach_.size(); ++i)
      if (barred[i])
        for (const Track& t : d.byReach[i]) tracks.push_back(&t);
    d.byPermission.push_back(std::move(tracks));
  }
  directions_.push_back(std::move(d));
}

Intervals BoardMap::bottoms(int kind, int direction, int column, const Footprint& f) const {
  Intervals out;
  const int last = grid_.count - 1;
  if (column + f.steps > grid_.count) return out;
  bottomsOver(kind, direction, {column + f.coverFirst, std::min(last, column + f.coverLast)},
              {column + f.clearFirst, std::min(last, column + f.clearLast)}, f.widthMm, f.sideMm,
              out);
  return out;
}

void BoardMap::bottomsOver(int kind, int direction, Columns cover, Columns clear, double widthMm,
                           double sideMm, Intervals& out) const {
  static thread_local Intervals blocked, inside, free;  // kept for their memory alone
  const Direction& d = directions_[direction];
  blocked.clear(), inside.clear(), free.clear();
  addOver(d.outside, cover.from, cover.to, blocked);
  gapsFor(blocked, widthMm, 0, inside);
  if (inside.empty()) return;
  blocked.clear();
  addOver(d.byPermission[permissionOfKind_[kind]], clear.from, clear.to, blocked);
  gapsFor(blocked, widthMm, sideMm, free);
  addIntersection(inside, free, out);
}

Intervals BoardMap::metalOver(int direction, int from, int to) const {
  Intervals all;
  addOver(directions_[direction].metal, from, std::min(to, grid_.count - 1), all);
  return all;
}

}  // namespace rackside
