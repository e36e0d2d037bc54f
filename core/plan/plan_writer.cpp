// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan_writer.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "core/plan/worth.h"

namespace rackside {
namespace {

// Trims and second rips nearer than this to a cut already made are that cut.
constexpr double kSameCutMm = 1e-6;

Interval chordAt(const Polygon& p, double x) {
  Interval chord{1e9, -1e9};
  for (size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    if (std::min(a.x, b.x) > x || std::max(a.x, b.x) < x) continue;
    const double share = a.x == b.x ? 0 : (x - a.x) / (b.x - a.x);
    for (const double y : {a.y + (b.y - a.y) * share, a.x == b.x ? b.y : a.y + (b.y - a.y) * share})
      chord = {std::min(chord.lo, y), std::max(chord.hi, y)};
  }
  return chord;
}

Segment turnedRound(const Segment& s) {
  return {s.to, s.from};
}

Polygon finishedOutline(const Part& part, Face showFace) {
  if (!part.outline) return rectangle({0, 0, part.lengthMm, part.widthMm});
  Polygon p = *part.outline;
  // Shown on face B it is seen from below: mirrored in the board's frame.
  if (showFace == Face::B) {
    for (Point& q : p) q.y = part.widthMm - q.y;
    std::reverse(p.begin(), p.end());
  }
  return p;
}

Rect boxAbout(Point centre, double length, double width) {
  return {centre.x - length / 2, centre.y - width / 2, centre.x + length / 2, centre.y + width / 2};
}

}  // namespace

struct PlanWriter::Region {
  std::optional<CutId> parent;
  bool left = true;
};

PlanWriter::PlanWriter(const PlanRequest& request, const PlanOptions& options, const Job& job)
    : request_(request), options_(options), job_(job), placed_(job.parts.size(), 0) {
  plan_.seed = options.seed;
}

std::string PlanWriter::nextId(const char* prefix) {
  return seededIdText(prefix, options_.seed, ids_++);
}

Cut& PlanWriter::addCut(const BoardMap& map, CutKind kind, const Segment& line, double kerfMm,
                        const Region& region, const std::string& label) {
  Cut cut;
  cut.id = {nextId("cut")};
  cut.board = map.board().id;
  cut.order = ++order_;
  cut.kind = kind;
  cut.line = line;
  cut.kerfMm = kerfMm;
  cut.parent = region.parent;
  cut.leftOfParent = region.left;
  cut.label = label;
  plan_.cuts.push_back(std::move(cut));
  return plan_.cuts.back();
}

PlanWriter::Region PlanWriter::cutSections(const BoardMap& map, const BoardLayout& layout,
                                           std::vector<Region>& sections) {
  const Polygon outline = map.board().outline.polygon();
  const double kerf = job_.shop.crosscutKerfMm;
  const auto upright = [&](double x) {
    const Interval chord = chordAt(outline, x);
    return Segment{{x, chord.lo}, {x, chord.hi}};
  };
  Region rest;
  int restFrom = -1;
  for (size_t i = 0; i < layout.sections.size(); ++i) {
    const SectionLayout& s = layout.sections[i];
    const std::string number = std::to_string(i + 1);
    if (s.from != restFrom) {
      Cut& fresh = addCut(map, CutKind::crosscut, turnedRound(upright(map.columnX(s.from))), kerf,
                          rest, i == 0 ? "square the first end" : "cut out waste");
      fresh.wasteIsRight = true;
      rest = {fresh.id, true};
    }
    Cut& end = addCut(map, CutKind::crosscut, upright(map.columnX(s.to) - kerf), kerf, rest,
                      "section " + number);
    end.wasteIsRight = i + 1 == layout.sections.size();
    sections.push_back({end.id, true});
    rest = {end.id, false};
    restFrom = s.to;
  }
  return rest;
}

void PlanWriter::add(const BoardMap& map, const BoardLayout& layout) {
  order_ = 0;
  std::vector<Region> sections;
  if (layout.sections.empty()) return;
  cutSections(map, layout, sections);
  for (size_t i = 0; i < layout.sections.size(); ++i)
    ripSection(map, layout.sections[i], sections[i]);
  plan_.stockMm2 += stockUsedMm2(map, layout, job_.shop);
}

void PlanWriter::ripSection(const BoardMap& map, const SectionLayout& section, Region region) {
  const double angle = map.angleRad(section.direction);
  const double x0 = map.columnX(section.from);
  const double x1 = map.columnX(section.to) - job_.shop.crosscutKerfMm;
  const auto along = [&](double across) {
    return Segment{fromRip(x0, across, angle), fromRip(x1, across, angle)};
  };
  const Polygon outline = map.board().outline.polygon();
  double freeFrom = -1e9;
  bool first = true;
  for (const StripLayout& strip : section.strips) {
    if (first || strip.bottomMm > freeFrom + kSameCutMm) {
      const Segment line = along(strip.bottomMm);
      const double kerf = first ? job_.shop.firstRipKerfMm : job_.shop.ripKerfMm;
      Cut& below = addCut(map, CutKind::rip, line, kerf, region,
                          first ? "first rip, on the laid line" : "rip off waste");
      below.firstRip = first;
      below.wasteIsRight = true;
      if (first) {
        below.offsetAtFromMm = line.from.y - chordAt(outline, x0).lo;
        below.offsetAtToMm = line.to.y - chordAt(outline, x1).lo;
      }
      region = {below.id, true};
    }
    first = false;
    const double top = strip.bottomMm + job_.kinds[strip.kind].roughWidthMm;
    Cut& above = addCut(map, CutKind::rip, turnedRound(along(top)), job_.shop.ripKerfMm, region,
                        "rip to width");
    above.wasteIsRight = &strip == &section.strips.back();
    const CutId id = above.id;
    finishStrip(map, section, strip, {id, true});
    region = {id, false};
    freeFrom = top + job_.shop.ripKerfMm;
  }
}

void PlanWriter::finishStrip(const BoardMap& map, const SectionLayout& section,
                             const StripLayout& strip, Region region) {
  const BlankKind& kind = job_.kinds[strip.kind];
  const Part& part = job_.parts[kind.part];
  const double angle = map.angleRad(section.direction);
  const double sine = std::sin(angle), cosine = std::cos(angle);
  const Footprint f = footprintOf(kind, grainToleranceRad(part), angle, job_.cellMm,
                                  job_.shop.crosscutKerfMm, Reading::forPlans);
  const double low = strip.bottomMm, high = low + kind.roughWidthMm;
  // Along the rip, u = x cos a + y sin a: where the blank's leftmost corner meets its column.
  const double u0 = (map.columnX(strip.column) + std::max(low * sine, high * sine)) / cosine;
  const double u1 = u0 + f.roughLengthMm;
  const auto at = [&](double u, double v) {
    return Point{u * cosine - v * sine, u * sine + v * cosine};
  };
  const double kerf = job_.shop.crosscutKerfMm;
  if (angle != 0 || u1 < map.columnX(section.to) - kerf - kSameCutMm) {
    Cut& end =
        addCut(map, CutKind::trim, {at(u1, low), at(u1, high)}, kerf, region, "trim to length");
    end.wasteIsRight = true;
    region = {end.id, true};
  }
  if (angle != 0 || strip.column > section.from) {
    Cut& start =
        addCut(map, CutKind::trim, {at(u0, high), at(u0, low)}, kerf, region, "trim the near end");
    start.wasteIsRight = true;
    region = {start.id, true};
  }
  Blank blank;
  blank.id = {nextId("blank")};
  blank.board = map.board().id;
  blank.boardFromBlank = {at(u0, low), angle};
  blank.roughLengthMm = f.roughLengthMm;
  blank.roughWidthMm = kind.roughWidthMm;
  blank.finishedThicknessMm = part.thicknessMm;
  blank.takeOffAMm = blank.takeOffBMm = (map.board().thicknessMm - part.thicknessMm) / 2;
  blank.lastCut = *region.parent;
  if (blank.roughWidthMm > job_.shop.jointerWidthMm)
    blank.remarks.push_back(
        "wider than the jointer: flatten one face on a sled through the planer, then turn it; or "
        "rip it and glue it up again");
  addPieces(map, blank, kind);
  plan_.blanks.push_back(std::move(blank));
}

void PlanWriter::addPieces(const BoardMap& map, const Blank& blank, const BlankKind& kind) {
  const Part& part = job_.parts[kind.part];
  const double end = (blank.roughLengthMm - kind.clearLengthMm) / 2;
  const double side = (blank.roughWidthMm - kind.pieceWidthMm) / 2;
  const ValueMap* look = lookMap(request_.worth, map.board().id, kind.showFace, part.look);
  for (int i = 0; i < kind.copies; ++i) {
    const double x = end + i * (kind.pieceLengthMm + job_.shop.crosscutKerfMm);
    const Point corner{kind.turned ? x + kind.pieceLengthMm : x, side};
    const Pose blankFromPart{corner, kind.turned ? std::numbers::pi / 2 : 0};
    Piece piece;
    piece.id = {nextId("piece")};
    piece.part = part.id;
    piece.copy = ++placed_[kind.part];
    if (piece.copy > part.copies) throw std::logic_error("PlanWriter: more copies than wanted");
    piece.blank = blank.id;
    piece.board = blank.board;
    piece.showFace = kind.showFace;
    piece.outline = rackside::apply(
        blank.boardFromBlank, rackside::apply(blankFromPart, finishedOutline(part, kind.showFace)));
    piece.lengthMm = part.lengthMm;
    piece.widthMm = part.widthMm;
    piece.angleRad = blank.boardFromBlank.angleRad + blankFromPart.angleRad;
    const Point centre = rackside::apply(
        blank.boardFromBlank, {x + kind.pieceLengthMm / 2, side + kind.pieceWidthMm / 2});
    piece.worth = pieceWorth(part, look, options_.weights.look,
                             boxAbout(centre, kind.pieceLengthMm, kind.pieceWidthMm));
    plan_.value += piece.worth;
    plan_.pieces.push_back(std::move(piece));
  }
}

Plan PlanWriter::take() {
  return std::move(plan_);
}

double stockUsedMm2(const BoardMap& map, const BoardLayout& layout, const Shop& shop) {
  if (layout.sections.empty()) return 0;
  const Polygon outline = map.board().outline.polygon();
  const Rect box = bounds(outline);
  const double usedTo = map.columnX(layout.sections.back().to);
  if (box.x1 - usedTo < shop.usefulOffcutLengthMm) return area({outline});
  return area(intersect({outline}, {rectangle({box.x0, box.y0, usedTo, box.y1})}));
}

}  // namespace rackside
