// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/look_maps.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace rackside {
namespace {

constexpr double kCellMm = 20;
// A place is judged over this much of its surroundings, along and across.
constexpr double kAlongMm = 80, kAcrossMm = 40;
constexpr double kArchHalfMm = 40;  // worth falls off over this distance from an arch's axis

// How sure and how near an axis is at this place.
double archWorth(const std::vector<ArchPoint>& arches, Point p) {
  double worth = 0;
  for (const ArchPoint& a : arches) {
    if (std::abs(a.x - p.x) > kArchStepMm) continue;
    worth = std::max(worth, a.sure * std::exp(-0.5 * std::pow((p.y - a.y) / kArchHalfMm, 2)));
  }
  return worth;
}

double worthAt(const FigureMaps& figure, const FigureSums& sums, Look look, Point p) {
  if (look == Look::archCentred) return archWorth(figure.arches, p);
  const Rect about{p.x - kAlongMm / 2, p.y - kAcrossMm / 2, p.x + kAlongMm / 2,
                   p.y + kAcrossMm / 2};
  PlaceReading place;
  place.figure = readingOf(sums.over(about), kAlongMm * kAcrossMm);
  if (place.figure.woodShare < 0.05) return 0;
  place.slopeRad = place.figure.grainRad;
  place.widthMm = kAcrossMm;
  // A place whose lightness stands off the face's mean spoils an even part as much as one that
  // changes within itself.
  if (look == Look::evenColour)
    place.figure.lightnessSpread = std::hypot(place.figure.lightnessSpread, place.figure.lightness);
  return std::clamp(fulfilment({look, false}, place), 0.0, 1.0);
}

}  // namespace

ValueMap lookMap(const FigureMaps& figure, Look look) {
  const FigureSums sums(figure);
  ValueMap map;
  map.area = figure.area;
  map.cellMm = kCellMm;
  map.columns = std::max(1, int(std::ceil(figure.area.width() / kCellMm)));
  map.rows = std::max(1, int(std::ceil(figure.area.height() / kCellMm)));
  map.worth.reserve(size_t(map.columns) * map.rows);
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column)
      map.worth.push_back(float(
          worthAt(figure, sums, look,
                  {map.area.x0 + (column + 0.5) * kCellMm, map.area.y0 + (row + 0.5) * kCellMm})));
  return map;
}

LookMaps lookMaps(const std::vector<Board>& boards, const std::vector<Part>& parts,
                  const FigureSource& figures, RunControl& control) {
  LookMaps out;
  std::set<Look> looks;
  for (const Part& part : parts)
    if (part.look != Look::any && part.showing != Showing::none) looks.insert(part.look);
  if (looks.empty()) return out;
  for (size_t i = 0; i < boards.size() && !control.shouldEnd(); ++i) {
    const Board& board = boards[i];
    if (board.isSpokenFor() || board.cutUp) continue;
    control.report(double(i) / double(boards.size()), "reading the wood of board " + board.name);
    for (const Face face : {Face::A, Face::B}) {
      const Picture* picture = board.newestPicture(face);
      if (!picture) continue;
      const auto figure = figures(board, face);
      if (!figure) {
        out.remarks.push_back(figure.error().message);
        continue;
      }
      const bool colour = judgedBy(*picture, figure->colour).colour;
      for (const Look look : looks)
        if (look != Look::evenColour || colour)
          out.worth.emplace(std::tuple{board.id, face, look}, lookMap(*figure, look));
    }
  }
  return out;
}

}  // namespace rackside
