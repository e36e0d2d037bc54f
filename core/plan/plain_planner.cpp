// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plain_planner.h"

#include <algorithm>
#include <optional>

namespace rackside {
namespace {

// How far the chalk moves on past a defect before a shorter part is tried instead.
constexpr double kGreatestSkipMm = 300;

class PlainBoard {
 public:
  PlainBoard(const BoardMap& map, const Job& job, std::vector<int>& wanted)
      : map_(map), job_(job), wanted_(wanted) {
    byLength_ = map.kindsHere();
    const auto longer = [&](int a, int b) {
      return job.kinds[a].roughLengthMm > job.kinds[b].roughLengthMm;
    };
    std::stable_sort(byLength_.begin(), byLength_.end(), longer);
    for (int d = 0; d < map.directions(); ++d) {
      footprints_.emplace_back();
      for (const int k : byLength_) footprints_.back().push_back(footprint(k, map.angleRad(d)));
    }
  }

  BoardLayout layOut() {
    BoardLayout layout;
    int column = 0;
    while (const auto section = next(column)) {
      for (const StripLayout& s : section->strips) {
        wanted_[job_.kinds[s.kind].part] -= job_.kinds[s.kind].copies;
        layout.value += job_.kinds[s.kind].value;
      }
      column = section->to;
      layout.sections.push_back(*section);
    }
    return layout;
  }

 private:
  Footprint footprint(int kind, double angleRad) const {
    const BlankKind& k = job_.kinds[kind];
    return footprintOf(k, grainToleranceRad(job_.parts[k.part]), angleRad, job_.cellMm,
                       job_.shop.crosscutKerfMm, Reading::forPlans);
  }
  bool isWanted(int kind) const {
    return job_.kinds[kind].copies <= wanted_[job_.kinds[kind].part];
  }
  bool bordersFree(int from, int to) const {
    return to <= map_.grid().count && map_.mayBegin(from) && map_.mayBegin(to);
  }

  // The section that the longest wanted part sets, filled in the best direction.
  std::optional<SectionLayout> next(int column) const {
    const int skip = static_cast<int>(kGreatestSkipMm / job_.cellMm);
    for (size_t i = 0; i < byLength_.size(); ++i) {
      if (!isWanted(byLength_[i]) || job_.kinds[byLength_[i]].copies > 1) continue;
      for (int from = column; from <= column + skip; from += 2)
        if (const auto best = bestDirection(i, from)) return best;
    }
    return std::nullopt;
  }

  std::optional<SectionLayout> bestDirection(size_t lead, int from) const {
    std::optional<SectionLayout> best;
    double bestValue = 0;
    for (int d = 0; d < map_.directions(); ++d) {
      const Footprint& f = footprints_[d][lead];
      if (!f.fits || !bordersFree(from, from + f.steps)) continue;
      if (map_.bottoms(byLength_[lead], d, from, f).empty()) continue;
      SectionLayout section{from, from + f.steps, d, {}};
      const double value = fill(section);
      if (value > bestValue) {
        bestValue = value;
        best = section;
      }
    }
    return best;
  }

  struct Candidate {
    StripLayout strip;
    double top = 0;
    double pay = -1;  // value for the width it takes
  };

  double fill(SectionLayout& section) const {
    std::vector<int> left = wanted_;
    const Intervals metal =
        map_.hasMetal() ? map_.metalOver(section.direction, section.from, section.to) : Intervals{};
    double value = 0, y = -1e9;
    while (true) {
      const Candidate c = bestStrip(section, left, metal, y);
      if (c.pay <= 0) return value;
      section.strips.push_back(c.strip);
      left[job_.kinds[c.strip.kind].part] -= job_.kinds[c.strip.kind].copies;
      value += job_.kinds[c.strip.kind].value;
      y = c.top + job_.shop.ripKerfMm;
    }
  }

  Candidate bestStrip(const SectionLayout& section, const std::vector<int>& left,
                      const Intervals& metal, double y) const {
    Candidate best;
    for (size_t i = 0; i < byLength_.size(); ++i) {
      const int k = byLength_[i];
      const BlankKind& kind = job_.kinds[k];
      const Footprint& f = footprints_[section.direction][i];
      if (!f.fits || kind.copies > left[kind.part] || f.steps > section.to - section.from) continue;
      for (const int column : {section.from, section.to - f.steps}) {
        const auto bottom = lowest(map_.bottoms(k, section.direction, column, f), y, f, metal);
        if (!bottom) continue;
        const double from = y > -1e8 ? y : *bottom;
        const double pay = kind.value / (*bottom + f.widthMm + job_.shop.ripKerfMm - from);
        if (pay > best.pay) best = {{k, column, *bottom}, *bottom + f.widthMm, pay};
      }
    }
    return best;
  }

  std::optional<double> lowest(const Intervals& bottoms, double y, const Footprint& f,
                               const Intervals& metal) const {
    const double kerf = std::max(job_.shop.ripKerfMm, job_.shop.firstRipKerfMm);
    for (const Interval& i : bottoms) {
      const double at = std::max(i.lo, y);
      const auto meets = [&](const Interval& m) {
        return at - kerf < m.hi && at + f.widthMm + kerf > m.lo;
      };
      if (at <= i.hi && std::none_of(metal.begin(), metal.end(), meets)) return at;
    }
    return std::nullopt;
  }

  const BoardMap& map_;
  const Job& job_;
  std::vector<int>& wanted_;
  std::vector<int> byLength_;                       // kinds here, longest first
  std::vector<std::vector<Footprint>> footprints_;  // by direction, then as byLength_
};

}  // namespace

std::vector<BoardLayout> plainLayouts(const std::vector<const BoardMap*>& maps, const Job& job,
                                      std::vector<int>& wanted) {
  std::vector<BoardLayout> layouts;
  for (const BoardMap* map : maps) layouts.push_back(PlainBoard(*map, job, wanted).layOut());
  return layouts;
}

}  // namespace rackside
