// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/nearest_miss.h"

#include <algorithm>
#include <cmath>

#include "core/plan/drying.h"
#include "core/plan/milling.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

std::string mm(double value) {
  return std::to_string(static_cast<long long>(std::ceil(value - 1e-9))) + " mm";
}

// The kind narrowed or shortened until it finds a place; how much had to go.
class Shortfall {
 public:
  Shortfall(const Job& job, const BoardMap& map) : job_(job), map_(map) {}

  bool fits(int kindIndex, double lessLengthMm, double lessWidthMm) const {
    BlankKind kind = job_.kinds[kindIndex];
    kind.roughLengthMm -= lessLengthMm;
    kind.clearLengthMm -= std::min(lessLengthMm, kind.clearLengthMm - 1);
    kind.roughWidthMm -= lessWidthMm;
    kind.pieceWidthMm -= std::min(lessWidthMm, kind.pieceWidthMm - 1);
    for (int d = 0; d < map_.directions(); ++d) {
      const Footprint f =
          footprintOf(kind, grainToleranceRad(job_.parts[kind.part]), map_.angleRad(d), job_.cellMm,
                      job_.shop.crosscutKerfMm, Reading::forPlans);
      if (!f.fits) continue;
      for (int c = 0; c + f.steps <= map_.grid().count; c += 2)
        if (!map_.bottoms(kindIndex, d, c, f).empty()) return true;
    }
    return false;
  }

  // Least cut in one direction, to 1 mm, by halving; 1e9 when even half the part does not fit.
  double least(int kindIndex, bool length) const {
    const BlankKind& kind = job_.kinds[kindIndex];
    double lo = 0, hi = (length ? kind.roughLengthMm : kind.roughWidthMm) / 2;
    const auto ok = [&](double less) {
      return fits(kindIndex, length ? less : 0, length ? 0 : less);
    };
    if (!ok(hi)) return 1e9;
    while (hi - lo > 1) {
      const double middle = (lo + hi) / 2;
      (ok(middle) ? hi : lo) = middle;
    }
    return hi;
  }

 private:
  const Job& job_;
  const BoardMap& map_;
};

}  // namespace

Lack lackOf(const Job& job, const BoardMap& map, int partIndex) {
  const Part& part = job.parts[partIndex];
  const Board& board = map.board();
  Lack lack;
  lack.board = &board;
  const auto kindsOfPart = [&](int k) {
    return job.kinds[k].part == partIndex && job.kinds[k].copies == 1;
  };
  std::vector<int> here;
  for (const int k : map.kindsHere())
    if (kindsOfPart(k)) here.push_back(k);
  if (here.empty()) {
    const double spare =
        driedThicknessMm(board, job.shop) - 2 * job.shop.minTakeOffMm - part.thicknessMm;
    lack.byMm = std::max(0.1, -spare);
    lack.direction = "thickness";
    lack.why = "board " + board.name + " is too thin once it is flat";
    for (const Face face : {Face::A, Face::B})
      if (const std::string unseen = unseenFaceReason(part, board, face);
          !unseen.empty() && spare >= 0)
        lack.why = unseen, lack.direction = "", lack.byMm = 1e6;
    return lack;
  }
  const Shortfall shortfall(job, map);
  for (const int k : here) {
    if (shortfall.fits(k, 0, 0)) {
      lack.fits = true;
      lack.byMm = 0;
      return lack;
    }
    for (const bool length : {false, true}) {
      const double by = shortfall.least(k, length);
      if (by >= lack.byMm) continue;
      lack.byMm = by;
      lack.direction = length ? "length" : "width";
      lack.why = "no clear place is large enough; board " + board.name +
                 " comes nearest, short by " + mm(by) + " in " + lack.direction;
    }
  }
  return lack;
}

}  // namespace rackside
