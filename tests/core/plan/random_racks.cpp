// SPDX-License-Identifier: GPL-3.0-or-later
#include "random_racks.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "core/plan/checker.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

namespace rackside::testing {
namespace {

class Dice {
 public:
  explicit Dice(unsigned long long seed) : engine_(seed) {}
  // Not std::uniform_real_distribution: the same numbers with every library.
  double between(double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  }
  int whole(int lo, int hi) { return std::min(hi, static_cast<int>(between(lo, hi + 1))); }
  bool chance(double p) { return between(0, 1) < p; }

 private:
  std::mt19937_64 engine_;
};

Outline roughOutline(Dice& dice, double length, double width) {
  const double taper = dice.between(-0.006, 0.006) * length / 2;
  const double crook = dice.chance(0.5) ? dice.between(-18, 18) : 0;
  const double wane = dice.chance(0.3) ? dice.between(2, 8) : 0.7;
  const double phase = dice.between(0, 6), pitch = dice.between(300, 900);
  const double sigma = dice.between(0.2, 0.5);
  const int n = static_cast<int>(length / 90);
  std::vector<Point> low, high;
  for (int i = 0; i <= n; ++i) {
    const double x = length * i / n, u = 2.0 * i / n - 1;
    const double bend = crook * (1 - u * u), wave = wane * std::sin(phase + 2 * M_PI * x / pitch);
    low.push_back({x, 20 + bend + wave});
    high.push_back({x, 20 + width + bend + taper * u + wane * std::sin(phase * 2 + x / 70)});
  }
  Outline o;
  for (const Point p : low) o.vertices.push_back({p, sigma, EdgeState::sure});
  for (auto p = high.rbegin(); p != high.rend(); ++p)
    o.vertices.push_back({*p, sigma, EdgeState::sure});
  if (dice.chance(0.4)) o.vertices[static_cast<size_t>(dice.whole(2, n))].state = EdgeState::unsure;
  return o;
}

Mark knot(Dice& dice, double length, double width) {
  Mark m;
  m.kind = MarkKind::knot;
  const double r = dice.between(4, 18);
  const Ellipse e{{dice.between(0, length), 20 + dice.between(0, width)},
                  r * dice.between(1, 1.8),
                  r,
                  dice.between(-0.3, 0.3)};
  m.through = dice.chance(0.5);
  (dice.chance(0.6) || m.through ? m.onA : m.onB) = e;
  // Small loose ones are dug out and filled; of the large nobody has said what they are.
  const Soundness otherwise = r < 7 ? Soundness::loose : Soundness::unknown;
  m.soundness = dice.chance(0.5) ? Soundness::sound : otherwise;
  return m;
}

Mark check(Dice& dice, double length, double width) {
  Mark m;
  m.kind = dice.chance(0.6) ? MarkKind::check : MarkKind::split;
  const bool left = dice.chance(0.5);
  const double reach = dice.between(40, 250), y = 20 + dice.between(0.15, 0.85) * width;
  const double from = left ? 0 : length - reach;
  m.onA = Stroke{{{from, y}, {from + reach / 2, y + dice.between(-4, 4)}, {from + reach, y}}, 1.5};
  return m;
}

Mark sapwood(Dice& dice, double length, double width) {
  Mark m;
  m.kind = MarkKind::sapwood;
  const bool near = dice.chance(0.5);
  const double edge = near ? 0 : 60 + width, deep = dice.between(12, 35);
  const double inner = near ? 20 + deep : 20 + width - deep;
  Polygon p{{0, std::min(edge, inner)},
            {length, std::min(edge, inner)},
            {length, std::max(edge, inner)},
            {0, std::max(edge, inner)}};
  (dice.chance(0.5) ? m.onA : m.onB) = p;
  return m;
}

Mark pit(Dice& dice, double length, double width) {
  Mark m;
  m.kind = dice.chance(0.5) ? MarkKind::holeToFill : MarkKind::barkPocket;
  const double r = dice.between(3, 12);
  m.on(dice.chance(0.5) ? Face::A : Face::B) =
      Ellipse{{dice.between(0, length), 20 + dice.between(0, width)}, r * 1.5, r, 0};
  m.depthMm = dice.between(0.5, 9);
  m.depthFrom = m.onA ? Face::A : Face::B;
  return m;
}

void addMarks(Dice& dice, Board& board, double length, double width) {
  const int knots = dice.whole(3, 11);
  for (int i = 0; i < knots; ++i) board.marks.push_back(knot(dice, length, width));
  for (int i = dice.whole(1, 3); i > 0; --i) board.marks.push_back(check(dice, length, width));
  for (int i = dice.whole(0, 4); i > 0; --i) board.marks.push_back(pit(dice, length, width));
  if (dice.chance(0.35)) board.marks.push_back(sapwood(dice, length, width));
  if (dice.chance(0.08)) {
    Mark nail;
    nail.kind = MarkKind::metal;
    nail.onA = Ellipse{{dice.between(0, length), 20 + dice.between(0, width)}, 2, 2, 0};
    board.marks.push_back(nail);
  }
  for (size_t i = 0; i < board.marks.size(); ++i)
    board.marks[i].id = {board.id.text + "-mark-" + std::to_string(i)};
}

Board randomBoard(Dice& dice, const RackSpec& spec, int index) {
  Board b;
  b.id = {"board-" + std::to_string(index)};
  b.name = std::to_string(index + 1);
  b.species = dice.chance(0.75) ? "cherry" : "ash";
  const double length = dice.between(spec.leastLengthMm, spec.greatestLengthMm);
  const double width = dice.between(130, 320);
  b.thicknessMm = dice.chance(0.8) ? dice.between(26, 29) : dice.between(37, 40);
  b.outline = roughOutline(dice, length, width);
  b.bowMm = dice.between(0, 6);
  b.cupMm = dice.between(0, 3);
  b.twistMm = dice.between(0, 4);
  for (const Face face : {Face::A, Face::B}) {
    if (face == Face::B && dice.chance(0.05)) continue;
    Picture picture;
    picture.face = face;
    b.pictures.push_back(picture);
  }
  b.faceB = FaceRegistration{dice.between(0.5, 2), "outline"};
  addMarks(dice, b, length, width);
  return b;
}

Part randomPart(Dice& dice, const RackSpec& spec, int index) {
  Part p;
  p.id = {"part-" + std::to_string(index)};
  p.name = "part " + std::to_string(index + 1);
  p.lengthMm = dice.between(220, 1500);
  p.widthMm = dice.between(38, 190);
  p.thicknessMm = dice.chance(0.8) ? 19 : 22;
  p.species = dice.chance(0.6) ? "cherry" : dice.chance(0.4) ? "ash" : "";
  p.grain = dice.chance(0.06) ? GrainRule::free : GrainRule::along;
  const double shows = dice.between(0, 1);
  p.showing = shows < 0.2 ? Showing::none : shows < 0.8 ? Showing::oneFace : Showing::bothFaces;
  p.back.soundKnots = dice.chance(0.7);
  p.back.filledHoles = true;
  p.back.sapwood = dice.chance(0.6) ? SapwoodRule::yes : SapwoodRule::no;
  p.show.filledHoles = dice.chance(0.2);
  if (spec.looks && dice.chance(0.4)) p.look = dice.chance(0.5) ? Look::straight : Look::lively;
  if (spec.panels && dice.chance(0.12)) {
    p.glueUp.allowed = true;
    p.lengthMm = dice.between(450, 1100);
    p.widthMm = dice.between(300, 520);
    p.grain = GrainRule::along;
  }
  return p;
}

// Sizes grow or shrink together until the area is the wanted share of the clear wood.
void scaleTo(std::vector<Part>& parts, double wantedAreaMm2) {
  for (int pass = 0; pass < 6; ++pass) {
    double total = 0;
    for (const Part& p : parts) total += p.copies * p.lengthMm * p.widthMm;
    const double factor = wantedAreaMm2 / total;
    for (Part& p : parts) {
      const double widest = p.glueUp.allowed ? 700 : 230;
      p.lengthMm =
          std::round(10 * std::clamp(p.lengthMm * std::pow(factor, 0.6), 150.0, 2000.0)) / 10;
      p.widthMm = std::round(10 * std::clamp(p.widthMm * std::pow(factor, 0.4), 30.0, widest)) / 10;
    }
  }
}

ValueMap figureMap(Dice& dice, const Rect& area) {
  ValueMap map;
  map.area = area;
  map.cellMm = 20;
  map.columns = static_cast<int>(std::ceil(area.width() / map.cellMm));
  map.rows = static_cast<int>(std::ceil(area.height() / map.cellMm));
  const double px = dice.between(200, 900), py = dice.between(80, 300), phase = dice.between(0, 6);
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column)
      map.worth.push_back(static_cast<float>(0.5 * std::sin(column * map.cellMm / px + phase) +
                                             0.5 * std::cos(row * map.cellMm / py - phase)));
  return map;
}

}  // namespace

bool breaks(const PlanRequest& request, const Plan& plan, const std::string& rule) {
  const auto breaches = checkPlan(request, plan);
  return std::any_of(breaches.begin(), breaches.end(),
                     [&](const Breach& b) { return b.rule == rule; });
}

double clearAreaMm2(const PlanRequest& request) {
  double total = 0;
  for (const Board& b : request.boards)
    total +=
        area(subtract(usableWood(b.outline), forbidden(b, Face::A, FaceAllows{}, request.shop)));
  return total;
}

PlanRequest randomRack(const RackSpec& spec) {
  Dice dice(spec.seed * 7919 + 17);
  PlanRequest request;
  for (int i = 0; i < spec.boards; ++i) request.boards.push_back(randomBoard(dice, spec, i));
  int left = spec.pieces;
  while (left > 0) {
    Part p = randomPart(dice, spec, static_cast<int>(request.parts.size()));
    p.copies = std::min(left, p.glueUp.allowed ? dice.whole(1, 2) : dice.whole(1, 6));
    left -= p.copies;
    request.parts.push_back(p);
  }
  scaleTo(request.parts, spec.areaShare * clearAreaMm2(request));
  if (spec.looks)
    for (const Board& b : request.boards)
      for (const Look look : {Look::straight, Look::lively})
        for (const Face face : {Face::A, Face::B})
          request.worth[{b.id, face, look}] = figureMap(dice, bounds(b.outline.polygon()));
  return request;
}

}  // namespace rackside::testing
