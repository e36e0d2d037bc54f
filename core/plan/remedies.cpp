// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/remedies.h"

#include <algorithm>
#include <functional>
#include <map>
#include <memory>

#include "core/base/each_in_parallel.h"
#include "core/plan/drying.h"
#include "core/plan/fit_test.h"
#include "core/plan/left_over.h"
#include "core/plan/plain_planner.h"

namespace rackside {
namespace {

constexpr double kCellMm = 5;     // as the first plan's
constexpr int kStep = 3;          // columns: a place that is missed only makes a promise less
constexpr size_t kMostParts = 8;  // that are looked into; a maker reads no more
constexpr size_t kMostWoods = 6;  // each part is tried on: the largest
constexpr int kMostStrips = 4;
constexpr double kMoreGrainDeg = 5;
constexpr double kExactMm = 0.5;
constexpr double kNoneMm = 1e9;

// The part with one rule relaxed.
struct Variant {
  std::string rule, words;
  Part part;
};

template <class Change>
void offer(const Part& part, const char* rule, const char* words, std::vector<Variant>& out,
           Change change) {
  Variant v{rule, words, part};
  change(v.part);
  const bool same = v.part.show == part.show && v.part.back == part.back &&
                    v.part.grainToleranceDeg == part.grainToleranceDeg;
  if (!same) out.push_back(std::move(v));
}

std::vector<Variant> variantsOf(const Part& part) {
  std::vector<Variant> out{{"", "", part}};
  const auto faces = [&](bool show, const std::string& where) {
    const auto allow = [&](const char* rule, const std::string& words, auto change) {
      offer(part, rule, words.c_str(), out, [&](Part& p) { change(show ? p.show : p.back); });
    };
    allow("sound-knot", "allowing sound knots " + where,
          [](FaceAllows& f) { f.soundKnots = true; });
    allow("filled-hole", "allowing filled holes " + where,
          [](FaceAllows& f) { f.filledHoles = true; });
    allow("stain", "allowing stain " + where, [](FaceAllows& f) { f.stain = true; });
    allow("sapwood", "allowing sapwood " + where, [](FaceAllows& f) {
      if (f.sapwood == SapwoodRule::no) f.sapwood = SapwoodRule::yes;
    });
  };
  if (part.showing != Showing::none) faces(true, "where it shows");
  if (part.showing != Showing::bothFaces) faces(false, "on its back");
  if (part.grain == GrainRule::along)
    offer(part, "grain", "letting the grain run 5° further aside", out, [](Part& p) {
      p.grainToleranceDeg = std::min(90.0, p.grainToleranceDeg + kMoreGrainDeg);
    });
  return out;
}

// One piece of wood with the planner's map of it for all variants of a part.
struct Tried {
  const Board* board = nullptr;
  std::unique_ptr<BoardMap> map;
  std::vector<char> fits;  // by variant
  double shortMm = kNoneMm;
  std::string direction;
  double lessLengthAllowanceMm = kNoneMm, lessWidthAllowanceMm = kNoneMm;
};

class PartTrial {
 public:
  PartTrial(const PlanRequest& request, const Part& part, const std::vector<const Board*>& woods)
      : request_(request),
        part_(part),
        variants_(variantsOf(part)),
        dryingShares_(dryingShares(woods, part.species, request.shop)) {
    for (const Variant& v : variants_) parts_.push_back(v.part);
    for (size_t i = 0; i < parts_.size(); ++i)
      for (const BlankKind& k :
           blankKinds(parts_[i], static_cast<int>(i), request.shop, 1, dryingShares_))
        kinds_.push_back(k);
    tried_.resize(woods.size());
    for (size_t i = 0; i < woods.size(); ++i) tried_[i].board = woods[i];
  }

  // Looks for remedies only when it fits nowhere.
  void run() {
    const Job job = this->job();
    const auto each = [&](auto work) {
      eachInParallel(static_cast<int>(tried_.size()), [&](int i, int) { work(job, tried_[i]); });
    };
    each([this](const Job& j, Tried& t) { tryAsItIs(j, t); });
    if (!fitsSomewhere()) each([this](const Job& j, Tried& t) { relax(j, t); });
  }

  bool fitsSomewhere() const {
    return std::any_of(tried_.begin(), tried_.end(), [](const Tried& t) { return t.fits[0]; });
  }
  const Tried* fitting() const {
    for (const Tried& t : tried_)
      if (t.fits[0]) return &t;
    return nullptr;
  }
  const Tried* nearest() const {
    const Tried* best = nullptr;
    for (const Tried& t : tried_)
      if (t.shortMm < (best ? best->shortMm : kNoneMm)) best = &t;
    return best;
  }

  std::vector<Unplaced::Remedy> remedies() const {
    std::vector<Unplaced::Remedy> out;
    addGlueUp(out);
    addLeast(out, "length-allowance", "{} less length allowance", &Tried::lessLengthAllowanceMm);
    addLeast(out, "width-allowance", "{} less width allowance", &Tried::lessWidthAllowanceMm);
    for (size_t v = 1; v < variants_.size(); ++v)
      for (const Tried& t : tried_)
        if (t.fits[v]) {
          out.push_back({variants_[v].rule, t.board->id, 0, variants_[v].words});
          break;
        }
    return out;
  }

 private:
  Job job() const { return {parts_, kinds_, request_.shop, kCellMm}; }

  void tryAsItIs(const Job& job, Tried& t) const {
    t.map = std::make_unique<BoardMap>(*t.board, job);
    t.fits.assign(variants_.size(), 0);
    for (const int k : t.map->kindsHere())
      if (kinds_[k].part == 0 && !t.fits[0]) t.fits[0] = placeFor(job, *t.map, k) ? 1 : 0;
  }

  void relax(const Job& job, Tried& t) const {
    for (const int k : t.map->kindsHere()) {
      char& fits = t.fits[static_cast<size_t>(kinds_[k].part)];
      if (kinds_[k].part == 0)
        measure(job, k, t);
      else if (!fits)
        fits = placeFor(job, *t.map, k, kStep) ? 1 : 0;
    }
  }

  // How far this board is from holding the part as it is.
  void measure(const Job& job, int k, Tried& t) const {
    const BlankKind& kind = kinds_[k];
    const auto fits = [&](double rough, double piece, bool length) {
      BlankKind less = kind;
      (length ? less.roughLengthMm : less.roughWidthMm) -= rough;
      (length ? less.clearLengthMm : less.pieceWidthMm) -= piece;
      return placeFor(job, *t.map, k, less, kStep).has_value();
    };
    for (const bool length : {true, false}) {
      const double size = length ? kind.roughLengthMm : kind.roughWidthMm;
      const double finished = length ? kind.clearLengthMm : kind.pieceWidthMm;
      const double shorter =
          least(std::min(size, finished) / 2, [&](double d) { return fits(d, d, length); });
      if (shorter < t.shortMm) t.shortMm = shorter, t.direction = length ? "length" : "width";
      const double safe = length ? request_.shop.shortestSafeMm : request_.shop.narrowestSafeMm;
      const double spare = std::min(size - finished, size - safe);
      double& allowance = length ? t.lessLengthAllowanceMm : t.lessWidthAllowanceMm;
      if (spare > kExactMm)
        allowance = std::min(allowance, least(spare, [&](double d) { return fits(d, 0, length); }));
    }
  }

  // The least that lets it fit, to kExactMm from above; kNoneMm when `most` does not.
  template <class Fits>
  static double least(double most, const Fits& fits) {
    if (!fits(most)) return kNoneMm;
    double lo = 0, hi = most;
    while (hi - lo > kExactMm) {
      const double middle = (lo + hi) / 2;
      (fits(middle) ? hi : lo) = middle;
    }
    return hi;
  }

  void addLeast(std::vector<Unplaced::Remedy>& out, const char* rule, const char* words,
                double Tried::*by) const {
    const Tried* best = nullptr;
    for (const Tried& t : tried_)
      if (t.*by < (best ? best->*by : kNoneMm)) best = &t;
    if (best) out.push_back({rule, best->board->id, best->*by, words});
  }

  // The least count of equal strips that all find places at once.
  void addGlueUp(std::vector<Unplaced::Remedy>& out) const {
    if (part_.outline || part_.glueUp.allowed || part_.grain == GrainRule::free) return;
    for (int count = 2; count <= kMostStrips; ++count) {
      Part strip = part_;
      strip.copies = count;
      strip.widthMm = part_.widthMm / count + 2 * request_.shop.glueLineAllowanceMm;
      if (strip.widthMm >= part_.widthMm) return;
      const std::vector<Part> parts{strip};
      const std::vector<BlankKind> kinds = blankKinds(strip, 0, request_.shop, 1, dryingShares_);
      const Job job{parts, kinds, request_.shop, kCellMm};
      std::vector<std::unique_ptr<BoardMap>> maps;
      std::vector<const BoardMap*> all;
      for (const Tried& t : tried_) {
        maps.push_back(std::make_unique<BoardMap>(*t.board, job));
        all.push_back(maps.back().get());
      }
      std::vector<int> wanted{count};
      const auto layouts = plainLayouts(all, job, wanted);
      if (wanted[0] > 0) continue;
      for (size_t i = 0; i < layouts.size(); ++i)
        if (!layouts[i].sections.empty()) {
          out.push_back({"glue-up", tried_[i].board->id, strip.widthMm,
                         "glued up from " + std::to_string(count) + " strips, each {} wide"});
          return;
        }
    }
  }

  const PlanRequest& request_;
  const Part& part_;
  std::vector<Variant> variants_;
  std::vector<double> dryingShares_;  // of the woods it is tried on
  std::vector<Part> parts_;
  std::vector<BlankKind> kinds_;
  std::vector<Tried> tried_;
};

std::vector<const Board*> largest(std::vector<const Board*> woods) {
  const auto size = [](const Board* b) { return area({b->outline.polygon()}); };
  std::stable_sort(woods.begin(), woods.end(),
                   [&](const Board* a, const Board* b) { return size(a) > size(b); });
  if (woods.size() > kMostWoods) woods.resize(kMostWoods);
  return woods;
}

class Misses {
 public:
  Misses(const PlanRequest& request, const Plan& plan)
      : request_(request), leftOvers_(leftOvers(request, plan, {100, 25})) {}

  // What is told of one part that was left out.
  void explain(const Part& part, Unplaced& u) const {
    PartTrial onBoards(request_, part, wholeBoards(part));
    onBoards.run();
    if (!onBoards.fitsSomewhere()) {
      u.remedies = onBoards.remedies();
      if (!u.nearest) tellNearest(onBoards.nearest(), u);
      return;
    }
    PartTrial onRest(request_, part, rest(part));
    onRest.run();
    if (const Tried* t = onRest.fitting()) {
      u.remedies = {{"time", t->board->id, 0, "it fits what is left there: plan for longer"}};
      return;
    }
    u.remedies = onRest.remedies();
    if (const Tried* t = onRest.nearest()) {
      u.why += "; of what is left, board " + t->board->name + " comes nearest";
      tellNearest(t, u);
    }
  }

 private:
  static void tellNearest(const Tried* t, Unplaced& u) {
    if (t) u.nearest = Unplaced::Nearest{t->board->id, t->shortMm, t->direction};
  }
  bool serves(const Part& part, const Board& board) const {
    return woodServes(part.species, board.species, request_.shop.ownSpecies);
  }
  std::vector<const Board*> wholeBoards(const Part& part) const {
    std::vector<const Board*> woods;
    for (const Board& b : request_.boards)
      if (mayBeCut(request_, b) && serves(part, b)) woods.push_back(&b);
    return largest(std::move(woods));
  }
  std::vector<const Board*> rest(const Part& part) const {
    std::vector<const Board*> woods;
    for (const LeftOver& l : leftOvers_)
      if (serves(part, l.board)) woods.push_back(&l.board);
    return largest(std::move(woods));
  }

  const PlanRequest& request_;
  std::vector<LeftOver> leftOvers_;
};

}  // namespace

void addRemedies(const PlanRequest& request, Plan& plan) {
  if (plan.unplaced.empty()) return;
  const Misses misses(request, plan);
  std::map<PartId, Unplaced> told;
  for (Unplaced& u : plan.unplaced) {
    const auto part = std::find_if(request.parts.begin(), request.parts.end(),
                                   [&](const Part& p) { return p.id == u.part; });
    if (part == request.parts.end()) continue;
    if (const auto before = told.find(u.part); before != told.end()) {
      const int copy = u.copy;
      u = before->second;
      u.copy = copy;
    } else if (told.size() < kMostParts) {
      misses.explain(*part, u);
      told[u.part] = u;
    }
  }
}

}  // namespace rackside
