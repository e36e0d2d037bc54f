// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/panel_strips.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "core/geometry/polygon.h"
#include "core/plan/blank_kind.h"
#include "core/plan/idle_cuts.h"
#include "core/wood/clear_area.h"

namespace rackside {
namespace {

constexpr size_t kMostCounts = 3;  // of strips that are tried for a panel, besides one piece
constexpr double kSapwoodMm2 = 50;

double greatestHeight(const std::vector<Board>& boards, const Part& part, const Shop& shop) {
  double most = 0;
  for (const Board& b : boards)
    if (woodServes(part.species, b.species, shop.ownSpecies))
      most = std::max(most, bounds(b.outline.polygon()).height());
  return most;
}

const Board* boardOf(const PlanRequest& request, const BoardId& id) {
  for (const Board& b : request.boards)
    if (b.id == id) return &b;
  return nullptr;
}

// Sapwood marked on the side of a strip that is near, or far, with its show face up, mm².
double sapwoodMm2(const PlanRequest& request, const Piece& piece, bool near) {
  const Board* board = boardOf(request, piece.board);
  if (!board) return 0;
  // Seen from below, what is near in the board is far.
  const bool low = near == (piece.showFace == Face::A);
  const double w = piece.widthMm;
  const Polygon half =
      rackside::apply(Pose{piece.outline[0], piece.angleRad},
                      rectangle({0, low ? 0 : w / 2, piece.lengthMm, low ? w / 2 : w}));
  double sum = 0;
  for (const Mark& m : board->marks)
    if (m.kind == MarkKind::sapwood && counts(m) && m.on(piece.showFace))
      sum += area(intersect(polygonsOf(*m.on(piece.showFace)), {half}));
  return sum;
}

struct LaidStrip {
  Piece* piece = nullptr;
  bool turned = false;  // end for end
};

// As they lay in the board, strips with sapwood moved to the outside by turns, and turned so that
// it lies outwards.
std::vector<LaidStrip> inShowOrder(const PlanRequest& request, std::vector<Piece*> strips) {
  std::stable_sort(strips.begin(), strips.end(), [](const Piece* a, const Piece* b) {
    const Rect p = bounds(a->outline), q = bounds(b->outline);
    return std::tie(a->board, p.y0, p.x0) < std::tie(b->board, q.y0, q.x0);
  });
  std::vector<LaidStrip> near, middle, far;
  bool toNear = true;
  for (Piece* strip : strips) {
    const double nearMm2 = sapwoodMm2(request, *strip, true);
    const double farMm2 = sapwoodMm2(request, *strip, false);
    if (nearMm2 + farMm2 <= kSapwoodMm2) {
      middle.push_back({strip, false});
      continue;
    }
    (toNear ? near : far).push_back({strip, toNear ? farMm2 > nearMm2 : nearMm2 > farMm2});
    toNear = !toNear;
  }
  near.insert(near.end(), middle.begin(), middle.end());
  near.insert(near.end(), far.rbegin(), far.rend());
  return near;
}

// The first strip of each part of the panel that is glued and planed by itself.
std::vector<int> subPanels(const Part& part, int strips, const Shop& shop) {
  std::vector<int> starts{0};
  const double each = part.widthMm / strips + 2 * shop.glueLineAllowanceMm;
  if (part.widthMm <= shop.planerWidthMm || shop.planerWidthMm < each) return starts;
  const int most = std::max(1, static_cast<int>(shop.planerWidthMm / each));
  const int groups = (strips + most - 1) / most;
  for (int g = 1; g < groups; ++g) starts.push_back(g * strips / groups);
  return starts;
}

PlannedPanel panelOf(const PlanRequest& request, const Part& part, int copy,
                     const std::vector<Piece*>& strips) {
  PlannedPanel panel;
  panel.part = part.id;
  panel.copy = copy;
  panel.glueLineMm = request.shop.glueLineAllowanceMm;
  std::set<BoardId> boards;
  std::set<Sawn> sawn;
  int number = 0;
  for (const auto& [strip, turned] : inShowOrder(request, strips)) {
    strip->copy = copy;
    strip->strip = ++number;
    strip->kind = PieceKind::panelStrip;
    panel.strips.push_back(strip->id);
    if (turned) panel.turned.push_back(strip->id);
    boards.insert(strip->board);
    if (const Board* b = boardOf(request, strip->board)) sawn.insert(b->sawn);
  }
  panel.subPanelStarts = subPanels(part, number, request.shop);
  if (panel.subPanelStarts.size() > 1)
    panel.remarks.push_back("wider than the planer: glue and plane it in " +
                            std::to_string(panel.subPanelStarts.size()) +
                            " parts, then make the last joints and scrape or sand them flush");
  if (boards.size() > 1)
    panel.remarks.push_back("from " + std::to_string(boards.size()) +
                            " boards: lay the strips out in daylight and match their colour first");
  if (sawn.size() > 1)
    panel.remarks.push_back("flat and quarter sawn strips move unlike each other: check the order");
  return panel;
}

// Pieces of a part, those of one species and board together.
std::vector<std::vector<Piece*>> bySpecies(const PlanRequest& request, const PartId& part,
                                           const std::set<PieceId>& used, Plan& plan) {
  std::map<std::string, std::vector<Piece*>> groups;
  for (Piece& piece : plan.pieces)
    if (piece.part == part && !used.count(piece.id))
      if (const Board* board = boardOf(request, piece.board))
        groups[woodKey(board->species, request.shop.ownSpecies)].push_back(&piece);
  // Boards sawn alike, then of like tone, next to each other.
  const auto likeness = [&request](const Piece* piece) {
    const Board* board = boardOf(request, piece->board);
    const auto tone = request.tones.find(piece->board);
    const BoardTone t = tone == request.tones.end() ? BoardTone{} : tone->second;
    return std::make_tuple(board->sawn, t.lightness, t.warmth, piece->board);
  };
  std::vector<std::vector<Piece*>> all;
  for (auto& [species, pieces] : groups) {
    std::stable_sort(pieces.begin(), pieces.end(),
                     [&](const Piece* a, const Piece* b) { return likeness(a) < likeness(b); });
    all.push_back(std::move(pieces));
  }
  return all;
}

// Whole panels first from single boards, then from what is left of several.
std::vector<std::vector<Piece*>> grouped(const std::vector<Piece*>& pieces, size_t strips) {
  std::vector<std::vector<Piece*>> panels;
  std::vector<Piece*> rest;
  for (size_t i = 0; i < pieces.size();) {
    size_t j = i;
    while (j < pieces.size() && pieces[j]->board == pieces[i]->board) ++j;
    for (; j - i >= strips; i += strips)
      panels.emplace_back(pieces.begin() + static_cast<long>(i),
                          pieces.begin() + static_cast<long>(i + strips));
    for (; i < j; ++i) rest.push_back(pieces[i]);
  }
  for (size_t i = 0; i + strips <= rest.size(); i += strips)
    panels.emplace_back(rest.begin() + static_cast<long>(i),
                        rest.begin() + static_cast<long>(i + strips));
  return panels;
}

// Panels of the plan before whose strips are all there still: they stay what they were.
void keepPanels(const PlanRequest& request, const PartWay& way, Plan& plan, std::set<PieceId>& used,
                std::set<int>& copies) {
  if (!request.current) return;
  const auto strips = static_cast<size_t>(way.strips);
  for (const PlannedPanel& was : request.current->panels) {
    if (was.part != way.part || was.strips.size() != strips) continue;
    std::vector<Piece*> found;
    for (const PieceId& id : was.strips)
      for (Piece& piece : plan.pieces)
        if (piece.id == id && piece.part == way.strip.id) found.push_back(&piece);
    if (found.size() != strips) continue;
    for (size_t i = 0; i < strips; ++i) {
      found[i]->kind = PieceKind::panelStrip;
      found[i]->copy = was.copy;
      found[i]->strip = static_cast<int>(i) + 1;
      used.insert(found[i]->id);
    }
    copies.insert(was.copy);
    plan.panels.push_back(was);
  }
}

// Copies in one piece that bear the number of a panel get another.
void numberWhole(const PartWay& way, Plan& plan, std::set<int>& copies) {
  std::vector<Piece*> again;
  const std::set<int> ofPanels = copies;
  for (Piece& piece : plan.pieces) {
    if (piece.part != way.strip.id) continue;
    if (ofPanels.count(piece.copy))
      again.push_back(&piece);
    else
      copies.insert(piece.copy);
  }
  for (Piece* piece : again) {
    piece->copy = 1;
    while (copies.count(piece->copy)) ++piece->copy;
    copies.insert(piece->copy);
  }
}

// All that is left of the strips of one way.
void makePanels(const PlanRequest& request, const PartWay& way, const Part& part, Plan& plan,
                std::set<PieceId>& used, std::set<int>& copies) {
  int copy = 1;
  for (const auto& pieces : bySpecies(request, way.strip.id, used, plan))
    for (const auto& together : grouped(pieces, static_cast<size_t>(way.strips))) {
      while (copies.count(copy)) ++copy;
      if (copy > part.copies) return;
      copies.insert(copy);
      plan.panels.push_back(panelOf(request, part, copy, together));
      for (const Piece* strip : together) used.insert(strip->id);
    }
}

}  // namespace

bool mayBeGluedUp(const Part& part) {
  return part.glueUp.allowed && part.grain == GrainRule::along && !part.outline;
}

double stripWidthMm(const Part& part, int strips, const Shop& shop) {
  return (part.widthMm + 2 * shop.glueLineAllowanceMm * (strips - 1)) / strips;
}

std::vector<int> stripCounts(const Part& part, const std::vector<Board>& boards, const Shop& shop) {
  std::vector<int> all;
  if (!mayBeGluedUp(part)) return {1};
  const bool whole = part.widthMm + shop.widthAllowanceMm <= greatestHeight(boards, part, shop);
  if (whole) all.push_back(1);
  for (int n = 2; all.size() < kMostCounts + (whole ? 1 : 0); ++n) {
    const double width = stripWidthMm(part, n, shop);
    if (width < part.glueUp.leastStripMm) break;
    if (width <= part.glueUp.greatestStripMm) all.push_back(n);
  }
  return all.empty() ? std::vector<int>{1} : all;
}

std::vector<PartWay> waysOf(const Part& part, const std::vector<int>& counts,
                            const std::vector<Board>& boards, const Shop& shop) {
  std::set<std::string> species{woodKey(part.species, shop.ownSpecies)};
  if (part.species.empty()) {
    species.clear();
    for (const Board& board : boards) species.insert(woodKey(board.species, shop.ownSpecies));
  }
  std::vector<PartWay> ways;
  for (const int n : counts) {
    PartWay way{part, part.id, n, part.species};
    way.strip.glueUp.allowed = false;
    if (n == 1) {
      ways.push_back(way);
      continue;
    }
    way.strip.value = baseValue(part) / n;
    way.strip.widthMm = stripWidthMm(part, n, shop);
    way.strip.copies *= n;
    for (const std::string& wood : species) {
      way.species = way.strip.species = wood;
      way.strip.id.text = part.id.text + " in " + std::to_string(n) + " of " + wood;
      ways.push_back(way);
    }
  }
  return ways;
}

void intoPanels(const PlanRequest& request, const std::vector<PartWay>& ways, Plan& plan) {
  std::set<PieceId> used, spare;
  std::map<PartId, std::set<int>> copies;
  for (const PartWay& way : ways)
    if (way.strips > 1) keepPanels(request, way, plan, used, copies[way.part]);
  for (const PartWay& way : ways)
    if (way.strips == 1) numberWhole(way, plan, copies[way.part]);
  for (const PartWay& way : ways)
    for (const Part& part : request.parts)
      if (way.strips > 1 && part.id == way.part)
        makePanels(request, way, part, plan, used, copies[way.part]);
  for (const PartWay& way : ways)
    for (Piece& piece : plan.pieces) {
      if (piece.part != way.strip.id) continue;
      if (way.strips > 1 && !used.count(piece.id)) spare.insert(piece.id);
      piece.part = way.part;
    }
  takeOut(spare, plan);
}

}  // namespace rackside
