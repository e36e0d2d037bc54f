// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_random.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "tests/support/noise.h"

namespace rackside::synthetic {
namespace {

struct NamedCase {
  SceneCase value;
  std::string_view name;
};
constexpr std::array kCases = {
    NamedCase{SceneCase::threeCardsSawn, "three-cards-sawn"},
    NamedCase{SceneCase::threeCardsRough, "three-cards-rough"},
    NamedCase{SceneCase::twoEndCards, "two-end-cards"},
    NamedCase{SceneCase::benchCards, "bench-cards"},
    NamedCase{SceneCase::walkLying, "walk-lying"},
    NamedCase{SceneCase::walkLeaning, "walk-leaning"},
    NamedCase{SceneCase::oneCard, "one-card"},
    NamedCase{SceneCase::stockCards, "stock-cards"},
    NamedCase{SceneCase::printScale, "print-scale"},
    NamedCase{SceneCase::sameWoodClutter, "same-wood-clutter"},
    NamedCase{SceneCase::lightOnLight, "light-on-light"},
    NamedCase{SceneCase::bowed, "bowed"},
};

template <size_t n>
std::string oneOf(Draw& draw, const std::array<const char*, n>& choices) {
  return choices[static_cast<size_t>(draw.whole(0, static_cast<int>(n) - 1))];
}

std::vector<DefectSpec> randomDefects(Draw& draw, const BoardShape& b) {
  std::vector<DefectSpec> defects;
  for (int i = draw.whole(0, 4); i > 0; --i) {
    DefectSpec d;
    d.x = draw.between(0.08, 0.92) * b.lengthMm;
    d.y = draw.between(0.12, 0.88) * b.widthMm;
    d.alongMm = draw.between(4, 14);
    d.through = draw.chance(0.6);
    d.depthMm = draw.between(6, 18);
    d.loose = draw.chance(0.4);
    d.tiltX = draw.between(-0.5, 0.5);
    defects.push_back(d);
  }
  for (const bool left : {true, false}) {
    DefectSpec d;
    d.kind = "check";
    d.x = left ? 0 : b.lengthMm;
    d.y = draw.between(0.15, 0.85) * b.widthMm;
    d.alongMm = draw.between(40, 160) * (left ? 1 : -1);
    d.acrossMm = draw.between(0.7, 1.8);
    d.through = true;
    defects.push_back(d);
  }
  return defects;
}

PlacedBoard randomBoard(Draw& draw, const std::string& species) {
  PlacedBoard p;
  BoardShape& b = p.shape;
  b.lengthMm = draw.between(2000, 3000);
  b.widthMm = draw.between(120, 320);
  b.thicknessMm = draw.chance(0.7) ? 27 : draw.between(30, 54);
  b.taperMm = draw.between(-12, 12);
  b.crookMm = draw.between(-6, 6);
  b.bowMm = draw.between(0, 1.5);
  b.leftSkewMm = draw.between(-6, 6);
  b.rightSkewMm = draw.between(-6, 6);
  b.seed = static_cast<uint32_t>(draw.whole(1, 1 << 30));
  WoodSpec& w = p.wood;
  w.species = species;
  w.seed = b.seed / 3 + 1;
  w.pithYMm = draw.between(0.2, 0.8) * b.widthMm;
  w.pithZMm = draw.between(-120, -45);
  w.ringMm = draw.between(2.2, 4);
  w.taperMmPerM = draw.between(5, 13);
  w.pithWanderMm = draw.between(4, 12);
  if (species == "cherry" || species == "walnut") w.sapRadiusMm = draw.between(110, 220);
  w.curl = species == "maple" && draw.chance(0.4) ? draw.between(0.3, 1) : 0;
  w.saw.kind = draw.chance(0.5) ? "band" : "circular";
  w.saw.pitchMm = draw.between(3, 7.5);
  w.saw.slantDeg = draw.between(-5, 5);
  w.saw.radiusMm = draw.between(520, 720);
  w.saw.strength = draw.between(0.6, 1.2);
  w.defects = randomDefects(draw, b);
  p.grey = draw.between(0.3, 1);
  return p;
}

LightSpec randomLight(Draw& draw, bool leaning) {
  LightSpec l;
  l.kind = oneOf(draw, std::array{"window", "sun", "lamps"});
  l.azimuthDeg = leaning ? draw.between(-120, -60) : draw.between(0, 360);
  l.elevationDeg = l.kind == "lamps" ? draw.between(62, 78) : draw.between(36, 62);
  l.fill = draw.between(0.3, 0.5);
  l.warmth = draw.between(-0.4, 0.6);
  return l;
}

CameraSpec randomCamera(Draw& draw, double greatestTiltDeg, double leastTiltDeg = 3) {
  CameraSpec c;
  c.fit = draw.between(0.86, 0.95);
  c.tiltDeg = draw.between(leastTiltDeg, greatestTiltDeg);
  // Mostly leaning over the board from its near side; makers seldom tilt along it by much.
  c.azimuthDeg = -90 + draw.between(-55, 55);
  c.rollDeg = draw.between(-4, 4);
  c.focalPx = draw.between(2850, 3350);
  c.cxOff = draw.between(-14, 14);
  c.cyOff = draw.between(-14, 14);
  c.k1 = draw.between(-0.02, 0.02);
  c.exposureEv = draw.between(-0.5, 0.4);
  c.vignette = draw.between(0.1, 0.4);
  c.blurPx = draw.between(0.5, 1.1);
  c.noise = draw.between(0.005, 0.02);
  c.jpegQuality = draw.whole(85, 94);
  c.exifFocalError = draw.between(-0.02, 0.02);
  return c;
}

// Cards at these shares of the length, numbered from `first`.
std::vector<CardPlacement> cardsAlong(Draw& draw, const BoardShape& b,
                                      const std::vector<double>& shares, int first) {
  std::vector<CardPlacement> cards;
  for (const double s : shares) {
    CardPlacement c;
    c.number = first + static_cast<int>(cards.size());
    const double room = 150;
    c.x = room + s * (b.lengthMm - 2 * room) + draw.between(0, 40) * (s < 0.5 ? 1 : -1);
    const double width = b.widthMm + b.taperMm * c.x / b.lengthMm;
    const double crook = 4 * b.crookMm * (c.x / b.lengthMm) * (1 - c.x / b.lengthMm);
    const double slack = std::max(0.0, 0.5 * width - 52);
    c.y = crook + 0.5 * width + draw.between(-slack, slack);
    c.angleDeg = draw.between(-2.5, 2.5) + (draw.chance(0.25) ? 180 : 0);
    cards.push_back(c);
  }
  return cards;
}

void addTools(Draw& draw, SceneSpec& s) {
  const double floor = s.place == "battens" ? -18 : 0;
  if (s.place == "trestles" || s.place == "edge") return;
  for (int i = draw.whole(0, 3); i > 0; --i) {
    ToolPlacement t;
    t.kind = oneOf(draw, std::array{"pencil", "tape", "square", "mallet", "clamp", "mug", "block"});
    t.x = draw.between(0.1, 0.8) * s.board.shape.lengthMm;
    t.y =
        draw.chance(0.5) ? draw.between(-240, -200) : s.board.shape.widthMm + draw.between(90, 140);
    t.z = floor;
    t.yawDeg = draw.between(-20, 20);
    s.tools.push_back(t);
  }
}

void makeEdgesRough(Draw& draw, BoardShape& b) {
  for (EdgeSpec* e : {&b.nearEdge, &b.farEdge}) {
    const double pick = draw.unit();
    if (pick < 0.25) continue;
    e->kind = pick < 0.6 ? "rough" : "live";
    e->roughMm = e->kind == "rough" ? draw.between(0.8, 2.0) : draw.between(0.6, 1.4);
    if (e->kind == "live") e->waneMm = draw.between(0.2, 0.7) * b.thicknessMm;
  }
}

void addWalk(Draw& draw, SceneSpec& s) {
  s.board.shape.lengthMm = draw.between(2700, 3100);
  const BoardShape& b = s.board.shape;
  s.board.wood.defects = randomDefects(draw, b);
  const int shots = draw.whole(3, 5);
  std::vector<double> shares;
  for (int i = 0; i < shots + 1; ++i) shares.push_back(static_cast<double>(i) / shots);
  s.cards = cardsAlong(draw, b, shares, 1);
  const CameraSpec lens = randomCamera(draw, 14);
  // Each picture takes in a little over two card intervals, so that neighbours share two cards.
  const double step = b.lengthMm / shots;
  s.cameras.clear();
  for (int i = 0; i < shots; ++i) {
    CameraSpec c = lens;
    c.fromX = (i - 0.55) * step;
    c.toX = (i + 1.55) * step;
    if (i == 0) c.fromX = -70;
    if (i == shots - 1) c.toX = b.lengthMm + 70;
    c.fit = 0.95;
    c.tiltDeg = draw.between(3, 14);
    c.azimuthDeg = (s.place == "edge" ? 90 : -90) + draw.between(-45, 45);
    c.rollDeg = draw.between(-3, 3);
    s.cameras.push_back(c);
  }
}

void addBenchCards(Draw& draw, SceneSpec& s) {
  s.place = "bench";
  s.board.shape.thicknessMm = draw.between(27, 52);
  s.board.shape.lengthMm = draw.between(1500, 2300);
  const BoardShape& b = s.board.shape;
  s.board.wood.defects = randomDefects(draw, b);
  s.cards.clear();
  for (int i = 0; i < 4; ++i) {
    CardPlacement c;
    c.number = 1 + i;
    c.on = "bench";
    const bool far = i % 2 == 1;
    c.x = (i < 2 ? 0.12 : 0.88) * b.lengthMm + draw.between(-60, 60);
    c.y = far ? b.widthMm + draw.between(70, 110) : -draw.between(70, 110);
    c.angleDeg = draw.between(-3, 3);
    s.cards.push_back(c);
  }
}

void addSameWood(Draw& draw, SceneSpec& s) {
  s.place = "floor";
  for (const bool far : {false, true}) {
    PlacedBoard c = randomBoard(draw, s.board.wood.species);
    c.grey = s.board.grey;
    c.shape.thicknessMm = s.board.shape.thicknessMm;
    c.shape.crookMm = c.shape.taperMm = 0;
    const double gap = draw.between(1, 14);
    c.yawDeg = draw.between(-0.2, 0.2);
    // No board runs into another: what the turn brings nearer at its right end is added to the gap.
    const double rise = c.shape.lengthMm * std::sin(c.yawDeg * 3.14159265358979 / 180);
    const double crook = s.board.shape.crookMm;
    const double strayMm = 0.6;  // of two sawn edges, board_solid
    c.x = draw.between(-200, 200);
    c.y = far ? s.board.shape.widthMm + std::max(0.0, s.board.shape.taperMm) +
                    std::max(0.0, crook) + std::max(0.0, -rise) + gap + strayMm
              : -c.shape.widthMm + std::min(0.0, crook) - std::max(0.0, rise) - gap - strayMm;
    s.clutter.push_back(c);
  }
}

void specialise(Draw& draw, SceneCase c, SceneSpec& s) {
  BoardShape& b = s.board.shape;
  switch (c) {
    case SceneCase::threeCardsSawn:
      break;
    case SceneCase::threeCardsRough:
      makeEdgesRough(draw, b);
      s.cameras = {randomCamera(draw, 35, 8)};
      break;
    case SceneCase::twoEndCards:
      s.cards = cardsAlong(draw, b, {0, 1}, 1);
      break;
    case SceneCase::benchCards:
      addBenchCards(draw, s);
      break;
    case SceneCase::walkLying:
      s.place = draw.chance(0.5) ? "trestles" : "battens";
      addWalk(draw, s);
      break;
    case SceneCase::walkLeaning:
      s.place = "edge";
      s.leanDeg = draw.between(70, 80);
      addWalk(draw, s);
      break;
    case SceneCase::oneCard:
      s.cards = cardsAlong(draw, b, {draw.between(0.1, 0.9)}, 1);
      break;
    case SceneCase::stockCards:
      s.cardThicknessMm = 3;
      break;
    case SceneCase::printScale:
      s.cardScale = 1 + 0.001 * draw.normal();
      break;
    case SceneCase::sameWoodClutter:
      addSameWood(draw, s);
      break;
    case SceneCase::lightOnLight:
      s.place = "bench";
      s.board.wood.species = draw.chance(0.5) ? "maple" : "ash";
      s.board.wood.sapRadiusMm = 0;
      s.board.grey = draw.between(0, 0.4);
      s.benchWood = s.board.wood.species;
      break;
    case SceneCase::bowed:
      b.bowMm = draw.between(4, 10);
      break;
  }
}

}  // namespace

const std::vector<SceneCase>& allSceneCases() {
  static const std::vector<SceneCase> all = [] {
    std::vector<SceneCase> v;
    for (const NamedCase& c : kCases) v.push_back(c.value);
    return v;
  }();
  return all;
}

std::string_view name(SceneCase c) {
  return kCases[static_cast<size_t>(c)].name;
}

SceneSpec randomScene(SceneCase c, uint32_t seed) {
  Draw draw(seed * 1000003ULL + static_cast<uint64_t>(c));
  for (int i = 0; i < 8; ++i) draw.unit();
  SceneSpec s;
  s.name = std::string(name(c)) + "-" + std::to_string(seed);
  s.board = randomBoard(draw, oneOf(draw, std::array{"cherry", "ash", "walnut", "maple", "oak"}));
  s.place = oneOf(draw, std::array{"battens", "floor", "trestles"});
  s.ground = draw.chance(0.6) ? "concrete" : "planks";
  s.benchWood = oneOf(draw, std::array{"maple", "oak"});
  s.cards = cardsAlong(draw, s.board.shape, {0, 0.5, 1}, 1);
  s.cameras = {randomCamera(draw, 20)};
  specialise(draw, c, s);
  s.light = randomLight(draw, s.place == "edge");
  addTools(draw, s);
  return s;
}

}  // namespace rackside::synthetic
