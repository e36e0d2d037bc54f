// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/with_gangs.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/plan/checker.h"
#include "core/plan/gangs.h"
#include "core/plan/plan_run.h"
#include "core/plan/score.h"
#include "core/plan/worth.h"

namespace rackside {
namespace {

constexpr double kFirstRound = 0.7;  // of the time; then without gangs that found no place

const Part& partOf(const PlanRequest& request, const PartId& id) {
  return *std::find_if(request.parts.begin(), request.parts.end(),
                       [&](const Part& p) { return p.id == id; });
}

// A request in which each gang is one part, and the way back.
class Ganged {
 public:
  Ganged(const PlanRequest& request, const std::vector<WantedPanel>& panels,
         const std::vector<Gang>& dissolved)
      : request_(request) {
    for (const WantedPanel& panel : panels)
      for (const auto& way : panel.ways)
        strips_.insert(request.parts[static_cast<size_t>(way.part)].id);
    own_ = request;
    if (request.current) takeGangsOfCurrent();
    formGangs(dissolved);
    shareCopies();
    for (const Kept& k : gangs_)
      own_.parts.push_back(wholeOf(k.gang, request.parts, k.id, k.copies));
    if (request.current) own_.current = &current_;
  }

  bool any() const { return !gangs_.empty(); }
  const PlanRequest& request() const { return own_; }

  // Gangs of which a copy is in no plan.
  std::vector<Gang> unplacedIn(const Plan& plan) const {
    std::vector<Gang> all;
    for (const Kept& k : gangs_)
      if (std::any_of(plan.unplaced.begin(), plan.unplaced.end(),
                      [&](const Unplaced& u) { return u.part == k.id; }))
        all.push_back(k.gang);
    return all;
  }

  // The plan in the parts that were asked for.
  Plan apart(Plan plan, const PlanWeights& weights) const {
    std::map<PartId, std::vector<int>> left = copiesFor(plan);
    std::vector<Piece> pieces;
    for (const Piece& piece : plan.pieces) addApart(piece, weights, left, pieces);
    plan.pieces = std::move(pieces);
    tellUnplaced(plan);
    giveScore(request_, weights, plan);
    plan.bound = std::max(plan.bound, plan.value);
    plan.gridBound = std::max(plan.gridBound, plan.value);
    if (any())
      plan.remarks.emplace_back(
          "Parts too small to machine alone were ganged; the bound is for these gangs.");
    remarkOnSafeSizes(request_.shop, plan);
    return plan;
  }

 private:
  struct Kept {
    Gang gang;
    PartId id;
    int copies = 0;
  };

  Kept& kept(const Gang& gang) {
    for (Kept& k : gangs_)
      if (k.gang == gang) return k;
    gangs_.push_back({gang, {"gang-" + std::to_string(gangs_.size() + 1)}, 0});
    return gangs_.back();
  }
  const Kept* findKept(const PartId& id) const {
    for (const Kept& k : gangs_)
      if (k.id == id) return &k;
    return nullptr;
  }

  // Each gang of the current plan becomes one piece with the id of its first.
  void takeGangsOfCurrent() {
    current_ = *request_.current;
    std::map<BlankId, std::vector<const Piece*>> held;
    for (const Piece& p : request_.current->pieces) held[p.blank].push_back(&p);
    current_.pieces.clear();
    for (const Blank& blank : request_.current->blanks) {
      const auto& pieces = held[blank.id];
      const std::optional<Gang> gang = pieces.empty() ? std::nullopt : gangIn(blank, pieces);
      if (!gang || !areWanted(pieces)) {
        for (const Piece* p : pieces) current_.pieces.push_back(*p), alone_.insert(copyOf(*p));
        continue;
      }
      Kept& k = kept(*gang);
      Piece whole = *pieces[0];
      whole.part = k.id;
      whole.copy = ++k.copies;
      whole.lengthMm = gang->lengthMm();
      whole.widthMm = gang->widthMm();
      whole.outline = spanOf(blank, pieces, *gang);
      whole.angleRad = blank.boardFromBlank.angleRad;
      whole.worth = 0;
      for (const Piece* p : pieces) {
        whole.worth += p->worth;
        ganged_.insert(copyOf(*p));
        originals_[whole.id].push_back(*p);
        if (std::count(own_.pinned.begin(), own_.pinned.end(), p->id) == 0) continue;
        std::erase(own_.pinned, p->id);
        if (std::count(own_.pinned.begin(), own_.pinned.end(), whole.id) == 0)
          own_.pinned.push_back(whole.id);
      }
      current_.pieces.push_back(std::move(whole));
    }
  }

  bool areWanted(const std::vector<const Piece*>& pieces) const {
    return std::all_of(pieces.begin(), pieces.end(), [&](const Piece* piece) {
      return std::any_of(request_.parts.begin(), request_.parts.end(), [&](const Part& p) {
        return p.id == piece->part && piece->copy <= p.copies;
      });
    });
  }

  // The gang's rectangle where its pieces lie, board frame, its lower left corner first.
  static Polygon spanOf(const Blank& blank, const std::vector<const Piece*>& pieces,
                        const Gang& gang) {
    const double sine = std::sin(blank.boardFromBlank.angleRad);
    const double cosine = std::cos(blank.boardFromBlank.angleRad);
    double along = 1e300, across = 1e300;
    for (const Piece* piece : pieces)
      for (const Point q : piece->outline) {
        along = std::min(along, q.x * cosine + q.y * sine);
        across = std::min(across, q.y * cosine - q.x * sine);
      }
    const Pose boardFromGang{{along * cosine - across * sine, along * sine + across * cosine},
                             blank.boardFromBlank.angleRad};
    return rackside::apply(boardFromGang, rectangle({0, 0, gang.lengthMm(), gang.widthMm()}));
  }

  void formGangs(const std::vector<Gang>& dissolved) {
    std::vector<int> free;
    free.reserve(request_.parts.size());
    for (const Part& part : request_.parts) {
      int n = 0;
      for (int copy = 1; copy <= part.copies && !strips_.count(part.id); ++copy)
        n += !alone_.count({part.id, copy}) && !ganged_.count({part.id, copy}) ? 1 : 0;
      free.push_back(n);
    }
    for (const Gang& gang : gangsFor(request_.parts, free, request_.shop)) {
      if (std::find(dissolved.begin(), dissolved.end(), gang) != dissolved.end()) continue;
      ++kept(gang).copies;
      for (const GangMember& m : gang.members) ++newlyGanged_[m.part];
    }
  }

  // Of each part: copies for new gangs, and those left to lie alone.
  void shareCopies() {
    std::vector<Part> parts;
    for (Part part : request_.parts) {
      int forGangs = newlyGanged_[part.id];
      std::vector<int>& alone = aloneCopies_[part.id];
      for (int copy = part.copies; copy >= 1; --copy) {
        if (ganged_.count({part.id, copy})) continue;
        if (forGangs > 0 && !alone_.count({part.id, copy})) {
          freeForGangs_[part.id].insert(freeForGangs_[part.id].begin(), copy);
          --forGangs;
        } else {
          alone.insert(alone.begin(), copy);
        }
      }
      // A part that is wholly ganged keeps its place in the list, which panels count by.
      part.copies = static_cast<int>(alone.size());
      parts.push_back(std::move(part));
    }
    own_.parts = std::move(parts);
    for (Piece& piece : current_.pieces)
      if (const auto found = aloneCopies_.find(piece.part); found != aloneCopies_.end())
        if (const auto at = std::find(found->second.begin(), found->second.end(), piece.copy);
            at != found->second.end())
          piece.copy = static_cast<int>(at - found->second.begin()) + 1;
  }

  // Copies for the gangs that are new, or lie elsewhere than in the current plan.
  std::map<PartId, std::vector<int>> copiesFor(const Plan& plan) const {
    std::map<PartId, std::vector<int>> left = freeForGangs_;
    for (const auto& [id, pieces] : originals_) {
      const PieceId& whole = id;
      if (std::any_of(plan.pieces.begin(), plan.pieces.end(),
                      [&](const Piece& p) { return p.id == whole; }))
        continue;
      for (const Piece& p : pieces) left[p.part].push_back(p.copy);
    }
    return left;
  }

  void addApart(const Piece& piece, const PlanWeights& weights,
                std::map<PartId, std::vector<int>>& left, std::vector<Piece>& out) const {
    const Kept* k = findKept(piece.part);
    if (!k) {
      out.push_back(piece);
      out.back().copy = aloneCopies_.at(piece.part)[static_cast<size_t>(piece.copy) - 1];
      return;
    }
    if (const auto was = originals_.find(piece.id); was != originals_.end()) {
      out.insert(out.end(), was->second.begin(), was->second.end());
      return;
    }
    const Pose boardFromGang{piece.outline[0], piece.angleRad};
    for (size_t i = 0; i < k->gang.members.size(); ++i) {
      const GangMember& m = k->gang.members[i];
      const Part& part = partOf(request_, m.part);
      Piece one = piece;
      if (i > 0) one.id.text += "-" + std::to_string(i + 1);
      one.part = m.part;
      one.copy = left[m.part].front();
      left[m.part].erase(left[m.part].begin());
      one.lengthMm = part.lengthMm;
      one.widthMm = part.widthMm;
      one.outline = rackside::apply(
          boardFromGang, rectangle({m.at.x, m.at.y, m.at.x + m.lengthMm, m.at.y + m.widthMm}));
      const Point centre = 0.5 * (one.outline[0] + one.outline[2]);
      one.worth = pieceWorth(part, lookMap(request_.worth, one.board, one.showFace, part.look),
                             weights.look,
                             {centre.x - part.lengthMm / 2, centre.y - part.widthMm / 2,
                              centre.x + part.lengthMm / 2, centre.y + part.widthMm / 2});
      out.push_back(std::move(one));
    }
  }

  void tellUnplaced(Plan& plan) const {
    const std::vector<Unplaced> reasons = std::move(plan.unplaced);
    plan.unplaced.clear();
    std::set<std::pair<PartId, int>> placed;
    for (const Piece& p : plan.pieces) placed.insert(copyOf(p));
    for (const Part& part : request_.parts)
      for (int copy = 1; copy <= part.copies; ++copy) {
        if (placed.count({part.id, copy})) continue;
        Unplaced u = reasonFor(part.id, reasons);
        u.part = part.id;
        u.copy = copy;
        plan.unplaced.push_back(std::move(u));
      }
  }

  Unplaced reasonFor(const PartId& part, const std::vector<Unplaced>& reasons) const {
    Unplaced of;
    of.why = "no place found so far";
    for (const Unplaced& reason : reasons) {
      if (reason.part == part) return reason;
      const Kept* k = findKept(reason.part);
      if (k && std::any_of(k->gang.members.begin(), k->gang.members.end(),
                           [&](const GangMember& m) { return m.part == part; })) {
        of = reason;
        of.why = "the gang it is milled in found no place: " + reason.why;
      }
    }
    return of;
  }

  static std::pair<PartId, int> copyOf(const Piece& p) { return {p.part, p.copy}; }

  const PlanRequest& request_;
  PlanRequest own_;
  Plan current_;  // with a piece a gang
  std::vector<Kept> gangs_;
  std::set<std::pair<PartId, int>> alone_, ganged_;  // copies in the current plan
  std::set<PartId> strips_;                          // of panels
  std::map<PartId, int> newlyGanged_;
  std::map<PartId, std::vector<int>> freeForGangs_, aloneCopies_;  // ascending
  std::map<PieceId, std::vector<Piece>> originals_;                // by the gang's piece
};

Result<std::vector<Plan>> runOnce(const PlanRequest& request, const PlanOptions& options,
                                  const PlanChoice& choice, const std::vector<WantedPanel>& panels,
                                  RunControl& control) {
  Result<std::vector<PinnedSection>> pins = pinnedSections(request);
  if (!pins) return pins.error();
  try {
    return PlanRun(request, options, choice, std::move(pins).value(), panels, control).make();
  } catch (const RefusedPlan& refused) {
    // Where a pin holds a piece is the maker's choice, so its fault is no programmer's.
    if (request.pinned.empty()) throw;
    return pinError(refused);
  }
}

// Places more, and of as much uses less wood.
bool isBetter(const Plan& a, const Plan& b, PlanGoal goal) {
  if (goal == PlanGoal::leastStock && a.pieces.size() == b.pieces.size())
    return a.stockMm2 < b.stockMm2;
  return goal == PlanGoal::leastStock ? a.pieces.size() > b.pieces.size() : a.value > b.value;
}

Result<std::vector<Plan>> runGanged(const PlanRequest& request, const Ganged& ganged,
                                    const PlanOptions& options, const PlanChoice& choice,
                                    const std::vector<WantedPanel>& panels, RunControl& control,
                                    std::vector<Gang>& unplaced) {
  PlanOptions own = options;
  if (options.onBetter)
    own.onBetter = [&](const Plan& better) {
      options.onBetter(ganged.apart(better, options.weights));
    };
  Result<std::vector<Plan>> plans = runOnce(ganged.request(), own, choice, panels, control);
  if (!plans) return plans;
  unplaced = ganged.unplacedIn(plans->front());
  for (Plan& plan : plans.value()) {
    plan = ganged.apart(std::move(plan), options.weights);
    if (const auto breaches = checkPlan(request, plan); !breaches.empty())
      throw RefusedPlan(breaches[0].message + " (" + breaches[0].rule + ")");
  }
  return plans;
}

}  // namespace

Result<std::vector<Plan>> planWithGangs(const PlanRequest& request, const PlanOptions& options,
                                        const PlanChoice& choice,
                                        const std::vector<WantedPanel>& panels,
                                        RunControl& control) {
  const Ganged ganged(request, panels, {});
  if (!ganged.any()) return runOnce(request, options, choice, panels, control);
  PlanOptions first = options;
  first.limitSeconds *= kFirstRound;
  std::vector<Gang> unplaced;
  Result<std::vector<Plan>> plans =
      runGanged(request, ganged, first, choice, panels, control, unplaced);
  if (!plans || unplaced.empty() || control.shouldEnd()) return plans;
  const Ganged fewer(request, panels, unplaced);
  PlanOptions second = options;
  second.limitSeconds *= 1 - kFirstRound;
  second.onBetter = nullptr;
  std::vector<Gang> still;
  Result<std::vector<Plan>> again =
      runGanged(request, fewer, second, choice, panels, control, still);
  if (!again || !isBetter(again->front(), plans->front(), options.goal)) return plans;
  Plan& best = again.value().front();
  best.bound = std::max(best.bound, plans->front().bound);
  best.gridBound = std::max(best.gridBound, plans->front().gridBound);
  return again;
}

}  // namespace rackside
