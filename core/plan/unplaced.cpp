// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/unplaced.h"

#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "core/base/each_in_parallel.h"
#include "core/plan/blank_kind.h"
#include "core/plan/drying.h"
#include "core/plan/fit_test.h"
#include "core/plan/left_over.h"
#include "core/plan/made_cuts.h"
#include "core/plan/nearest_miss.h"
#include "core/plan/panel_strips.h"

namespace rackside {
namespace {

constexpr double kCellMm = 1.25;   // as the search's
constexpr int kStep = 4;           // columns: a place that is missed here is found in the next try
constexpr size_t kMostAsked = 12;  // woods, the widest first: the nearest miss is among them
constexpr size_t kMostNamed = 3;   // pieces

// why(part) for each copy that is not in the plan.
template <class Why>
void addUnplaced(const PlanRequest& request, Plan& plan, const Why& why) {
  std::map<PartId, std::set<int>> placed;
  for (const Piece& piece : plan.pieces) placed[piece.part].insert(piece.copy);
  for (const Part& part : request.parts) {
    std::optional<Unplaced> reason;
    for (int copy = 1; copy <= part.copies; ++copy) {
      if (placed[part.id].count(copy)) continue;
      if (!reason) reason = why(part);
      reason->part = part.id;
      reason->copy = copy;
      plan.unplaced.push_back(*reason);
    }
  }
}

double height(const Board& board) {
  return bounds(board.outline.polygon()).height();
}

std::string remedyFor(const Part& part, const Lack& lack) {
  if (lack.direction == "width" && !part.glueUp.allowed)
    return "; allowed to be glued up from strips it might fit";
  if (lack.direction == "thickness") return "; a thicker board or a thinner part is wanted";
  return "";
}

// No board of its species may be used: is there none, or is it kept from the planner?
std::string speciesWhy(const PlanRequest& request, const Part& part) {
  std::string kept;
  for (const Board& board : request.boards) {
    if (board.cutUp || !woodServes(part.species, board.species, request.shop.ownSpecies)) continue;
    kept += (kept.empty() ? "" : ", ") + board.name + " is " +
            (board.isSpokenFor() ? stateWords(board) : std::string("not to be touched"));
  }
  const std::string wood = part.species.empty() ? "board" : "board of " + part.species;
  if (kept.empty()) return "no " + wood + " is on the rack";
  return "no " + wood + " is free: " + kept;
}

// A part as it would be laid out: whole, or a strip of a panel of so many.
struct AsLaid {
  PartId of;
  int strips = 1;
};

// All ways to lay out the parts that were left out, and the planner's maps for them of wood that
// holds nothing.
class Trials {
 public:
  Trials(const PlanRequest& request, const std::vector<const Part*>& parts,
         const std::vector<const Board*>& woods)
      : woods_(woods), job_{parts_, kinds_, request.shop, kCellMm}, maps_(woods.size()) {
    for (const Part* part : parts) addWays(request, *part);
    for (size_t p = 0; p < parts_.size(); ++p)
      for (const BlankKind& kind : blankKinds(parts_[p], static_cast<int>(p), request.shop, 1,
                                              dryingShares(woods, parts_[p].species, request.shop)))
        kinds_.push_back(kind);
  }

  const std::vector<AsLaid>& ways() const { return ways_; }

  // The first place of a way on these of the woods.
  struct PlaceOn {
    const Board* board = nullptr;
    Rect box;
  };
  std::optional<PlaceOn> place(size_t way, const std::vector<size_t>& woods) {
    read(woods);
    for (const size_t w : woods)
      for (const int kind : maps_[w]->kindsHere())
        if (job_.kinds[kind].part == static_cast<int>(way))
          if (const auto found = placeFor(job_, *maps_[w], kind, kStep))
            return PlaceOn{woods_[w], found->box};
    return std::nullopt;
  }

  Lack nearest(size_t way, const std::vector<size_t>& woods) {
    read(woods);
    Lack nearest;
    for (const size_t w : woods)
      if (const Lack lack = lackOf(job_, *maps_[w], static_cast<int>(way));
          lack.byMm < nearest.byMm)
        nearest = lack;
    return nearest;
  }

 private:
  void addWays(const PlanRequest& request, const Part& part) {
    for (const PartWay& way : waysOf(part, stripCounts(part, request.boards, request.shop),
                                     request.boards, request.shop)) {
      const bool isNew =
          ways_.empty() || ways_.back().of != part.id || ways_.back().strips != way.strips;
      if (!isNew) continue;  // the same strips of another species
      ways_.push_back({part.id, way.strips});
      parts_.push_back(way.strip);
      parts_.back().species = part.species;
    }
  }

  void read(const std::vector<size_t>& woods) {
    eachInParallel(static_cast<int>(woods.size()), [&](int i, int) {
      auto& map = maps_[woods[static_cast<size_t>(i)]];
      if (!map) map = std::make_unique<BoardMap>(*woods_[woods[static_cast<size_t>(i)]], job_);
    });
  }

  std::vector<AsLaid> ways_;
  std::vector<Part> parts_;  // as ways_
  std::vector<BlankKind> kinds_;
  std::vector<const Board*> woods_;
  Job job_;
  std::vector<std::unique_ptr<BoardMap>> maps_;  // as woods_
};

class Reasons {
 public:
  Reasons(const PlanRequest& request, const Plan& plan)
      : request_(request),
        plan_(plan),
        leftOvers_(leftOvers(request, onlyWhatIsCut(plan), {0, 0})) {
    for (const LeftOver& wood : leftOvers_) woods_.push_back(&wood.board);
    std::stable_sort(woods_.begin(), woods_.end(),
                     [](const Board* a, const Board* b) { return height(*a) > height(*b); });
    std::vector<const Part*> leftOut;
    for (const Part& part : request.parts)
      if (std::count_if(plan.pieces.begin(), plan.pieces.end(), [&](const Piece& p) {
            return p.part == part.id && p.strip <= 1;
          }) < part.copies)
        leftOut.push_back(&part);
    trials_ = std::make_unique<Trials>(request, leftOut, woods_);
  }

  Unplaced of(const Part& part) const {
    const std::vector<size_t> woods = woodsFor(part);
    if (woods.empty()) {
      Unplaced reason;
      reason.why = withoutWood(part);
      return reason;
    }
    Lack nearest;
    for (size_t way = 0; way < trials_->ways().size(); ++way) {
      const AsLaid& laid = trials_->ways()[way];
      if (laid.of != part.id) continue;
      if (const auto place = trials_->place(way, woods)) return taken(part, laid, *place);
      if (const Lack lack = trials_->nearest(way, woods); lack.byMm < nearest.byMm) nearest = lack;
    }
    return missed(part, nearest);
  }

 private:
  using PlaceOn = Trials::PlaceOn;

  std::vector<size_t> woodsFor(const Part& part) const {
    std::vector<size_t> woods;
    for (size_t w = 0; w < woods_.size() && woods.size() < kMostAsked; ++w)
      if (woodServes(part.species, woods_[w]->species, request_.shop.ownSpecies))
        woods.push_back(w);
    return woods;
  }

  std::string withoutWood(const Part& part) const {
    const bool isSawn =
        std::any_of(request_.boards.begin(), request_.boards.end(), [&](const Board& board) {
          return mayBeCut(request_, board) &&
                 woodServes(part.species, board.species, request_.shop.ownSpecies);
        });
    return isSawn ? "no wood is left that is not cut" : speciesWhy(request_, part);
  }

  Unplaced missed(const Part& part, const Lack& nearest) const {
    Unplaced reason;
    if (!nearest.board || nearest.byMm >= 1e9) {
      reason.why = "no board of the rack has a clear place of half its size";
      return reason;
    }
    reason.why = nearest.fits ? "it would fit on board " + boardName(nearest.board->id) +
                                    ", but metal in the wood bars the cuts that would free it"
                              : nearest.why + remedyFor(part, nearest);
    reason.nearest = Unplaced::Nearest{nearest.board->id, nearest.byMm < 1e6 ? nearest.byMm : 0,
                                       nearest.direction};
    return reason;
  }

  // It would fit there, were the wood free: who has it, and is that worth more?
  Unplaced taken(const Part& part, const AsLaid& way, const PlaceOn& place) const {
    const std::vector<const Piece*> there = piecesOn(place);
    const std::string what = way.strips > 1
                                 ? "a strip of it (of " + std::to_string(way.strips) + ") would fit"
                                 : "it would fit";
    Unplaced reason;
    reason.nearest = Unplaced::Nearest{place.board->id, 0, ""};
    reason.why = what + " on board " + boardName(place.board->id);
    if (there.empty()) {
      reason.why += way.strips > 1 ? ", but no room was found for all of them"
                                   : ", but no cuts that free it beside the others were found";
      return reason;
    }
    reason.why += " where " + named(there) + (there.size() > 1 ? " lie" : " lies");
    if (isPinned(there))
      reason.why += ", pinned; no room beside was found";
    else if (way.strips == 1)
      reason.why += worth(there) >= baseValue(part) ? ", worth no less than it"
                                                    : "; no better plan with it was found";
    return reason;
  }

  std::vector<const Piece*> piecesOn(const PlaceOn& place) const {
    std::set<BlankId> there;
    for (const Blank& blank : plan_.blanks)
      if (blank.board == place.board->id &&
          area(intersect({blank.roughOutline()}, {rectangle(place.box)})) > 1)
        there.insert(blank.id);
    std::vector<const Piece*> pieces;
    for (const Piece& piece : plan_.pieces)
      if (there.count(piece.blank)) pieces.push_back(&piece);
    return pieces;
  }

  std::string named(const std::vector<const Piece*>& pieces) const {
    std::string names;
    for (size_t i = 0; i < std::min(kMostNamed, pieces.size()); ++i) {
      const bool last = i + 1 == pieces.size();
      names += i == 0 ? "" : last ? " and " : ", ";
      names += partName(pieces[i]->part) + " " + std::to_string(pieces[i]->copy);
      if (pieces[i]->strip > 0) names += " strip " + std::to_string(pieces[i]->strip);
    }
    if (pieces.size() > kMostNamed)
      names += " and " + std::to_string(pieces.size() - kMostNamed) + " more";
    return names;
  }

  bool isPinned(const std::vector<const Piece*>& pieces) const {
    return std::any_of(pieces.begin(), pieces.end(), [&](const Piece* piece) {
      return std::count(request_.pinned.begin(), request_.pinned.end(), piece->id) > 0;
    });
  }

  static double worth(const std::vector<const Piece*>& pieces) {
    double sum = 0;
    for (const Piece* piece : pieces) sum += piece->worth;
    return sum;
  }

  std::string partName(const PartId& id) const {
    for (const Part& part : request_.parts)
      if (part.id == id) return part.name;
    return id.text;
  }
  std::string boardName(const BoardId& id) const {
    for (const Board& board : request_.boards)
      if (board.id == id) return board.name;
    return id.text;
  }

  const PlanRequest& request_;
  const Plan& plan_;
  std::vector<LeftOver> leftOvers_;
  std::vector<const Board*> woods_;  // of leftOvers_, the widest first
  std::unique_ptr<Trials> trials_;
};

}  // namespace

void explainUnplaced(const PlanRequest& request, Plan& plan) {
  plan.unplaced.clear();
  const Plan placed = plan;
  const Reasons reasons(request, placed);
  addUnplaced(request, plan, [&](const Part& part) { return reasons.of(part); });
}

void markUnplaced(const PlanRequest& request, Plan& plan) {
  addUnplaced(request, plan, [&](const Part&) {
    Unplaced u;
    u.why = "no place found so far";
    return u;
  });
}

}  // namespace rackside
