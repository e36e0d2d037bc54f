// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/board_map.h"

#include <algorithm>
#include <cmath>

#include "core/plan/drying.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

// Of what is read for bounds: curves are drawn as polygons, and the checker forgives so much.
constexpr double kMarkSlackMm = 0.25, kEdgeSlackMm = 0.05;
// … and a blank this much smaller, or as much too thick.
constexpr double kSizeSlackMm = 0.05, kThicknessSlackMm = 1e-3, kDepthSlackMm = 2e-6;

bool sameOnBothFaces(const Part& part) {
  return part.look == Look::any && part.show == part.back;
}

}  // namespace

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
  std::vector<double> pinnedAngles;
  for (const PinnedSection& s : pins) {
    if (s.board != board.id) continue;
    pinned_.push_back({s.x0, s.x1 + job.shop.crosscutKerfMm});
    pinnedAngles.push_back(s.angleRad);
  }
  rips_ = ripDirections(board.outline, pinnedAngles);
  directions_.resize(rips_.all.size());
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
int BoardMap::permissionOf(const BlankKind& kind, const Part& part, double takeOffMm) {
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
  const double dryingShare = dryingOf(*board_, job.shop).acrossShare;
  for (auto& ofKind : permissionOfKind_) ofKind.assign(job.kinds.size(), -1);
  for (size_t k = 0; k < job.kinds.size(); ++k) {
    const BlankKind& kind = job.kinds[k];
    if (kind.dryingShare != dryingShare) continue;
    const Part& part = job.parts[kind.part];
    if (!woodServes(part.species, board_->species, job.shop.ownSpecies)) continue;
    if (!unseenFaceReason(part, *board_, kind.showFace).empty()) continue;
    if (kind.showFace == Face::B && sameOnBothFaces(part) && lookedAt(*board_, Face::A)) continue;
    for (const Reading reading : {Reading::forPlans, Reading::forBounds}) {
      // A blank may be longer than it need be, by a column.
      const bool plans = reading == Reading::forPlans;
      const double length = kind.roughLengthMm + (plans ? job.cellMm : -kSizeSlackMm);
      const double width = kind.roughWidthMm - (plans ? 0 : kSizeSlackMm);
      const double thickness = part.thicknessMm - (plans ? 0 : kThicknessSlackMm);
      if (!thickEnough(*board_, warp_, job.shop, length, width, thickness)) continue;
      const double takeOff = leastTakeOffMm(*board_, warp_, job.shop, length, width, thickness) +
                             (plans ? 0 : kDepthSlackMm);
      const auto index = static_cast<int>(reading);
      permissionOfKind_[index][k] = permissionOf(kind, part, takeOff);
      kindsHere_[index].push_back(static_cast<int>(k));
    }
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

Interval BoardMap::reachAcross(int direction) const {
  Interval reach{1e9, -1e9};
  for (const Polygon& p : usable_)
    for (const Point q : p) {
      const double across = acrossRip(q, angleRad(direction));
      reach = {std::min(reach.lo, across), std::max(reach.hi, across)};
    }
  return reach;
}

const BoardMap::Direction& BoardMap::lookAlong(int direction) const {
  auto& found = directions_[direction];
  if (found) return *found;
  found = std::make_unique<Direction>();
  Direction& d = *found;
  const double angle = angleRad(direction);
  d.outside = tracksOutside(usable_, angle, grid_);
  d.metal = tracksAcross(metal_, angle, grid_);
  d.byReach.reserve(reach_.size());  // byPermission points into it
  for (const MarkReach& r : reach_) d.byReach.push_back(tracksAcross(r.reach, angle, grid_));
  for (const Permission& barred : permissions_) {
    std::vector<const Track*> tracks;
    for (size_t i = 0; i < reach_.size(); ++i)
      if (barred[i])
        for (const Track& t : d.byReach[i]) tracks.push_back(&t);
    d.byPermission.push_back(std::move(tracks));
  }
  return d;
}

Intervals BoardMap::bottoms(int kind, int direction, int column, const Footprint& f) const {
  Intervals out;
  const int last = grid_.count - 1;
  if (column + f.steps > grid_.count) return out;
  bottomsOver(kind, direction, {column + f.coverFirst, std::min(last, column + f.coverLast)},
              {column + f.clearFirst, std::min(last, column + f.clearLast)}, {f.widthMm, f.sideMm},
              out);
  return out;
}

void BoardMap::bottomsOver(int kind, int direction, Columns cover, Columns clear,
                           const Across& across, Intervals& out) const {
  static thread_local Intervals blocked, inside, free;  // kept for their memory alone
  const Direction& d = lookAlong(direction);
  const bool forBounds = across.reading == Reading::forBounds;
  Lean lean = across.lean;
  blocked.clear(), inside.clear(), free.clear();
  lean.slackMm = forBounds ? kEdgeSlackMm : 0;
  addOver(d.outside, cover.from, cover.to, lean, blocked);
  gapsFor(blocked, across.widthMm, 0, inside);
  if (inside.empty()) return;
  blocked.clear();
  lean.slackMm = forBounds ? kMarkSlackMm : 0;
  const int permission = permissionOfKind_[static_cast<int>(across.reading)][kind];
  addOver(d.byPermission[permission], clear.from, clear.to, lean, blocked);
  gapsFor(blocked, across.widthMm, across.sideMm, free);
  addIntersection(inside, free, out);
}

Intervals BoardMap::metalOver(int direction, int from, int to, const Lean& lean) const {
  Intervals all;
  addOver(lookAlong(direction).metal, from, std::min(to, grid_.count - 1), lean, all);
  return all;
}

}  // namespace rackside
