// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/sound_cuts.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/plan/blank_growth.h"
#include "core/plan/blank_remarks.h"
#include "core/plan/cut_tree.h"
#include "core/plan/idle_cuts.h"
#include "core/plan/slice.h"
#include "core/wood/clear_area.h"

namespace rackside {
namespace {

constexpr double kNearEndMm = 0.5;
constexpr double kOnEdgeMm = 0.01;

// A piece of wood: what a cut leaves on one side; the whole board without one.
struct Side {
  std::optional<CutId> cut;
  bool left = true;
  bool operator<(const Side& o) const {
    return std::pair(cut ? cut->text : "", left) < std::pair(o.cut ? o.cut->text : "", o.left);
  }
};

// One board's cuts, gone through from the whole board down to its blanks.
class BoardCuts {
 public:
  BoardCuts(const PlanRequest& request, const Board& board, Plan& plan)
      : request_(request), rules_(sawRules(request.shop)), board_(board), plan_(plan) {
    for (Cut& cut : plan.cuts)
      if (cut.board == board.id) below_[{cut.parent, cut.leftOfParent}] = &cut;
    for (Blank& blank : plan.blanks)
      if (blank.board == board.id) held_[sideOf(blank)] = &blank;
    metal_ = barredToCuts(board, request.shop);
  }

  void makeSound() { walk({}, board_.outline.polygon()); }
  const std::set<CutId>& leftOut() const { return leftOut_; }
  const std::set<BlankId>& lost() const { return lost_; }
  const std::map<BlankId, Polygon>& woodOf() const { return woodOf_; }

 private:
  struct Parted {
    Polygon left, right;
    const Polygon& on(bool leftSide) const { return leftSide ? left : right; }
  };

  Side sideOf(const Blank& blank) const {
    for (const Cut& cut : plan_.cuts)
      if (cut.id == blank.lastCut) {
        const Polygon rough = blank.roughOutline();
        return {cut.id, isLeftOf(cut.line, 0.5 * (rough[0] + rough[2]))};
      }
    return {};
  }

  Cut* dividing(const Side& side) const {
    const auto found = below_.find(side);
    return found == below_.end() ? nullptr : found->second;
  }
  Blank* heldOn(const Side& side) const {
    const auto found = held_.find(side);
    return found == held_.end() ? nullptr : found->second;
  }
  bool isWaste(const Side& side) const { return !dividing(side) && !heldOn(side); }

  static Parted parted(const Cut& cut, const Polygon& wood) {
    const Segment beyond = borderOf(cut, false);
    return {leftPart(wood, cut.line), leftPart(wood, {beyond.to, beyond.from})};
  }

  void walk(const Side& side, const Polygon& wood) {
    Cut* cut = dividing(side);
    if (!cut) {
      if (const Blank* blank = heldOn(side)) woodOf_[blank->id] = wood;
      return;
    }
    if (!cut->made) {
      refit(*cut, wood);
      if (judge(*cut, side, wood)) return walk(side, wood);
    }
    const Parted parts = parted(*cut, wood);
    walk({cut->id, true}, parts.left);
    walk({cut->id, false}, parts.right);
  }

  // The line from border to border of its wood; of a first rip how far in it lies.
  void refit(Cut& cut, const Polygon& wood) const {
    cut.line = chordOf(wood, cut.line);
    if (!cut.firstRip) return;
    cut.offsetAtFromMm = inFromNearEdge(wood, cut.line, cut.line.from);
    cut.offsetAtToMm = inFromNearEdge(wood, cut.line, cut.line.to);
  }
  static double inFromNearEdge(const Polygon& wood, const Segment& line, Point at) {
    const double inwards = at.x < middleOf(line).x ? kNearEndMm : -kNearEndMm;
    const Segment upright = chordOf(wood, {{at.x + inwards, at.y - 1}, {at.x + inwards, at.y}});
    return at.y - upright.from.y;
  }

  // True when the cut was left out; then what was below it divides this wood.
  bool judge(Cut& cut, const Side& side, const Polygon& wood) {
    const bool leftWaste = isWaste({cut.id, true}), rightWaste = isWaste({cut.id, false});
    if (leftWaste == rightWaste) return false;
    if (cut.firstRip) cut.kerfMm = request_.shop.firstRipKerfMm;  // were it sawn
    const Parted parts = parted(cut, wood);
    const Slice slice = sliceBeside(chordOf(wood, borderOf(cut, leftWaste)), parts.on(leftWaste));
    if (cut.kind == CutKind::rip && cut.firstRip) {
      if (slice.leastMm < rules_.leastRipInMm) cut.kerfMm = 0;
      cut.label = isJointed(cut) ? "joint this edge" : "first rip, on the laid line";
      return false;
    }
    const bool sound = isSound(cut, slice, parts.on(leftWaste));
    if (sound && !mayStayOn(cut, side, wood, slice, leftWaste)) return false;
    if (leaveOut(cut, side, wood, leftWaste)) return true;
    if (!sound) lose({cut.id, !leftWaste});
    return false;
  }

  bool isSound(const Cut& cut, const Slice& slice, const Polygon& waste) const {
    if (cut.kind == CutKind::rip) return mayBeRipped(slice, rules_);
    return mayBeCrosscut(slice, rules_) || isRoughEnd(cut, waste);
  }

  // Is this surplus that may as well come off last?
  bool mayStayOn(const Cut& cut, const Side& side, const Polygon& wood, const Slice& slice,
                 bool leftWaste) const {
    const Parted parts = parted(cut, wood);
    if (cut.kind == CutKind::trim)
      return endsOneBlank(side) ? mayStayOnTrim(cut, side, wood)
                                : mayStayOnEnd(cut, parts, leftWaste);
    if (cut.kind == CutKind::rip)
      return slice.greatestMm < rules_.mostSurplusWidthMm && isRoughEdge(cut, parts.on(leftWaste));
    return mayStayOnEnd(cut, parts, leftWaste);
  }

  // Does the slice go out to the edge that the board has from the log?
  bool isRoughEdge(const Cut& cut, const Polygon& waste) const {
    const Polygon outline = board_.outline.polygon();
    const Point d = cut.line.to - cut.line.from;
    const auto farthest = std::max_element(waste.begin(), waste.end(), [&](Point a, Point b) {
      return std::abs(cross(d, a - cut.line.from)) < std::abs(cross(d, b - cut.line.from));
    });
    return farthest != waste.end() && distanceToBorder(outline, *farthest) < kOnEdgeMm;
  }

  // A rough end is trimmed however short the shop's trim is.
  bool isRoughEnd(const Cut& cut, const Polygon& waste) const {
    if (cut.kind != CutKind::crosscut || waste.size() < 3) return false;
    const Rect all = bounds(board_.outline.polygon()), box = bounds(waste);
    return (!board_.leftEndSawn && box.x0 < all.x0 + kNearEndMm) ||
           (!board_.rightEndSawn && box.x1 > all.x1 - kNearEndMm);
  }

  struct Trims {
    std::vector<const Cut*> cuts;
    const Blank* blank = nullptr;
  };
  Trims trimsFrom(const Side& side) const;
  bool endsOneBlank(const Side& side) const { return trimsFrom(side).blank; }
  bool mayStayOnTrim(const Cut& cut, const Side& side, const Polygon& wood) const;
  bool mayStayOnEnd(const Cut& cut, const Parted& parts, bool leftWaste) const;
  bool leaveOut(Cut& cut, const Side& side, const Polygon& wood, bool leftWaste);
  bool meetsMetal(const Side& side, const Polygon& wood) const;
  bool faces(const Side& side, const Polygon& wood, bool left, double moreMm) const;
  void lose(const Side& side);

  const PlanRequest& request_;
  const SawRules rules_;
  const Board& board_;
  Plan& plan_;
  Polygons metal_;
  std::map<Side, Cut*> below_;
  std::map<Side, Blank*> held_;
  std::set<CutId> leftOut_;
  std::set<BlankId> lost_;
  std::map<BlankId, Polygon> woodOf_;
};

// The trims that follow one another down to a blank, and that blank; none when other blanks lie
// beyond one of them.
BoardCuts::Trims BoardCuts::trimsFrom(const Side& side) const {
  Trims trims;
  Side at = side;
  for (const Cut* next = dividing(at); next && next->kind == CutKind::trim && !next->made;
       next = dividing(at)) {
    const bool left = isWaste({next->id, true});
    if (left == isWaste({next->id, false})) return {};
    trims.cuts.push_back(next);
    at = {next->id, !left};
  }
  trims.blank = heldOn(at);
  return trims;
}

// Of a blank's trims as few as leave less surplus on than the shop's: none, the one that takes
// more, or both.
bool BoardCuts::mayStayOnTrim(const Cut& cut, const Side& side, const Polygon& wood) const {
  const Trims trims = trimsFrom(side);
  const Overhang over = overhangOf(*trims.blank, wood);
  if (over.alongMm() < rules_.mostSurplusLengthMm) return true;
  if (trims.cuts.size() < 2) return false;
  const double less = std::min(over.beforeMm, over.afterMm);
  if (less >= rules_.mostSurplusLengthMm) return false;
  const Polygon rough = trims.blank->roughOutline();
  const Point start = 0.5 * (rough[0] + rough[3]), end = 0.5 * (rough[1] + rough[2]);
  const Point here = middleOf(cut.line);
  const bool atStart = norm(here - start) < norm(here - end);
  return atStart == (over.beforeMm < over.afterMm);
}

// Waste between two sections, or at a sawn end, that every blank beside it may keep.
bool BoardCuts::mayStayOnEnd(const Cut& cut, const Parted& parts, bool leftWaste) const {
  const Polygon& waste = parts.on(leftWaste);
  if (waste.size() < 3 || isRoughEnd(cut, waste)) return false;
  const Rect box = bounds(waste);
  const double moreMm = box.width() + cut.kerfMm;
  if (moreMm >= rules_.mostSurplusLengthMm) return false;
  const bool wasteIsBefore = box.x0 < bounds(parts.on(!leftWaste)).x0;
  return faces({cut.id, !leftWaste}, parts.on(!leftWaste), wasteIsBefore, moreMm);
}

// May the blanks that face this end of the wood (its left one, or its right) all keep so much more?
bool BoardCuts::faces(const Side& side, const Polygon& wood, bool left, double moreMm) const {
  const Cut* cut = dividing(side);
  if (!cut) {
    const Blank* blank = heldOn(side);
    return !blank || overhangOf(*blank, wood).alongMm() + moreMm < rules_.mostSurplusLengthMm;
  }
  const Parted parts = parted(*cut, wood);
  if (!isCrosswise(*cut))
    return faces({cut->id, true}, parts.left, left, moreMm) &&
           faces({cut->id, false}, parts.right, left, moreMm);
  const bool leftIsBefore = bounds(parts.left).x0 < bounds(parts.right).x0;
  const bool facing = leftIsBefore == left;
  return faces({cut->id, facing}, parts.on(facing), left, moreMm);
}

// What the cut kept takes its place below the wood that it divided.
bool BoardCuts::leaveOut(Cut& cut, const Side& side, const Polygon& wood, bool leftWaste) {
  const Side kept{cut.id, !leftWaste};
  Cut* next = dividing(kept);
  Blank* blank = heldOn(kept);
  if (blank && !side.cut) return false;
  if (next && next->made) return false;
  if (!metal_.empty() && meetsMetal(kept, wood)) return false;
  below_.erase(side), below_.erase(kept), held_.erase(kept);
  if (next) {
    next->parent = side.cut, next->leftOfParent = side.left;
    below_[side] = next;
  } else if (blank) {
    blank->lastCut = *side.cut;
    held_[side] = blank;
  }
  leftOut_.insert(cut.id);
  return true;
}

// Would a cut below meet metal when it divides this wood?
bool BoardCuts::meetsMetal(const Side& side, const Polygon& wood) const {
  const Cut* cut = dividing(side);
  if (!cut) return false;
  Cut longer = *cut;
  longer.line = chordOf(wood, cut->line);
  const Segment beyond = borderOf(longer, false);
  const Polygon band{longer.line.from, beyond.from, beyond.to, longer.line.to};
  if (!intersect(metal_, {band}).empty()) return true;
  const Parted parts = parted(longer, wood);
  return meetsMetal({cut->id, true}, parts.left) || meetsMetal({cut->id, false}, parts.right);
}

void BoardCuts::lose(const Side& side) {
  if (const Blank* blank = heldOn(side)) lost_.insert(blank->id);
  if (const Cut* cut = dividing(side)) lose({cut->id, true}), lose({cut->id, false});
}

void grow(const PlanRequest& request, const Board& board, const std::map<BlankId, Polygon>& wood,
          Plan& plan) {
  const BlankGrowth growth(request, board);
  for (Blank& blank : plan.blanks) {
    const auto found = wood.find(blank.id);
    if (found == wood.end()) continue;
    growth.grow(blank, found->second);
    for (const Piece& piece : plan.pieces)
      if (piece.blank == blank.id)
        for (const Part& part : request.parts)
          if (part.id == piece.part) blank.remarks = remarksOn(blank, board, part, request.shop);
  }
}

// True when pieces were lost: then what is left is to be gone through once more.
bool makeSound(const PlanRequest& request, const Board& board, Plan& plan) {
  BoardCuts cuts(request, board, plan);
  cuts.makeSound();
  std::set<PieceId> lost;
  for (const Piece& piece : plan.pieces)
    if (cuts.lost().count(piece.blank)) lost.insert(piece.id);
  const auto wood = cuts.woodOf();
  const std::set<CutId> out = cuts.leftOut();
  std::erase_if(plan.cuts, [&](const Cut& cut) { return out.count(cut.id) > 0; });
  settleCuts(plan, {board.id});
  if (lost.empty()) grow(request, board, wood, plan);
  takeOut(lost, plan);
  return !lost.empty();
}

// Once a crosscut between two rips has gone, the lower one goes by the edge of the upper.
void nameRips(const Shop& shop, Plan& plan) {
  std::map<CutId, const Cut*> byId;
  for (const Cut& cut : plan.cuts) byId[cut.id] = &cut;
  for (Cut& cut : plan.cuts)
    if (cut.firstRip && !cut.made && cut.parent && byId.at(*cut.parent)->kind == CutKind::rip) {
      cut.firstRip = false;
      cut.kerfMm = std::max(cut.kerfMm, shop.ripKerfMm);
      cut.label.clear();
    }
}

}  // namespace

// Cuts left out may make others idle, and the other way round: each time there are fewer.
void makeCutsSound(const PlanRequest& request, Plan& plan) {
  takeOutIdleCuts(plan);
  nameRips(request.shop, plan);
  size_t before = 0;
  do {
    before = plan.cuts.size();
    std::set<BoardId> cut;
    for (const Cut& c : plan.cuts) cut.insert(c.board);
    for (const Board& board : request.boards)
      if (cut.count(board.id))
        while (makeSound(request, board, plan)) {
        }
    takeOutIdleCuts(plan);
    nameRips(request.shop, plan);
  } while (plan.cuts.size() < before);
}

}  // namespace rackside
