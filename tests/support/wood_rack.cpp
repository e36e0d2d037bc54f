// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/wood_rack.h"

#include <cmath>

#include "core/job/shop.h"
#include "core/wood/measure.h"
#include "tests/support/noise.h"
#include "tests/support/wood_log.h"

namespace rackside::synthetic {
namespace {

constexpr double kThickMm = 27, kLengthMm = 1150, kWidthMm = 190;

// A tree of no particular look: rings at a slant, a little of everything.
WoodSpec middling(const std::string& species, uint32_t seed, Draw& draw) {
  WoodSpec s;
  s.species = species;
  s.seed = seed;
  s.pithYMm = draw.chance(0.5) ? draw.between(-60, 20) : draw.between(170, 250);
  s.pithZMm = draw.between(-100, -50);
  s.saw.kind = draw.chance(0.5) ? "band" : "circular";
  s.saw.pitchMm = draw.between(3, 7);
  s.saw.radiusMm = draw.between(300, 800);
  return s;
}

Part wanted(double length, double width, Look look) {
  Part p;
  p.id = {"part-wanted"};
  p.name = "wanted";
  p.lengthMm = length;
  p.widthMm = width;
  p.thicknessMm = 19;
  p.look = look;
  p.show.sapwood = SapwoodRule::yes;
  p.show.soundKnots = true;
  return p;
}

// The pith's y at x, as the log has it.
double pithAt(const WoodSpec& s, double x) {
  return s.pithYMm + s.pithSlopeY * x + s.pithWanderMm * noise1(s.seed + 50, x / 900);
}

// Bars all but a stretch along the board, so that it is known where the part lies along it.
Mark avoid(const char* id, double from, double to) {
  Mark m;
  m.id = {id};
  m.kind = MarkKind::avoid;
  m.onA = Polygon{{from, -5}, {to, -5}, {to, kWidthMm + 5}, {from, kWidthMm + 5}};
  return m;
}

}  // namespace

Board paintedBoard(const std::string& id, const WoodSpec& spec, double lengthMm, double widthMm,
                   double grey, const PhotoWear& wear, FigureMaps& figure) {
  Board b;
  b.id = {id};
  b.name = id;
  b.species = spec.species;
  b.thicknessMm = kThickMm;
  for (const Point p : {Point{0, 0}, {lengthMm, 0}, {lengthMm, widthMm}, {0, widthMm}})
    b.outline.vertices.push_back({p, 0.3, EdgeState::sure});
  b.lengthMm = lengthOf(b.outline);
  PaintOptions options;
  options.mmPerPx = 0.5;
  options.grey = grey;
  PaintedWood painted =
      paintFace(WoodLog(spec, kThickMm), {0, 0, lengthMm, widthMm}, kThickMm, options);
  layCard(painted, {20, 40});
  Picture picture;
  picture.id = {"picture-" + id};
  picture.widthPx = painted.bgr.cols;
  picture.heightPx = painted.bgr.rows;
  picture.mmPerPx = painted.mmPerPx;
  picture.boardFromPicture = {painted.mmPerPx, 0, painted.u0, 0, -painted.mmPerPx, painted.v1};
  b.pictures = {picture};
  RunControl control;
  figure = figureMaps(rasterOf(painted, worn(painted.bgr, wear)), {4, true, spec.species}, control);
  return b;
}

WoodRack woodRack(const std::string& wish, uint32_t seed, int boards) {
  Draw draw(seed * 131ULL + 17);
  WoodRack rack;
  const int bestAt = draw.whole(0, boards - 1);
  const double width = wish == "sapwood-edge" ? 90 : 100;
  rack.part = wanted(420, width, Look::any);
  const std::string species = draw.chance(0.5) ? "cherry" : "walnut";
  const double bare = Shop{}.clearance(MarkKind::avoid);
  for (int i = 0; i < boards; ++i) {
    WoodSpec s = middling(species, seed * 100 + uint32_t(i), draw);
    const bool best = i == bestAt;
    double grey = draw.between(0.1, 0.7), from = draw.between(330, 600);
    if (wish == "arch-centred") {
      // Elsewhere the pith lies beside the board or so near an edge that the part cannot be
      // centred.
      if (best) s.pithYMm = draw.between(75, 115);
    } else if (wish == "straight") {
      // The best is quarter sawn and straight; the others are flat sawn, or their grain runs off.
      if (best) {
        s.pithYMm = draw.between(420, 520);
        s.pithZMm = draw.between(-20, 40);
      } else {
        s.pithYMm = draw.between(80, 110);  // no place is wide enough beside the arches
      }
    } else if (wish == "lively") {
      s.curl = best ? draw.between(0.8, 1) : 0;
      s.curlPitchMm = draw.between(9, 15);
    } else {
      // Sapwood beyond a radius: the line lies at sapY on the far side of the face.
      grey = draw.between(0, 0.2);
      s.pithYMm = -30;
      s.pithZMm = -80;
      s.pithWanderMm = 2;
      const bool even = wish == "even-colour";
      double sapY = best == even ? draw.between(300, 320) : draw.between(82, 90);
      if (!even) sapY = best ? draw.between(150, 165) : 400;
      s.sapRadiusMm = std::hypot(sapY - s.pithYMm, kThickMm - s.pithZMm);
    }
    FigureMaps figure;
    const std::string id = "board-" + std::to_string(i);
    Board b =
        paintedBoard(id, s, kLengthMm, kWidthMm, grey, randomWear(seed * 50 + uint32_t(i)), figure);
    // The stretch between them is clear for the part and 6 mm either side.
    const double clear = rack.part.lengthMm + 12 + 2 * bare;
    b.marks = {avoid("mk-low", -5, from), avoid("mk-high", from + clear, kLengthMm + 5)};
    if (best) {
      rack.best = id;
      const double middle = from + clear / 2;
      rack.middleX = middle;
      if (wish == "arch-centred") rack.middleY = pithAt(s, middle);
    }
    rack.figures.emplace(id, std::move(figure));
    rack.boards.push_back(std::move(b));
  }
  return rack;
}

}  // namespace rackside::synthetic
