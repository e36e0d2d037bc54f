// SPDX-License-Identifier: GPL-3.0-or-later
// Every rule of the checker is shown sound plans that were broken on purpose: it has to notice
// each.
#include "core/plan/checker.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <nlohmann/json.hpp>
#include <random>

#include "random_racks.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

constexpr int kBroken = 20;  // plans a rule has to catch

struct Case {
  PlanRequest request;
  Plan plan;
  Plan before;  // for pins
  std::mt19937_64 dice;

  template <class T>
  T& any(std::vector<T>& all) {
    return all[dice() % all.size()];
  }
  Board& boardOf(const BoardId& id) {
    return *std::find_if(request.boards.begin(), request.boards.end(),
                         [&](const Board& b) { return b.id == id; });
  }
  Part& partOf(const Piece& piece) {
    return *std::find_if(request.parts.begin(), request.parts.end(),
                         [&](const Part& p) { return p.id == piece.part; });
  }
  std::vector<Piece*> piecesOf(const BlankId& blank) {
    std::vector<Piece*> all;
    for (Piece& p : plan.pieces)
      if (p.blank == blank) all.push_back(&p);
    return all;
  }
  void move(Blank& blank, Point by) {
    blank.boardFromBlank.origin = blank.boardFromBlank.origin + by;
    for (Piece* p : piecesOf(blank.id))
      for (Point& q : p->outline) q = q + by;
  }
  void turn(Blank& blank, double byRad) {
    const Pose turned{{0, 0}, byRad};
    blank.boardFromBlank.origin = rackside::apply(turned, blank.boardFromBlank.origin);
    blank.boardFromBlank.angleRad += byRad;
    for (Piece* p : piecesOf(blank.id)) {
      p->outline = rackside::apply(turned, p->outline);
      p->angleRad += byRad;
    }
  }
};

// Breaks the plan; false when this one gives no occasion to.
using Break = std::function<bool(Case&)>;

Plan firstPlanOf(const PlanRequest& request) {
  RunControl control;
  PlanOptions options;
  options.onBetter = [&](const Plan&) { control.stop(); };
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  return plan.value();
}

const std::vector<Case>& soundPlans() {
  static const std::vector<Case> cases = [] {
    std::vector<Case> all;
    for (unsigned seed = 1; seed <= 40; ++seed) {
      Case c{randomRack({3, 18, seed, 0.8}), {}, {}, std::mt19937_64(seed)};
      c.plan = firstPlanOf(c.request);
      if (c.plan.pieces.size() >= 3) all.push_back(std::move(c));
    }
    return all;
  }();
  return cases;
}

const std::vector<Case>& plansWithPanels() {
  static const std::vector<Case> cases = [] {
    std::vector<Case> all;
    for (unsigned seed = 1; seed <= 40 && all.size() < 6; ++seed) {
      Case c{randomRack({5, 16, seed, 0.7, false, true}), {}, {}, std::mt19937_64(seed)};
      PlanOptions options;
      options.limitSeconds = 0.3;
      RunControl control;
      c.plan = makePlan(c.request, options, control).value();
      if (!c.plan.panels.empty()) all.push_back(std::move(c));
    }
    return all;
  }();
  return cases;
}

Point middle(const Polygon& p) {
  const Rect box = bounds(p);
  return {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

void addMark(Board& board, MarkKind kind, Face face, Point at) {
  Mark m;
  m.id = {"broken-by-hand"};
  m.kind = kind;  // nobody judged it: no part may hold it
  m.on(face) = Ellipse{at, 6, 6, 0};
  board.marks.push_back(m);
}

bool markOn(Case& c, Face face) {
  const Blank& blank = c.any(c.plan.blanks);
  addMark(c.boardOf(blank.board), MarkKind::knot, face, middle(c.piecesOf(blank.id)[0]->outline));
  return true;
}

bool hideShownFace(Case& c) {
  const Piece& piece = c.any(c.plan.pieces);
  if (c.partOf(piece).showing == Showing::none) return false;
  Board& board = c.boardOf(piece.board);
  Picture other;
  other.face = otherFace(piece.showFace);
  board.pictures = {other};
  board.marks.clear();
  return true;
}

bool onOther(Case& c) {
  for (Blank& a : c.plan.blanks)
    for (Blank& b : c.plan.blanks) {
      if (&a == &b || a.board != b.board) continue;
      c.move(b, middle(a.roughOutline()) - middle(b.roughOutline()));
      return true;
    }
  return false;
}

bool spoilPanel(Case& c) {
  if (c.plan.panels.empty()) return false;
  PlannedPanel& panel = c.any(c.plan.panels);
  const auto strip = std::find_if(c.plan.pieces.begin(), c.plan.pieces.end(),
                                  [&](const Piece& p) { return p.id == panel.strips.back(); });
  switch (c.dice() % 4) {
    case 0:
      strip->widthMm -= 1;  // the panel is too narrow
      return true;
    case 1:
      strip->strip += 1;
      return true;
    case 2:
      std::swap(panel.strips.front(), panel.strips.back());
      return true;
    default:
      c.partOf(*strip).glueUp.allowed = false;
      return true;
  }
}

bool divideTwice(Case& c) {
  Cut& cut = c.any(c.plan.cuts);
  Cut& other = c.any(c.plan.cuts);
  if (&cut == &other || cut.board != other.board) return false;
  cut.parent = other.parent;
  cut.leftOfParent = other.leftOfParent;
  return true;
}

bool ripFree(Case& c) {
  for (Cut& cut : c.plan.cuts)
    if (cut.firstRip && c.dice() % 3 == 0) {
      cut.firstRip = false;
      return true;
    }
  return false;
}

bool closeUp(Case& c) {
  for (const Blank& blank : c.plan.blanks) {
    const auto pieces = c.piecesOf(blank.id);
    if (pieces.size() < 2) continue;
    const double a = blank.boardFromBlank.angleRad;
    for (Point& q : pieces[1]->outline) q = q - 2.0 * Point{std::cos(a), std::sin(a)};
    return true;
  }
  return false;
}

bool pinAndMove(Case& c) {
  c.before = c.plan;
  Piece& piece = c.any(c.plan.pieces);
  c.request.current = &c.before;
  c.request.pinned = {piece.id};
  for (Point& q : piece.outline) q.x += 0.5;
  return true;
}

// What breaks each rule.
const std::vector<std::pair<std::string, Break>>& breaks() {
  static const std::vector<std::pair<std::string, Break>> all{
      {"ids", [](Case& c) { return c.any(c.plan.pieces).blank = {"nowhere"}, true; }},
      {"inside",
       [](Case& c) {
         return c.move(c.any(c.plan.blanks), {0, 350}), true;
       }},
      {"ends",
       [](Case& c) {
         Blank& b = c.any(c.plan.blanks);
         c.move(b, {20 - bounds(b.roughOutline()).x0, 0});
         return true;
       }},
      {"clear-face-a", [](Case& c) { return markOn(c, Face::A); }},
      {"clear-face-b", [](Case& c) { return markOn(c, Face::B); }},
      {"unseen-face", hideShownFace},
      {"metal",
       [](Case& c) {
         const Cut& cut = c.any(c.plan.cuts);
         addMark(c.boardOf(cut.board), MarkKind::metal, Face::A,
                 0.5 * (cut.line.from + cut.line.to));
         return true;
       }},
      {"board-use",
       [](Case& c) {
         const BoardId id = c.any(c.plan.cuts).board;
         if (c.dice() % 2 == 0)
           c.boardOf(id).state = BoardState::setAside;
         else
           c.request.forbidden = {id};
         return true;
       }},
      {"cut-order", [](Case& c) { return c.any(c.plan.cuts).order += 1, true; }},
      {"cut-tree", divideTwice},
      {"edge-to-edge",
       [](Case& c) {
         Cut& cut = c.any(c.plan.cuts);
         cut.line.to = 0.5 * (cut.line.from + cut.line.to);
         return true;
       }},
      {"stages", ripFree},
      {"kerf",
       [](Case& c) {
         Cut& cut = c.any(c.plan.cuts);
         if (cut.kerfMm == 0) return false;  // an edge to joint
         return cut.kerfMm *= 0.6, true;
       }},
      {"slices",
       [](Case& c) {
         (*c.request.shop.extra)["least_rip_in_mm"] = 50;
         return std::any_of(c.plan.cuts.begin(), c.plan.cuts.end(), [](const Cut& cut) {
           return cut.firstRip && cut.kerfMm > 0 && cut.offsetAtFromMm < 40 &&
                  cut.offsetAtToMm < 40;
         });
       }},
      // Wood is left on that is no part of the rough piece.
      {"surplus", [](Case& c) { return c.any(c.plan.blanks).roughLengthMm -= 120, true; }},
      {"free",
       [](Case& c) {
         Blank& blank = c.any(c.plan.blanks);
         const CutId was = blank.lastCut;
         for (const Cut& cut : c.plan.cuts)
           if (cut.board == blank.board && cut.kind == CutKind::crosscut) blank.lastCut = cut.id;
         return blank.lastCut != was;
       }},
      {"overlap", onOther},
      {"piece-size",
       [](Case& c) {
         for (Point& q : c.any(c.plan.pieces).outline) q.x *= 1.01;
         return true;
       }},
      {"piece-in-blank",
       [](Case& c) {
         Piece& piece = c.any(c.plan.pieces);
         for (Point& q : piece.outline) q.y += 40;
         return true;
       }},
      {"parting", closeUp},
      {"allowance",
       [](Case& c) {
         // Shorter than its longest piece and what is milled off: a short blank is longer to be
         // milled safely.
         Blank& blank = c.any(c.plan.blanks);
         double longest = 0;
         for (const Piece* p : c.piecesOf(blank.id)) longest = std::max(longest, p->lengthMm);
         blank.roughLengthMm = longest + 1;
         return true;
       }},
      {"thickness",
       [](Case& c) {
         const Blank& blank = c.any(c.plan.blanks);
         c.boardOf(blank.board).thicknessMm = blank.finishedThicknessMm + 1;
         return true;
       }},
      {"safe-size",
       [](Case& c) {
         c.request.shop.shortestSafeMm = c.any(c.plan.blanks).roughLengthMm + 1;
         return true;
       }},
      {"copies",
       [](Case& c) {
         Piece& piece = c.any(c.plan.pieces);
         piece.copy = c.partOf(piece).copies + 1;
         return true;
       }},
      {"accounted",
       [](Case& c) {
         if (c.plan.unplaced.empty()) return false;
         c.plan.unplaced.pop_back();
         return true;
       }},
      {"species",
       [](Case& c) {
         const Piece& piece = c.any(c.plan.pieces);
         if (c.partOf(piece).species.empty()) return false;
         c.boardOf(piece.board).species = "elm";
         return true;
       }},
      {"grain",
       [](Case& c) {
         Blank& blank = c.any(c.plan.blanks);
         if (c.partOf(*c.piecesOf(blank.id)[0]).grain == GrainRule::free) return false;
         c.turn(blank, 0.25);
         return true;
       }},
      {"made",
       [](Case& c) {
         Cut& cut = c.any(c.plan.cuts);
         if (c.dice() % 2 == 0) {
           // A cut that was made is planned away, or somewhere else.
           c.before = c.plan;
           for (Cut& was : c.before.cuts)
             if (was.id == cut.id) was.made = true;
           c.request.current = &c.before;
           cut.made = c.dice() % 2 == 0;
           if (cut.made) cut.line.from = cut.line.from + Point{0, 1};
           return true;
         }
         if (!cut.parent) return false;
         cut.made = true;  // while the cut before it is not
         return true;
       }},
      {"pins", pinAndMove},
      {"panel", spoilPanel},
      {"value",
       [](Case& c) {
         if (c.dice() % 2 == 0)
           c.plan.value *= 1.001;
         else
           c.plan.bound = c.plan.value * 0.999;
         return true;
       }},
  };
  return all;
}

bool catches(const Case& c, const std::string& rule) {
  const auto breaches = checkPlan(c.request, c.plan);
  return std::any_of(breaches.begin(), breaches.end(),
                     [&](const Breach& b) { return b.rule == rule; });
}

}  // namespace

TEST_CASE("each rule of the checker catches twenty plans broken against it", "[checker]") {
  for (const Case& c : soundPlans()) REQUIRE(checkPlan(c.request, c.plan).empty());
  for (const auto& [rule, spoil] : breaks()) {
    const auto& plans = rule == "panel" ? plansWithPanels() : soundPlans();
    int broken = 0, caught = 0;
    for (int round = 0; round < 6 && broken < kBroken; ++round)
      for (const Case& sound : plans) {
        if (broken >= kBroken) break;
        Case c = sound;
        c.dice.discard(static_cast<unsigned long long>(round) * 7);
        if (!spoil(c)) continue;
        ++broken;
        if (catches(c, rule)) ++caught;
      }
    INFO("rule " << rule << ": " << caught << " of " << broken);
    CHECK(broken >= kBroken);
    CHECK(caught == broken);
  }
}
