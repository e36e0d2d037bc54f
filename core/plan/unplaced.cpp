// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/unplaced.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/plan/drying.h"
#include "core/plan/milling.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

std::string mm(double value) {
  return std::to_string(static_cast<long long>(std::ceil(value - 1e-9))) + " mm";
}

// What one board lacks for a part; `short` of nothing when the part would fit on the empty board.
struct Lack {
  const Board* board = nullptr;
  double byMm = 1e9;
  std::string direction, why;
  bool fits = false;
};

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

double greatestChord(const Polygon& p) {
  const Rect box = bounds(p);
  double most = 0;
  for (int i = 1; i < 40; ++i) {
    const Interval chord = chordAt(p, box.x0 + box.width() * i / 40);
    most = std::max(most, chord.hi - chord.lo);
  }
  return most;
}

// The kind narrowed or shortened until it finds a place; how much had to go.
class Shortfall {
 public:
  Shortfall(const Job& job, const BoardMap& map) : job_(job), map_(map) {}

  bool fits(int kindIndex, double lessLengthMm, double lessWidthMm) const {
    BlankKind kind = job_.kinds[kindIndex];
    kind.roughLengthMm -= lessLengthMm;
    kind.clearLengthMm -= std::min(lessLengthMm, kind.clearLengthMm - 1);
    kind.roughWidthMm -= lessWidthMm;
    kind.pieceWidthMm -= std::min(lessWidthMm, kind.pieceWidthMm - 1);
    for (int d = 0; d < map_.directions(); ++d) {
      const Footprint f =
          footprintOf(kind, grainToleranceRad(job_.parts[kind.part]), map_.angleRad(d), job_.cellMm,
                      job_.shop.crosscutKerfMm, Reading::forPlans);
      if (!f.fits) continue;
      for (int c = 0; c + f.steps <= map_.grid().count; c += 2)
        if (!map_.bottoms(kindIndex, d, c, f).empty()) return true;
    }
    return false;
  }

  // Least cut in one direction, to 1 mm, by halving; 1e9 when even half the part does not fit.
  double least(int kindIndex, bool length) const {
    const BlankKind& kind = job_.kinds[kindIndex];
    double lo = 0, hi = (length ? kind.roughLengthMm : kind.roughWidthMm) / 2;
    const auto ok = [&](double less) {
      return fits(kindIndex, length ? less : 0, length ? 0 : less);
    };
    if (!ok(hi)) return 1e9;
    while (hi - lo > 1) {
      const double middle = (lo + hi) / 2;
      (ok(middle) ? hi : lo) = middle;
    }
    return hi;
  }

 private:
  const Job& job_;
  const BoardMap& map_;
};

Lack lackOf(const Job& job, const BoardMap& map, int partIndex) {
  const Part& part = job.parts[partIndex];
  const Board& board = map.board();
  Lack lack;
  lack.board = &board;
  const auto kindsOfPart = [&](int k) {
    return job.kinds[k].part == partIndex && job.kinds[k].copies == 1;
  };
  std::vector<int> here;
  for (const int k : map.kindsHere())
    if (kindsOfPart(k)) here.push_back(k);
  if (here.empty()) {
    const double spare =
        driedThicknessMm(board, job.shop) - 2 * job.shop.minTakeOffMm - part.thicknessMm;
    lack.byMm = std::max(0.1, -spare);
    lack.direction = "thickness";
    lack.why = "board " + board.name + " is too thin once it is flat";
    for (const Face face : {Face::A, Face::B})
      if (const std::string unseen = unseenFaceReason(part, board, face);
          !unseen.empty() && spare >= 0)
        lack.why = unseen, lack.direction = "", lack.byMm = 1e6;
    return lack;
  }
  const Shortfall shortfall(job, map);
  for (const int k : here) {
    if (shortfall.fits(k, 0, 0)) {
      lack.fits = true;
      lack.byMm = 0;
      return lack;
    }
    for (const bool length : {false, true}) {
      const double by = shortfall.least(k, length);
      if (by >= lack.byMm) continue;
      lack.byMm = by;
      lack.direction = length ? "length" : "width";
      lack.why = "no clear place is large enough; board " + board.name +
                 " comes nearest, short by " + mm(by) + " in " + lack.direction;
    }
  }
  return lack;
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

std::string remedyFor(const Part& part, const Lack& lack) {
  if (lack.direction == "width" && !part.glueUp.allowed)
    return "; allowed to be glued up from strips it might fit";
  if (lack.direction == "thickness") return "; a thicker board or a thinner part is wanted";
  return "";
}

Unplaced explain(const PlanRequest& request, const Job& job,
                 const std::vector<const BoardMap*>& maps, int partIndex) {
  const Part& part = job.parts[partIndex];
  Unplaced out;
  out.part = part.id;
  Lack nearest;
  bool anySpecies = false;
  // The widest boards first, and not all of a long rack: the nearest miss is among them.
  std::vector<const BoardMap*> order;
  for (const BoardMap* map : maps) {
    if (!woodServes(part.species, map->board().species, job.shop.ownSpecies)) continue;
    anySpecies = true;
    order.push_back(map);
  }
  std::stable_sort(order.begin(), order.end(), [](const BoardMap* a, const BoardMap* b) {
    return greatestChord(a->board().outline.polygon()) >
           greatestChord(b->board().outline.polygon());
  });
  constexpr size_t kMostAsked = 12;
  if (order.size() > kMostAsked) order.resize(kMostAsked);
  for (const BoardMap* map : order) {
    const Lack lack = lackOf(job, *map, partIndex);
    if (lack.byMm < nearest.byMm) nearest = lack;
    if (nearest.fits) break;
  }
  if (!anySpecies) {
    out.why = speciesWhy(request, part);
  } else if (nearest.fits) {
    out.why = "there is a place for it on board " + nearest.board->name +
              ", but other parts took the wood and are worth more there";
    out.nearest = Unplaced::Nearest{nearest.board->id, 0, ""};
  } else if (nearest.board && nearest.byMm < 1e9) {
    out.why = nearest.why + remedyFor(part, nearest);
    out.nearest = Unplaced::Nearest{nearest.board->id, nearest.byMm < 1e6 ? nearest.byMm : 0,
                                    nearest.direction};
  } else {
    out.why = "no board of the rack has a clear place of half its size";
  }
  return out;
}

}  // namespace

namespace {

// why(part index) for each copy that is not in the plan.
template <class Why>
void addUnplaced(const PlanRequest& request, Plan& plan, const Why& why) {
  std::map<PartId, std::set<int>> placed;
  for (const Piece& piece : plan.pieces) placed[piece.part].insert(piece.copy);
  for (size_t p = 0; p < request.parts.size(); ++p) {
    const Part& part = request.parts[p];
    std::optional<Unplaced> reason;
    for (int copy = 1; copy <= part.copies; ++copy) {
      if (placed[part.id].count(copy)) continue;
      if (!reason) reason = why(static_cast<int>(p));
      reason->copy = copy;
      plan.unplaced.push_back(*reason);
    }
  }
}

}  // namespace

void explainUnplaced(const PlanRequest& request, const Job& job,
                     const std::vector<const BoardMap*>& maps, Plan& plan) {
  addUnplaced(request, plan, [&](int part) { return explain(request, job, maps, part); });
}

void markUnplaced(const PlanRequest& request, Plan& plan) {
  addUnplaced(request, plan, [&](int part) {
    Unplaced u;
    u.part = request.parts[part].id;
    u.why = "no place found so far";
    return u;
  });
}

}  // namespace rackside
