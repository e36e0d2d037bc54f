// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan_writer.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "core/plan/blank_remarks.h"
#include "core/plan/drying.h"
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
    : request_(request), options_(options), job_(job), used_(job.parts.size()) {
  plan_.seed = options.seed;
}

void PlanWriter::keep(const std::vector<Piece>& pieces, const std::vector<Blank>& blanks,
                      const std::vector<Cut>& cuts) {
  for (const Piece& piece : pieces) {
    keptIds_.insert(piece.id.text);
    for (size_t p = 0; p < job_.parts.size(); ++p)
      if (job_.parts[p].id == piece.part) used_[p].insert(piece.copy);
  }
  for (const Blank& blank : blanks) keptIds_.insert(blank.id.text);
  for (const Cut& cut : cuts) keptIds_.insert(cut.id.text);
}

void PlanWriter::keepBoard(const Plan& plan, const BoardId& board) {
  for (const Piece& piece : plan.pieces)
    if (piece.board == board) keep({piece}, {}, {});
  for (const Blank& blank : plan.blanks)
    if (blank.board == board) keep({}, {blank}, {});
  for (const Cut& cut : plan.cuts)
    if (cut.board == board) keep({}, {}, {cut});
}

void PlanWriter::reserveIds(const Plan& plan) {
  for (const Piece& piece : plan.pieces) keptIds_.insert(piece.id.text);
  for (const Blank& blank : plan.blanks) keptIds_.insert(blank.id.text);
  for (const Cut& cut : plan.cuts) keptIds_.insert(cut.id.text);
}

std::string PlanWriter::nextId(const char* prefix) {
  std::string id = seededIdText(prefix, options_.seed, ids_++);
  while (keptIds_.count(id)) id = seededIdText(prefix, options_.seed, ids_++);
  return id;
}

int PlanWriter::nextCopy(int part) {
  int copy = 1;
  while (used_[part].count(copy)) ++copy;
  if (copy > job_.parts[part].copies) throw std::logic_error("PlanWriter: more copies than wanted");
  used_[part].insert(copy);
  return copy;
}

Cut& PlanWriter::addCut(CutKind kind, const Segment& line, double kerfMm, const Region& region,
                        const std::string& label) {
  Cut cut;
  cut.id = {nextId("cut")};
  cut.board = board_->id;
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

void PlanWriter::cutSections(const std::vector<WrittenSection>& sections,
                             std::vector<Region>& regions) {
  const double kerf = job_.shop.crosscutKerfMm;
  const auto upright = [&](double x) {
    const Interval chord = chordAt(outline_, x);
    return Segment{{x, chord.lo}, {x, chord.hi}};
  };
  Region rest;
  double restFrom = -1e9;
  for (size_t i = 0; i < sections.size(); ++i) {
    const WrittenSection& s = sections[i];
    if (s.x0 > restFrom + kSameCutMm) {
      Cut& fresh = addCut(CutKind::crosscut, turnedRound(upright(s.x0)), kerf, rest,
                          i == 0 ? "square the first end" : "cut out waste");
      fresh.wasteIsRight = true;
      rest = {fresh.id, true};
    }
    Cut& end =
        addCut(CutKind::crosscut, upright(s.x1), kerf, rest, "section " + std::to_string(i + 1));
    end.wasteIsRight = i + 1 == sections.size();
    regions.push_back({end.id, true});
    rest = {end.id, false};
    restFrom = s.x1 + kerf;
  }
}

void PlanWriter::add(const Board& board, const std::vector<WrittenSection>& sections) {
  if (sections.empty()) return;
  order_ = 0;
  board_ = &board;
  outline_ = board.outline.polygon();
  std::vector<Region> regions;
  cutSections(sections, regions);
  for (size_t i = 0; i < sections.size(); ++i) ripSection(sections[i], regions[i]);
  plan_.stockMm2 += stockUsedMm2(board, sections, job_.shop);
}

void PlanWriter::addAsItIs(const Plan& plan, const Board& board) {
  double usedTo = -1e9;
  for (const Blank& blank : plan.blanks)
    if (blank.board == board.id) plan_.blanks.push_back(blank);
  for (const Cut& cut : plan.cuts) {
    if (cut.board != board.id) continue;
    plan_.cuts.push_back(cut);
    if (cut.kind == CutKind::crosscut) usedTo = std::max({usedTo, cut.line.from.x, cut.line.to.x});
  }
  for (const Piece& piece : plan.pieces)
    if (piece.board == board.id) addPiece(piece);
  if (usedTo > -1e9)
    plan_.stockMm2 +=
        stockUpToMm2(board.outline.polygon(), usedTo + job_.shop.crosscutKerfMm, job_.shop);
}

void PlanWriter::ripSection(const WrittenSection& section, Region region) {
  const double angle = section.angleRad;
  const auto along = [&](double across) {
    return Segment{fromRip(section.x0, across, angle), fromRip(section.x1, across, angle)};
  };
  double freeFrom = -1e9;
  bool first = true;
  for (const WrittenStrip& strip : section.strips) {
    if (first || strip.low > freeFrom + kSameCutMm) {
      const Segment line = along(strip.low);
      const double kerf = first ? job_.shop.firstRipKerfMm : job_.shop.ripKerfMm;
      Cut& below = addCut(CutKind::rip, line, kerf, region,
                          first ? "first rip, on the laid line" : "rip off waste");
      below.firstRip = first;
      below.wasteIsRight = true;
      if (first) {
        below.offsetAtFromMm = line.from.y - chordAt(outline_, section.x0).lo;
        below.offsetAtToMm = line.to.y - chordAt(outline_, section.x1).lo;
      }
      region = {below.id, true};
    }
    first = false;
    Cut& above = addCut(CutKind::rip, turnedRound(along(strip.high)), job_.shop.ripKerfMm, region,
                        "rip to width");
    above.wasteIsRight = &strip == &section.strips.back();
    const CutId id = above.id;
    finishStrip(section, strip, {id, true});
    region = {id, false};
    freeFrom = strip.high + job_.shop.ripKerfMm;
  }
}

// Blank after blank along the strip: cut off at its far end, and trimmed at its near one where
// waste lies before it. Where the section's crosscuts end the strip square, they end its blanks.
void PlanWriter::finishStrip(const WrittenSection& section, const WrittenStrip& strip,
                             Region region) {
  const double angle = section.angleRad;
  const double sine = std::sin(angle), cosine = std::cos(angle);
  const auto at = [&](double u, double v) {
    return Point{u * cosine - v * sine, u * sine + v * cosine};
  };
  const double kerf = job_.shop.crosscutKerfMm;
  double freeFrom = angle != 0 ? -1e9 : section.x0;
  const auto trimStart = [&](const WrittenBlank& blank) {
    if (blank.start <= freeFrom + kSameCutMm) return;
    Cut& start = addCut(CutKind::trim, {at(blank.start, strip.high), at(blank.start, strip.low)},
                        kerf, region, "trim the near end");
    start.wasteIsRight = true;
    region = {start.id, true};
  };
  for (const WrittenBlank& blank : strip.blanks) {
    const bool isFirst = &blank == &strip.blanks.front();
    const bool isLast = &blank == &strip.blanks.back();
    if (!isFirst) trimStart(blank);
    Region rest = region;
    if (!isLast || angle != 0 || blank.end < section.x1 - kSameCutMm) {
      Cut& end = addCut(CutKind::trim, {at(blank.end, strip.low), at(blank.end, strip.high)}, kerf,
                        region, isLast ? "trim to length" : "cut to length");
      end.wasteIsRight = isLast;
      region = {end.id, true}, rest = {end.id, false};
    }
    if (isFirst) trimStart(blank);
    if (blank.pinned)
      addPinned(*blank.pinned, *region.parent);
    else
      addPlanned(section, strip.low, blank, *region.parent);
    region = rest;
    freeFrom = blank.end + kerf;
  }
}

void PlanWriter::finishBlank(Blank& blank, const Part& part, const CutId& lastCut) {
  blank.finishedThicknessMm = part.thicknessMm;
  blank.takeOffAMm = blank.takeOffBMm =
      (driedThicknessMm(*board_, job_.shop) - part.thicknessMm) / 2;
  blank.lastCut = lastCut;
  blank.remarks = remarksOn(blank, *board_, part, job_.shop);
}

void PlanWriter::addPlanned(const WrittenSection& section, double lowMm,
                            const WrittenBlank& written, const CutId& lastCut) {
  const BlankKind& kind = job_.kinds[written.kind];
  const double sine = std::sin(section.angleRad), cosine = std::cos(section.angleRad);
  Blank blank;
  blank.id = {nextId("blank")};
  blank.board = board_->id;
  blank.boardFromBlank = {
      {written.start * cosine - lowMm * sine, written.start * sine + lowMm * cosine},
      section.angleRad};
  blank.roughLengthMm = written.end - written.start;
  blank.roughWidthMm = kind.roughWidthMm;
  finishBlank(blank, job_.parts[kind.part], lastCut);
  addPieces(blank, kind);
  plan_.blanks.push_back(std::move(blank));
}

void PlanWriter::addPinned(const PinnedBlank& pinned, const CutId& lastCut) {
  Blank blank = pinned.blank;
  for (const Part& part : job_.parts)
    if (part.id == pinned.pieces[0].part) finishBlank(blank, part, lastCut);
  plan_.blanks.push_back(std::move(blank));
  for (const Piece& piece : pinned.pieces) addPiece(piece);
}

void PlanWriter::addPiece(Piece piece) {
  for (const Part& part : job_.parts)
    if (part.id == piece.part) piece.worth = placedWorth(request_, options_.weights, part, piece);
  plan_.value += piece.worth;
  plan_.pieces.push_back(std::move(piece));
}

void PlanWriter::addPieces(const Blank& blank, const BlankKind& kind) {
  const Part& part = job_.parts[kind.part];
  const double end = (blank.roughLengthMm - kind.clearLengthMm) / 2;
  const double widthMm = kind.turned ? part.lengthMm : part.widthMm;
  const double side = (blank.roughWidthMm - widthMm) / 2;
  const ValueMap* look = lookMap(request_.worth, board_->id, kind.showFace, part.look);
  for (int i = 0; i < kind.copies; ++i) {
    const double x = end + i * (kind.pieceLengthMm + job_.shop.crosscutKerfMm);
    const Point corner{kind.turned ? x + kind.pieceLengthMm : x, side};
    const Pose blankFromPart{corner, kind.turned ? std::numbers::pi / 2 : 0};
    Piece piece;
    piece.id = {nextId("piece")};
    piece.part = part.id;
    piece.copy = nextCopy(kind.part);
    piece.blank = blank.id;
    piece.board = blank.board;
    piece.showFace = kind.showFace;
    piece.outline = rackside::apply(
        blank.boardFromBlank, rackside::apply(blankFromPart, finishedOutline(part, kind.showFace)));
    piece.lengthMm = part.lengthMm;
    piece.widthMm = part.widthMm;
    piece.angleRad = blank.boardFromBlank.angleRad + blankFromPart.angleRad;
    const Point centre =
        rackside::apply(blank.boardFromBlank, {x + kind.pieceLengthMm / 2, side + widthMm / 2});
    piece.worth = pieceWorth(part, look, options_.weights.look,
                             boxAbout(centre, kind.pieceLengthMm, kind.pieceWidthMm));
    plan_.value += piece.worth;
    plan_.pieces.push_back(std::move(piece));
  }
}

Plan PlanWriter::take() {
  return std::move(plan_);
}

double stockUsedMm2(const Board& board, const std::vector<WrittenSection>& sections,
                    const Shop& shop) {
  if (sections.empty()) return 0;
  return stockUpToMm2(board.outline.polygon(), sections.back().x1 + shop.crosscutKerfMm, shop);
}

}  // namespace rackside
