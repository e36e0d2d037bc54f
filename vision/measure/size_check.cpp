// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/size_check.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/number_text.h"
#include "vision/measure/residuals.h"

namespace rackside::measure {
namespace {

// Printers at "actual size" keep within 0.2 % (measured bars of a few office printers, from
// memory); a page shrunk to fit is 3 to 6 % small. What is told lies between.
constexpr double kOddSize = 0.0035;      // of one card among others
constexpr double kOddByTape = 0.005;     // of all cards
constexpr double kSureChi2 = 12;         // 3.5 sigma: one sound card in 2,000
constexpr double kAlikeChi2Share = 0.8;  // another card that explains the misfit nearly as well

// What letting one card have a size of its own would do to the fit, to first order (the score, or
// Lagrange multiplier, test: Rao 1948), with all other unknowns following.
struct OddSize {
  int piece = 0;
  double larger = 0;  // share of its size by which it is larger than the others say
  double chi2 = 0;    // by which the misfit falls, in units of what is left
};

OddSize oddSizeOf(const Fit& f, int piece, double chi2, double freedom) {
  const int extra = f.columns.count;
  Eigen::VectorXd coupling = Eigen::VectorXd::Zero(f.columns.count);
  double information = 0, score = 0;
  for (size_t i = 0; i < f.scene.seen.size(); ++i) {
    const Observation& o = f.scene.seen[i];
    if (o.piece != piece || !o.used) continue;
    const int lens = f.scene.lensOf[o.photo];
    std::array<int, ownParts> own{};
    own.fill(-1);
    own[stretchX] = own[stretchY] = extra;
    const auto rows =
        cornerRows(residualOf(f.scene, o, f.sigmaFactor),
                   {f.at.lenses[lens].data(), f.at.cameras[o.photo].data(),
                    f.at.places[piece].data(), f.at.owns[piece].data(), f.at.shared.data()},
                   {f.columns.lens[lens], f.columns.camera[o.photo], f.columns.place[piece], own,
                    f.columns.shared});
    if (!rows) continue;
    const double off[] = {f.residualsPx[i].x, f.residualsPx[i].y};
    for (int c = 0; c < 2; ++c) {
      double bySize = 0;
      for (int k = 0; k < rows->count; ++k)
        if (rows->column[k] == extra) bySize += rows->value[c][k];
      for (int k = 0; k < rows->count; ++k)
        if (rows->column[k] != extra) coupling[rows->column[k]] += bySize * rows->value[c][k];
      information += bySize * bySize;
      score += bySize * off[c] / (o.sigmaPx * f.sigmaFactor);
    }
  }
  const double free = information - coupling.dot(f.normal.ldlt().solve(coupling));
  if (!(free > 1e-9 * information) || !(free > 0)) return {piece, 0, 0};
  const double gain = score * score / free;
  return {piece, -score / free, gain * freedom / std::max(1.0, chi2 - gain)};
}

std::vector<OddSize> oddSizes(const Fit& f) {
  double chi2 = 0, freedom = -f.columns.count;
  for (size_t i = 0; i < f.scene.seen.size(); ++i) {
    const Observation& o = f.scene.seen[i];
    if (!o.used) continue;
    const double sigma = o.sigmaPx * f.sigmaFactor;
    chi2 += f.residualsPx[i].dot(f.residualsPx[i]) / (sigma * sigma);
    freedom += 2;
  }
  std::vector<OddSize> all;
  for (size_t i = 0; i < f.scene.pieces.size(); ++i)
    if (f.scene.pieces[i].target.printed && freedom > 0)
      all.push_back(oddSizeOf(f, int(i), chi2, freedom));
  std::sort(all.begin(), all.end(),
            [](const OddSize& a, const OddSize& b) { return a.chi2 > b.chi2; });
  return all;
}

std::string percent(double share, int decimals = 1) {
  return fixedText(100 * share, decimals) + " %";
}

void addOddCards(const Fit& f, std::vector<std::string>& lines) {
  const std::vector<OddSize> odd = oddSizes(f);
  if (odd.size() < 2 || odd[0].chi2 < kSureChi2 || std::abs(odd[0].larger) < kOddSize) return;
  const auto name = [&](const OddSize& o) { return f.scene.pieces[size_t(o.piece)].target.name; };
  const std::string remedy =
      ": it was printed at another scale, or does not lie flat. Print all cards at one time at "
      "100 %; until then the lengths may be as much wrong.";
  if (odd[1].chi2 > kAlikeChi2Share * odd[0].chi2) {
    lines.push_back("One of the cards (" + name(odd[0]) + " or " + name(odd[1]) +
                    ") differs from the others by about " + percent(std::abs(odd[0].larger)) +
                    " in size" + remedy);
    return;
  }
  lines.push_back("The " + name(odd[0]) + " differs from the others by about " +
                  percent(std::abs(odd[0].larger)) + " in size (it is " +
                  (odd[0].larger < 0 ? "smaller" : "larger") + ")" + remedy);
}

std::string tapeSays(const Fit& f, const TapedDistance& tape) {
  return "The tape between cards " + std::to_string(tape.cardA) + " and " +
         std::to_string(tape.cardB) + " says that the cards print at " +
         percent(printByTape(f.scene, f.at, tape)) + ", but they are taken to be at " +
         percent(f.scene.sharedPrior[cardScale]) + ". ";
}

void addTapes(const Fit& f, std::vector<std::string>& lines) {
  const double declared = f.scene.sharedPrior[cardScale];
  const char* remedy =
      "Measure the bar on a card with a rule and give it (--card-scale), and tape the distance "
      "again.";
  for (const TapedDistance& tape : f.scene.tapedLeftOut)
    lines.push_back(tapeSays(f, tape) +
                    "That is further apart than either may be wrong, so the tape was left out. " +
                    remedy);
  for (const TapedDistance& tape : f.scene.taped)
    if (std::abs(printByTape(f.scene, f.at, tape) / declared - 1) > kOddByTape)
      lines.push_back(tapeSays(f, tape) + "One of the two is wrong, and every length with it. " +
                      remedy);
}

}  // namespace

double printByTape(const Scene& scene, const Unknowns& at, const TapedDistance& tape) {
  const PlaceBlock& a = at.places[size_t(pieceOfCard(scene, tape.cardA))];
  const PlaceBlock& b = at.places[size_t(pieceOfCard(scene, tape.cardB))];
  const double fitted = std::hypot(b[placeX] - a[placeX], b[placeY] - a[placeY]);
  return fitted > 0 ? at.shared[cardScale] * tape.mm / fitted : at.shared[cardScale];
}

std::vector<std::string> sizeWarnings(const Fit& f) {
  std::vector<std::string> lines;
  addTapes(f, lines);
  addOddCards(f, lines);
  return lines;
}

}  // namespace rackside::measure
