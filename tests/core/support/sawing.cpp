// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/support/sawing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/job/saw_rules.h"

namespace rackside::testing {
namespace {

constexpr double kStepMm = 5;
constexpr double kCornerMm = 1;
constexpr double kSlackMm = 0.15;

using Side = std::pair<std::string, bool>;  // id of a cut, true for left

struct Waste {
  double least = 0, greatest = 0;
};

// The cut's own frame: u along it, v away from its left.
Polygon inFrame(const Polygon& p, const Segment& line) {
  const double angle = std::atan2(line.to.y - line.from.y, line.to.x - line.from.x);
  Polygon out;
  for (const Point q : p) {
    const Point r = q - line.from;
    out.push_back({r.x * std::cos(angle) + r.y * std::sin(angle),
                   r.x * std::sin(angle) - r.y * std::cos(angle)});
  }
  return out;
}

// v covered at u: from the least to the greatest crossing.
std::pair<double, double> crossings(const Polygons& shape, double u) {
  double lo = 1e300, hi = -1e300;
  for (const Polygon& p : shape)
    for (size_t i = 0; i < p.size(); ++i) {
      const Point a = p[i], b = p[(i + 1) % p.size()];
      if (std::min(a.x, b.x) > u || std::max(a.x, b.x) <= u) continue;
      const double v = a.y + (b.y - a.y) * (u - a.x) / (b.x - a.x);
      lo = std::min(lo, v), hi = std::max(hi, v);
    }
  return {lo, hi};
}

// Of the wood that the cut divides, what lies on its waste side beyond the kerf.
Waste wasteOf(const Cut& cut, const Polygons& wood, bool left) {
  Polygons flat;
  double from = 1e300, to = -1e300;
  for (const Polygon& p : wood) flat.push_back(inFrame(p, cut.line));
  for (const Polygon& p : flat)
    for (size_t i = 0; i < p.size(); ++i) {
      const double at = left ? 0 : cut.kerfMm;
      const Point a = p[i], b = p[(i + 1) % p.size()];
      if ((a.y < at) == (b.y < at)) continue;
      const double u = a.x + (b.x - a.x) * (at - a.y) / (b.y - a.y);
      from = std::min(from, u), to = std::max(to, u);
    }
  if (to - from < 3 * kCornerMm) return {};
  Waste w{1e300, 0};
  const int steps = std::max(1, static_cast<int>((to - from - 2 * kCornerMm) / kStepMm));
  for (int i = 0; i <= steps; ++i) {
    const double u = from + kCornerMm + (to - from - 2 * kCornerMm) * i / steps;
    const auto [lo, hi] = crossings(flat, u);
    const double thick = std::max(0.0, left ? -lo : hi - cut.kerfMm);
    w = {std::min(w.least, thick), std::max(w.greatest, thick)};
  }
  return w;
}

class BoardSawing {
 public:
  BoardSawing(const PlanRequest& request, const Plan& plan, const Board& board, Sawing& out)
      : shop_(request.shop), rules_(sawRules(request.shop)), board_(board), out_(out) {
    for (const Cut& c : plan.cuts)
      if (c.board == board.id) {
        cuts_[c.id.text] = &c;
        if (c.parent) used_.insert({c.parent->text, c.leftOfParent});
      }
    for (const Blank& b : plan.blanks) {
      if (b.board != board.id) continue;
      const Polygon r = b.roughOutline();
      const Cut& last = *cuts_.at(b.lastCut.text);
      const Point d = last.line.to - last.line.from, q = 0.5 * (r[0] + r[2]) - last.line.from;
      used_.insert({b.lastCut.text, d.x * q.y - d.y * q.x > 0});
      ends_.push_back(&b);
    }
  }

  void count() {
    if (cuts_.empty()) return;
    ++out_.boards;
    out_.boardsM2 += area({board_.outline.polygon()}) / 1e6;
    for (const auto& [id, cut] : cuts_) countCut(*cut);
    for (const Blank* blank : ends_) countTrims(*blank);
  }

 private:
  Polygons woodOf(const Cut& cut) const {
    if (!cut.parent) return {board_.outline.polygon()};
    const Cut& up = *cuts_.at(cut.parent->text);
    const Polygons wood = woodOf(up);
    if (cut.leftOfParent) return keepLeftOf(wood, up.line);
    const Point d = up.line.to - up.line.from;
    const Point aside = (up.kerfMm / norm(d)) * Point{d.y, -d.x};
    return keepLeftOf(wood, {up.line.to + aside, up.line.from + aside});
  }

  // Nothing when the cut parts wood from wood.
  std::optional<Waste> offOf(const Cut& cut) const {
    const bool left = used_.count({cut.id.text, true}) > 0;
    if (left == (used_.count({cut.id.text, false}) > 0)) return std::nullopt;
    return wasteOf(cut, woodOf(cut), !left);
  }

  void countCut(const Cut& cut) {
    if (cut.firstRip && cut.kerfMm == 0) {
      ++out_.jointed;
      return;
    }
    ++out_.cuts;
    if (cut.kind == CutKind::trim) ++out_.trims;
    if (cut.firstRip) ++out_.firstRips;
    const auto off = offOf(cut);
    if (!off || cut.made) return;
    if (off->greatest < 3) ++out_.under3;
    if (cut.kind == CutKind::trim && off->greatest < 10) ++out_.trimsUnder10;
    if (cut.firstRip && off->least < 3) ++out_.ripsWithin3;
    if (isThin(cut, *off)) {
      ++out_.thin;
      out_.faults.push_back("cut " + std::to_string(cut.order) + " of board " + board_.name + ", " +
                            std::string(name(cut.kind)) + ", takes off " +
                            std::to_string(off->least) + " to " + std::to_string(off->greatest));
    }
  }

  bool isThin(const Cut& cut, const Waste& w) const {
    if (cut.firstRip) return w.least < rules_.leastRipInMm - kSlackMm;
    if (cut.kind == CutKind::rip)
      return w.greatest < rules_.leastSliceWidthMm - kSlackMm ||
             (w.least < rules_.leastSliceWidthMm - kSlackMm &&
              w.greatest < rules_.mostSurplusWidthMm - kSlackMm);
    const bool roughEnd = cut.kind == CutKind::crosscut && w.greatest > shop_.endTrimMm - 1e-6 - 5;
    return w.greatest < rules_.leastSliceLengthMm - kSlackMm && !roughEnd;
  }

  void countTrims(const Blank& blank) {
    std::vector<double> off;
    for (const Cut* at = cuts_.at(blank.lastCut.text); at && at->kind == CutKind::trim;
         at = at->parent ? cuts_.at(at->parent->text) : nullptr)
      if (const auto w = offOf(*at); w && !at->made) off.push_back(w->greatest + at->kerfMm);
    if (off.size() > 1 &&
        *std::min_element(off.begin(), off.end()) < rules_.mostSurplusLengthMm - kSlackMm) {
      ++out_.trimmedTwice;
      out_.faults.push_back("a blank of board " + board_.name + " is trimmed at both ends");
    }
  }

  const Shop& shop_;
  const SawRules rules_;
  const Board& board_;
  Sawing& out_;
  std::map<std::string, const Cut*> cuts_;
  std::set<Side> used_;
  std::vector<const Blank*> ends_;
};

}  // namespace

Sawing& Sawing::operator+=(const Sawing& m) {
  boards += m.boards, pieces += m.pieces, cuts += m.cuts, jointed += m.jointed, trims += m.trims;
  firstRips += m.firstRips, thin += m.thin, under3 += m.under3, trimsUnder10 += m.trimsUnder10;
  ripsWithin3 += m.ripsWithin3, trimmedTwice += m.trimmedTwice, boardsM2 += m.boardsM2;
  faults.insert(faults.end(), m.faults.begin(), m.faults.end());
  return *this;
}

Sawing sawingOf(const PlanRequest& request, const Plan& plan) {
  Sawing all;
  all.pieces = static_cast<int>(plan.pieces.size());
  for (const Board& board : request.boards) BoardSawing(request, plan, board, all).count();
  return all;
}

}  // namespace rackside::testing
