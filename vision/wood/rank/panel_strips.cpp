// SPDX-License-Identifier: GPL-3.0-or-later
// Finds the strips of a panel: good ones by the wish, that match each other.
#include <algorithm>
#include <cmath>
#include <memory>
#include <opencv2/core/utility.hpp>

#include "vision/wood/rank/best_place.h"
#include "vision/wood/rank/panel.h"

namespace rackside {
namespace {

constexpr int kMostFromBoard = 4;
constexpr double kEdgeMm = 12;      // of a strip, that is looked at along its edges
constexpr double kMatchWeight = 3;  // of a difference in ln lightness or warmth, against the score

StripEdge edgeOf(const FaceFigure& figure, const Placement& place, const Part& strip, bool far) {
  StripEdge edge;
  const FaceColour& colour = figure.maps().colour;
  // White paper in view makes one face's light comparable with another's.
  const double white = colour.lightKnown()
                           ? std::log((colour.white[0] + colour.white[1] + colour.white[2]) / 3)
                           : colour.meanLight;
  const double tint = colour.lightKnown() ? std::log(colour.white[2] / colour.white[0]) : 0;
  const double band = std::min(kEdgeMm, strip.widthMm / 3);
  const double stretch = strip.lengthMm / StripEdge::kStretches;
  Part piece = strip;
  piece.outline.reset();
  piece.lengthMm = stretch;
  piece.widthMm = band;
  for (int i = 0; i < StripEdge::kStretches; ++i) {
    const Point corner{i * stretch, far ? strip.widthMm - band : 0};
    const Pose pose{rackside::apply(place.boardFromPart, corner), place.boardFromPart.angleRad};
    const PlaceReading r = figure.under(pose, piece, place.face);
    edge.lightness[size_t(i)] = r.figure.lightness + colour.meanLight - white;
    edge.warmth[size_t(i)] = r.figure.warmth + colour.meanWarmth - tint;
    // As seen: from below, face B is mirrored.
    edge.slopeRad[size_t(i)] = place.face == Face::B ? -r.slopeRad : r.slopeRad;
  }
  return edge;
}

}  // namespace

StripFace stripAt(const FaceFigure& figure, Placement place, const Part& strip, bool colour) {
  StripFace s;
  s.near = edgeOf(figure, place, strip, false);
  s.far = edgeOf(figure, place, strip, true);
  // Seen from below, the far edge lies near.
  if (place.face == Face::B) std::swap(s.near, s.far);
  s.colourKnown = colour;
  s.place = std::move(place);
  return s;
}

namespace {

Mark taken(const Placement& place, double kerfMm) {
  Mark m;
  m.id = MarkId{"taken"};
  m.kind = MarkKind::avoid;
  const Polygons grown = offset({place.outline}, kerfMm);
  m.onA = grown.empty() ? place.outline : grown.front();
  m.onB = m.onA;
  return m;
}

// One face of a board, read; empty where it cannot be, or the wish needs a colour it does not show.
struct ReadFace {
  FigureMaps maps;
  std::unique_ptr<FaceFigure> figure;  // of `maps`
  bool colour = true;
};
std::unique_ptr<ReadFace> readFace(const Board& board, Face face, const Wish& wish,
                                   const FigureSource& figures) {
  const Picture* picture = board.newestPicture(face);
  if (!picture) return nullptr;
  auto maps = figures(board, face);
  if (!maps) return nullptr;
  auto read = std::make_unique<ReadFace>();
  read->maps = std::move(maps).value();
  read->colour = judgedBy(*picture, read->maps.colour).colour;
  if (needsColour(wish) && !read->colour) return nullptr;
  read->figure = std::make_unique<FaceFigure>(read->maps);
  return read;
}

// The strip's other face, where it may show in the panel.
std::optional<StripFace> otherFace(const Board& board, const StripFace& up, const Part& strip,
                                   const Shop& shop, const ReadFace* read) {
  if (!read) return std::nullopt;
  const Face face = up.place.face == Face::A ? Face::B : Face::A;
  const Pose& pose = up.place.boardFromPart;
  const FreePlaces places(board, strip, shop, face, pose.angleRad);
  if (!places.mayLie(places.turnedFromBoard(pose.origin))) return std::nullopt;
  Placement place = up.place;
  place.face = face;
  place.reading = read->figure->under(pose, strip, face);
  return stripAt(*read->figure, std::move(place), strip, read->colour);
}

// Up to kMostFromBoard strips of one board a face, none over another of that face; the shop's
// clearance about what is taken is left as kerf and jointing.
std::vector<PanelStrip> stripsFrom(const Board& whole, const Part& strip, const Shop& shop,
                                   const Wish& wish, const FigureSource& figures) {
  std::vector<PanelStrip> strips;
  if (!unfitReason(whole, strip, shop).empty()) return strips;
  const std::unique_ptr<ReadFace> read[] = {readFace(whole, Face::A, wish, figures),
                                            readFace(whole, Face::B, wish, figures)};
  for (const Face face : {Face::A, Face::B}) {
    const ReadFace* here = read[face == Face::A ? 0 : 1].get();
    if (!here) continue;
    Board board = whole;
    for (int i = 0; i < kMostFromBoard; ++i) {
      auto place = bestPlace(board, strip, shop, face, wish, *here->figure);
      if (!place) break;
      PanelStrip s{stripAt(*here->figure, *place, strip, here->colour), {}};
      s.other = otherFace(whole, s, strip, shop, read[face == Face::A ? 1 : 0].get());
      board.marks.push_back(taken(*place, shop.ripKerfMm));
      strips.push_back(std::move(s));
    }
  }
  return strips;
}

double meanOf(const std::array<double, StripEdge::kStretches>& a,
              const std::array<double, StripEdge::kStretches>& b) {
  double sum = 0;
  for (size_t i = 0; i < a.size(); ++i) sum += a[i] + b[i];
  return sum / (2.0 * double(a.size()));
}

double unlikeness(const PanelStrip& a, const PanelStrip& b) {
  const double light =
      meanOf(a.near.lightness, a.far.lightness) - meanOf(b.near.lightness, b.far.lightness);
  const bool colour = a.colourKnown && b.colourKnown;
  const double warm =
      colour ? meanOf(a.near.warmth, a.far.warmth) - meanOf(b.near.warmth, b.far.warmth) : 0;
  return std::hypot(light, warm);
}

bool overlap(const PanelStrip& a, const PanelStrip& b) {
  return a.place.board == b.place.board &&
         area(intersect({a.place.outline}, {b.place.outline})) > 1;
}

// From each strip on, the next that is good and like those taken; the best set of all starts.
std::vector<PanelStrip> matching(const std::vector<PanelStrip>& all, size_t count) {
  std::vector<PanelStrip> best;
  double bestWorth = -1e9;
  for (const PanelStrip& start : all) {
    std::vector<PanelStrip> set{start};
    double worth = start.place.score;
    while (set.size() < count) {
      const PanelStrip* next = nullptr;
      double most = -1e9;
      for (const PanelStrip& s : all) {
        if (std::any_of(set.begin(), set.end(), [&](const auto& t) { return overlap(s, t); }))
          continue;
        double unlike = 0;
        for (const PanelStrip& t : set) unlike = std::max(unlike, unlikeness(s, t));
        const double value = s.place.score - kMatchWeight * unlike;
        if (value > most) most = value, next = &s;
      }
      if (!next) break;
      set.push_back(*next);
      worth += most;
    }
    if (set.size() == count && worth > bestWorth) bestWorth = worth, best = std::move(set);
  }
  return best;
}

}  // namespace

Result<std::pair<Part, int>> stripsFor(const Part& part) {
  const GlueUp& rules = part.glueUp;
  if (!rules.allowed)
    return Error{"Part \"" + part.name +
                 "\" may not be glued up: allow it in the parts list (column glue up)."};
  if (part.outline)
    return Error{"Part \"" + part.name +
                 "\" has a free outline: previews of panels are for "
                 "rectangles."};
  const int count = std::max(2, int(std::ceil(part.widthMm / rules.greatestStripMm - 1e-9)));
  Part strip = part;
  strip.widthMm = part.widthMm / count;
  if (strip.widthMm < rules.leastStripMm)
    return Error{"Part \"" + part.name + "\" is too narrow for two strips of its least width."};
  strip.name = part.name + ", strip";
  return std::pair{strip, count};
}

Result<Panel> panelOf(const std::vector<Board>& boards, const Part& part, const Shop& shop,
                      const Wish& wish, const FigureSource& figures, RunControl& control) {
  if (const Status s = validate(part); !s) return s.error();
  const auto strips = stripsFor(part);
  if (!strips) return strips.error();
  Panel panel;
  panel.strip = strips->first;
  const int count = strips->second;
  // Each glued edge is jointed after ripping.
  Shop jointed = shop;
  jointed.widthAllowanceMm = std::max(shop.widthAllowanceMm, 2 * shop.glueLineAllowanceMm);
  std::vector<std::vector<PanelStrip>> found(boards.size());
  cv::parallel_for_(cv::Range(0, int(boards.size())), [&](const cv::Range& range) {
    for (int i = range.start; i < range.end && !control.shouldEnd(); ++i)
      found[size_t(i)] = stripsFrom(boards[size_t(i)], panel.strip, jointed, wish, figures);
  });
  if (control.shouldEnd()) return Error{"Stopped before every board was looked at."};
  std::vector<PanelStrip> all;
  for (auto& strip : found) std::move(strip.begin(), strip.end(), std::back_inserter(all));
  panel.strips = matching(all, size_t(count));
  if (panel.strips.empty())
    return Error{"The rack does not hold " + std::to_string(count) + " clear strips of " +
                 std::to_string(cvRound(panel.strip.lengthMm)) + " by " +
                 std::to_string(cvRound(panel.strip.widthMm)) + " mm for part \"" + part.name +
                 "\"."};
  panel.orders = bestOrders(panel, 5);
  return panel;
}

}  // namespace rackside
