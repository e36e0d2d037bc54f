// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/long_rips.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <set>

#include "core/job/saw_rules.h"
#include "core/plan/worth.h"

namespace rackside {
namespace {

struct Weighed {
  WrittenSection section;
  double pay = -1e300;  // what its pieces are worth, less what its cuts count for
};

// Blanks that are to share a strip: each by its section and its place in it.
struct Lane {
  std::vector<const StripLayout*> strips;
  double widthMm = 0;
};

class Joiner {
 public:
  Joiner(const BoardMap& map, const Job& job, const BoardLayout& layout, const LongRips& counts)
      : map_(map),
        job_(job),
        rules_(sawRules(job.shop)),
        sections_(layout.sections),
        counts_(counts) {}

  std::vector<WrittenSection> best() const;

 private:
  Weighed alone(size_t s) const;
  Weighed joined(size_t from, size_t to) const;
  std::vector<Lane> lanes(size_t from, size_t to) const;
  bool share(const SectionLayout& section, size_t from, size_t to, std::vector<Lane>& lanes) const;
  std::optional<Weighed> laid(size_t from, size_t to, const std::vector<Lane>& lanes,
                              int direction) const;
  std::optional<Intervals> bottomsOf(const Lane& lane, size_t to, int direction) const;
  std::vector<std::vector<double>> stacks(const std::vector<Lane>& lanes,
                                          const std::vector<Intervals>& bottoms) const;
  double payOf(const WrittenSection& section) const;
  double worthOf(double angleRad, double lowMm, const WrittenBlank& blank) const;
  Footprint footprint(int kind, int direction) const;

  const BoardMap& map_;
  const Job& job_;
  const SawRules rules_;
  const std::vector<SectionLayout>& sections_;
  const LongRips& counts_;
};

Footprint Joiner::footprint(int kind, int direction) const {
  const BlankKind& k = job_.kinds[kind];
  return footprintOf(k, grainToleranceRad(job_.parts[k.part]), map_.angleRad(direction),
                     job_.cellMm, job_.shop.crosscutKerfMm, Reading::forPlans);
}

// Of all copies in a blank.
double Joiner::worthOf(double angleRad, double lowMm, const WrittenBlank& blank) const {
  const BlankKind& kind = job_.kinds[blank.kind];
  const Part& part = job_.parts[kind.part];
  const double sine = std::sin(angleRad), cosine = std::cos(angleRad);
  const Pose pose{{blank.start * cosine - lowMm * sine, blank.start * sine + lowMm * cosine},
                  angleRad};
  const double l = kind.pieceLengthMm, w = kind.pieceWidthMm;
  const double end = (blank.end - blank.start - kind.clearLengthMm) / 2;
  const ValueMap* look = lookMap(counts_.worth, map_.board().id, kind.showFace, part.look);
  double worth = 0;
  for (int i = 0; i < kind.copies; ++i) {
    const double x = end + i * (l + job_.shop.crosscutKerfMm) + l / 2;
    const Point at = rackside::apply(pose, Point{x, kind.roughWidthMm / 2});
    worth += pieceWorth(part, look, counts_.lookWeight,
                        {at.x - l / 2, at.y - w / 2, at.x + l / 2, at.y + w / 2});
  }
  return worth;
}

// Its end, its straight edge, a rip a strip, a cut between blanks, and trims of what is too long to
// be left on.
double Joiner::payOf(const WrittenSection& section) const {
  const double most = rules_.mostSurplusLengthMm, cosine = std::cos(section.angleRad);
  double cuts = 2, worth = 0;
  for (const WrittenStrip& strip : section.strips) {
    cuts += static_cast<double>(strip.blanks.size());
    double freeFrom = section.x0 / cosine;
    for (const WrittenBlank& blank : strip.blanks) {
      worth += worthOf(section.angleRad, strip.low, blank);
      if (blank.start - freeFrom >= most) ++cuts;
      freeFrom = blank.end;
    }
    if (section.x1 / cosine - freeFrom >= most) ++cuts;
  }
  return worth - cuts * counts_.cutWorth;
}

Weighed Joiner::alone(size_t s) const {
  Weighed w{writtenSection(map_, job_, sections_[s]), 0};
  w.pay = payOf(w.section);
  return w;
}

// Which strips of the sections are to lie in one line: those of a section with as many as the lanes
// one by one, those of others where their widths are nearest.
std::vector<Lane> Joiner::lanes(size_t from, size_t to) const {
  size_t most = 0;
  for (size_t s = from; s <= to; ++s) most = std::max(most, sections_[s].strips.size());
  std::vector<Lane> lanes(most);
  for (size_t s = from; s <= to; ++s)
    if (sections_[s].strips.size() == most)
      for (size_t l = 0; l < most; ++l)
        lanes[l].widthMm =
            std::max(lanes[l].widthMm, job_.kinds[sections_[s].strips[l].kind].roughWidthMm);
  for (size_t s = from; s <= to; ++s)
    if (!share(sections_[s], 0, 0, lanes)) return {};
  for (const Lane& lane : lanes)
    for (const StripLayout* strip : lane.strips)
      if (lane.widthMm - job_.kinds[strip->kind].roughWidthMm > rules_.mostSurplusWidthMm)
        return {};
  return lanes;
}

// The strips of a section, from `strip` on, into lanes from `lane` on: each into the first that
// leaves the others room and is not narrower, or else the nearest.
bool Joiner::share(const SectionLayout& section, size_t strip, size_t lane,
                   std::vector<Lane>& lanes) const {
  if (strip == section.strips.size()) return true;
  const size_t last = lanes.size() - (section.strips.size() - strip);
  const double width = job_.kinds[section.strips[strip].kind].roughWidthMm;
  size_t best = lane;
  for (size_t l = lane; l <= last; ++l)
    if (std::abs(lanes[l].widthMm - width) < std::abs(lanes[best].widthMm - width)) best = l;
  lanes[best].strips.push_back(&section.strips[strip]);
  lanes[best].widthMm = std::max(lanes[best].widthMm, width);
  return share(section, strip + 1, best + 1, lanes);
}

// y' at which all blanks of a lane are clear; nothing when one of them does not reach there before
// the next begins.
std::optional<Intervals> Joiner::bottomsOf(const Lane& lane, size_t to, int direction) const {
  Intervals all;
  for (size_t i = 0; i < lane.strips.size(); ++i) {
    const StripLayout& strip = *lane.strips[i];
    const Footprint f = footprint(strip.kind, direction);
    const int end = i + 1 < lane.strips.size() ? lane.strips[i + 1]->column : sections_[to].to;
    if (!f.fits || strip.column + f.steps > end) return std::nullopt;
    const Intervals here = map_.bottoms(strip.kind, direction, strip.column, f);
    Intervals both;
    if (i > 0) addIntersection(all, here, both);
    all = i > 0 ? both : here;
    if (all.empty()) return std::nullopt;
  }
  return all;
}

std::optional<double> firstFrom(const Intervals& bottoms, double y) {
  for (const Interval& i : bottoms)
    if (i.hi >= y) return std::max(i.lo, y);
  return std::nullopt;
}

// Ways to stack the lanes: begun where a blank lies now, or at a border of what is clear; each next
// one as low as it goes, or where its blanks lie now.
std::vector<std::vector<double>> Joiner::stacks(const std::vector<Lane>& lanes,
                                                const std::vector<Intervals>& bottoms) const {
  std::vector<std::vector<double>> found;
  std::set<double> starts;
  for (const Interval& i : bottoms[0]) starts.insert({i.lo, i.hi});
  for (const StripLayout* strip : lanes[0].strips)
    if (const auto y = firstFrom(bottoms[0], strip->bottomMm)) starts.insert(*y);
  for (const double start : starts)
    for (const bool low : {true, false}) {
      std::vector<double> lows{start};
      for (size_t l = 1; l < lanes.size(); ++l) {
        const double least = lows.back() + lanes[l - 1].widthMm + job_.shop.ripKerfMm;
        double want = least;
        if (!low)
          for (const StripLayout* strip : lanes[l].strips) want = std::max(want, strip->bottomMm);
        auto y = firstFrom(bottoms[l], want);
        if (!y) y = firstFrom(bottoms[l], least);
        if (!y) break;
        lows.push_back(*y);
      }
      if (lows.size() == lanes.size()) found.push_back(std::move(lows));
    }
  return found;
}

std::optional<Weighed> Joiner::laid(size_t from, size_t to, const std::vector<Lane>& lanes,
                                    int direction) const {
  std::vector<Intervals> bottoms;
  for (const Lane& lane : lanes) {
    auto here = bottomsOf(lane, to, direction);
    if (!here) return std::nullopt;
    bottoms.push_back(std::move(*here));
  }
  std::optional<Weighed> best;
  for (const std::vector<double>& lows : stacks(lanes, bottoms)) {
    WrittenSection section{map_.columnX(sections_[from].from),
                           map_.columnX(sections_[to].to) - job_.shop.crosscutKerfMm,
                           map_.angleRad(direction),
                           {}};
    for (size_t l = 0; l < lanes.size(); ++l) {
      WrittenStrip strip{lows[l], lows[l] + lanes[l].widthMm, {}};
      for (const StripLayout* s : lanes[l].strips)
        strip.blanks.push_back(
            writtenBlank(map_, job_, section.angleRad, s->kind, s->column, lows[l]));
      section.strips.push_back(std::move(strip));
    }
    const double pay = payOf(section);
    if (!best || pay > best->pay) best = Weighed{std::move(section), pay};
  }
  return best;
}

Weighed Joiner::joined(size_t from, size_t to) const {
  Weighed best;
  const std::vector<Lane> together = lanes(from, to);
  if (together.empty()) return best;
  std::set<int> directions;
  for (size_t s = from; s <= to; ++s) directions.insert(sections_[s].direction);
  for (const int direction : directions)
    if (auto laidOut = laid(from, to, together, direction); laidOut && laidOut->pay > best.pay)
      best = std::move(*laidOut);
  return best;
}

std::vector<WrittenSection> Joiner::best() const {
  const size_t n = sections_.size();
  std::vector<double> pay(n + 1, -1e300);
  std::vector<Weighed> last(n + 1);
  std::vector<size_t> before(n + 1, 0);
  pay[0] = 0;
  for (size_t end = 1; end <= n; ++end)
    for (size_t from = end; from-- > 0;) {
      Weighed w = from + 1 == end ? alone(from) : joined(from, end - 1);
      if (pay[from] + w.pay <= pay[end]) continue;
      pay[end] = pay[from] + w.pay;
      last[end] = std::move(w);
      before[end] = from;
    }
  std::vector<WrittenSection> sections;
  for (size_t end = n; end > 0; end = before[end]) sections.push_back(std::move(last[end].section));
  std::reverse(sections.begin(), sections.end());
  return sections;
}

}  // namespace

std::vector<WrittenSection> withLongRips(const BoardMap& map, const Job& job,
                                         const BoardLayout& layout, const LongRips& counts) {
  return Joiner(map, job, layout, counts).best();
}

}  // namespace rackside
