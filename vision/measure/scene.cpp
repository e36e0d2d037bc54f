// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "vision/measure/unknowns.h"

namespace rackside {

Status AdjustmentOptions::validate() const {
  const auto notNegative = {boardThicknessMm, boardThicknessSigmaMm, cardThicknessMm,
                            cardThicknessSigmaMm, cardScaleSigma};
  for (const double v : notNegative)
    if (!(v >= 0) || !std::isfinite(v))
      return Error{"A thickness or spread is negative or no number: give millimetres from 0 up."};
  if (!(cardScale > 0.5 && cardScale < 2))
    return Error{
        "The card's scale is measured length ÷ nominal length and lies near 1: check the "
        "measurement."};
  for (const TapedDistance& t : taped)
    if (!(t.mm > 0) || !(t.sigmaMm > 0) || t.cardA == t.cardB)
      return Error{
          "A taped distance needs two different cards, a length above 0 and its ± above 0."};
  if (bow && (norm(bow->to - bow->from) < 1 || !(bow->sigmaMm >= 0)))
    return Error{"A bow needs the two ends of the line along which it was measured."};
  return success();
}

namespace measure {
namespace {

std::vector<SeenTarget> targetsOf(const Sight& sight) {
  std::vector<SeenTarget> all;
  for (const FoundCard& card : sight.cards) all.push_back(seenTarget(card));
  all.insert(all.end(), sight.others.begin(), sight.others.end());
  return all;
}

Piece pieceOf(const Target& target, const AdjustmentOptions& options) {
  Piece piece{target,
              {},
              target.on.value_or(options.cardsOn) == CardsOn::bench,
              target.thicknessMm.has_value()};
  for (const Point p : target.points) piece.points.push_back(p - target.centre);
  return piece;
}

void addObservations(Scene& scene, int photo, int piece, const SeenTarget& seen) {
  const int points = static_cast<int>(scene.pieces[piece].points.size());
  std::set<int> indices;
  for (const FoundSaddle& s : seen.points) {
    if (s.index < 0 || s.index >= points || !(s.sigmaPx > 0) || !indices.insert(s.index).second)
      throw std::logic_error("adjust(): a point of " + seen.target.name +
                             " has no such index, comes twice, or has no spread");
    scene.seen.push_back({photo, piece, s.index, s.px, s.sigmaPx, true});
  }
}

Status addSight(Scene& scene, const Sight& sight, const AdjustmentOptions& options,
                std::map<std::string, int>& pieceByName, std::map<int, int>& lensByGroup) {
  const int photo = static_cast<int>(scene.sizes.size());
  if (!(sight.prior.focalPx > 0)) throw std::logic_error("adjust(): a sight without a prior lens");
  scene.sizes.push_back(sight.size);
  const auto lens = lensByGroup.try_emplace(sight.lensGroup, int(scene.lensPriors.size()));
  if (lens.second) scene.lensPriors.push_back(sight.prior);
  scene.lensOf.push_back(lens.first->second);
  for (const SeenTarget& seen : targetsOf(sight)) {
    if (seen.points.size() < 2) continue;
    const auto at = pieceByName.try_emplace(seen.target.name, int(scene.pieces.size()));
    if (at.second) scene.pieces.push_back(pieceOf(seen.target, options));
    addObservations(scene, photo, at.first->second, seen);
  }
  const bool any = std::any_of(scene.seen.begin(), scene.seen.end(),
                               [&](const Observation& o) { return o.photo == photo; });
  if (!any)
    return Error{"Photograph " + std::to_string(photo + 1) +
                 " shows no reference card: lay at least one card flat on the board, whole in the "
                 "picture and in even light, and take it again."};
  return success();
}

void setShared(Scene& scene, const AdjustmentOptions& options) {
  bool bench = false, common = false, printed = false;
  for (const Piece& p : scene.pieces) {
    bench |= p.onBench;
    common |= !p.thicknessIsOwn;
    printed |= p.target.printed;
  }
  scene.sharedPrior = {options.boardThicknessMm, options.cardThicknessMm, options.cardScale,
                       options.bow ? options.bow->endsMm : 0};
  scene.sharedSigma = {
      bench ? options.boardThicknessSigmaMm : 0,
      common && options.cardThicknessMm > 0 ? options.cardThicknessSigmaMm : 0,
      printed ? options.cardScale * options.cardScaleSigma : 0,
      options.bow ? options.bow->sigmaMm : 0,
  };
}

Status checkBench(const Scene& scene, const AdjustmentOptions& options) {
  for (const Piece& p : scene.pieces)
    if (p.onBench && options.boardThicknessMm <= 0)
      return Error{p.target.name +
                   " lies on the bench, so the board's thickness is needed: measure it and give it "
                   "in millimetres."};
  return success();
}

Status addTaped(Scene& scene, const AdjustmentOptions& options) {
  const auto has = [&](int number) {
    return std::any_of(scene.pieces.begin(), scene.pieces.end(),
                       [&](const Piece& p) { return p.target.number == number && number > 0; });
  };
  for (const TapedDistance& t : options.taped) {
    for (const int number : {t.cardA, t.cardB})
      if (!has(number))
        return Error{"The taped distance names card " + std::to_string(number) +
                     ", which is in no photograph: check the numbers."};
    scene.taped.push_back(t);
  }
  return success();
}

int pieceWithMostPoints(const Scene& scene) {
  std::vector<int> count(scene.pieces.size(), 0);
  for (const Observation& o : scene.seen) ++count[o.piece];
  return static_cast<int>(std::max_element(count.begin(), count.end()) - count.begin());
}

}  // namespace

Result<Scene> sceneOf(const std::vector<Sight>& sights, const AdjustmentOptions& options) {
  if (const Status valid = options.validate(); !valid) return valid.error();
  if (sights.empty()) return Error{"No photograph was given: give at least one."};
  Scene scene;
  std::map<std::string, int> pieceByName;
  std::map<int, int> lensByGroup;
  for (const Sight& sight : sights)
    if (const Status s = addSight(scene, sight, options, pieceByName, lensByGroup); !s)
      return s.error();
  if (const Status s = checkBench(scene, options); !s) return s.error();
  if (const Status s = addTaped(scene, options); !s) return s.error();
  setShared(scene, options);
  if (options.bow) {
    const Point span = options.bow->to - options.bow->from;
    const double length = norm(span);
    scene.bow =
        BowLine{0.5 * (options.bow->from + options.bow->to), (1 / length) * span, length / 2};
  }
  scene.gauge = pieceWithMostPoints(scene);
  return scene;
}

Unknowns priorUnknowns(const Scene& scene) {
  Unknowns u;
  for (const Lens& l : scene.lensPriors) u.lenses.push_back({l.focalPx, l.cx, l.cy, l.k1, l.k2});
  u.cameras.resize(scene.sizes.size());
  u.places.resize(scene.pieces.size());
  for (const Piece& p : scene.pieces) u.owns.push_back({0, 0, p.target.thicknessMm.value_or(0)});
  u.shared = scene.sharedPrior;
  return u;
}

}  // namespace measure
}  // namespace rackside
