// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/fit.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "vision/measure/size_check.h"
#include "vision/measure/start.h"

namespace rackside::measure {
namespace {

// A corner further off than this many sigma, taken along both coordinates together, is set aside:
// of good corners 1 in 7,000 is.
constexpr double kOutlierSigmas = 4.2;
constexpr size_t kFewCorners = 8;  // with fewer nothing is set aside: one could not tell which
// The corners' own sigma is believed as much as this many degrees of freedom of residuals.
constexpr double kSigmaBelief = 8;
// Of a distance between cards, over the distance, before the tape and the lens are weighed
// together: what two cards far apart in one photograph leave open.
constexpr double kCamerasOwnDoubt = 0.003;
constexpr double kHopelessFactor = 12;  // of sigma: nothing that is one plane fits that badly

double squaredSigmas(const Observation& o, const cv::Point2d& residual) {
  return residual.dot(residual) / (o.sigmaPx * o.sigmaPx);
}

// Sigma of the whitened residuals by their median, which outliers hardly move.
double medianFactor(const Scene& scene, const std::vector<cv::Point2d>& residuals) {
  std::vector<double> size;
  for (size_t i = 0; i < residuals.size(); ++i)
    for (const double r : {residuals[i].x, residuals[i].y})
      size.push_back(std::abs(r) / scene.seen[i].sigmaPx);
  const auto middle = size.begin() + size.size() / 2;
  std::nth_element(size.begin(), middle, size.end());
  constexpr double normalMedian = 0.6745;  // of |x| for a unit normal x
  return *middle / normalMedian;
}

void markOutliers(Scene& scene, const std::vector<cv::Point2d>& residuals) {
  if (scene.seen.size() < kFewCorners) return;
  // Never stricter than half the sigma that the corners came with: few corners fit too well.
  const double limit = kOutlierSigmas * std::max(0.5, medianFactor(scene, residuals));
  for (size_t i = 0; i < residuals.size(); ++i)
    scene.seen[i].used = squaredSigmas(scene.seen[i], residuals[i]) < limit * limit;
}

// The card of a photograph most of whose corners were set aside; empty when there is none.
std::optional<std::string> contradiction(const Scene& scene) {
  for (size_t photo = 0; photo < scene.sizes.size(); ++photo)
    for (size_t piece = 0; piece < scene.pieces.size(); ++piece) {
      int used = 0, all = 0;
      for (const Observation& o : scene.seen)
        if (o.photo == int(photo) && o.piece == int(piece)) {
          ++all;
          used += o.used;
        }
      if (all > 0 && (2 * used < all || used < 2))
        return "The " + std::string(scene.pieces[piece].target.number > 0 ? "" : "reference ") +
               scene.pieces[piece].target.name + " in photograph " + std::to_string(photo + 1);
    }
  return std::nullopt;
}

Error contradicts(const std::string& who) {
  return Error{who +
               " does not agree with the rest: it moved between photographs, does not lie flat, "
               "or lies at another height than was said. Lay it flat on the board, check "
               "thicknesses, and take the photographs again, or leave that one out."};
}

// The views' combination that fits best: where a photograph has a mirror solution nearly as good,
// all photographs together decide.
Result<Unknowns> bestStart(const Scene& scene) {
  std::vector<std::vector<PlaneView>> options;
  for (size_t photo = 0; photo < scene.sizes.size(); ++photo) {
    auto views = viewsOf(scene, static_cast<int>(photo));
    if (!views) return views.error();
    options.push_back(std::move(views).value());
  }
  std::vector<PlaneView> chosen;
  for (const auto& views : options) chosen.push_back(views.front());
  Result<Unknowns> start = chain(scene, chosen);
  if (!start) return start.error();
  Unknowns best = *start;
  std::optional<double> bestCost = solve(scene, best, {true, 1, 100, 1e-8});
  for (size_t photo = 0; photo < options.size(); ++photo) {
    if (options[photo].size() < 2) continue;
    std::vector<PlaneView> other = chosen;
    other[photo] = options[photo][1];
    const Result<Unknowns> otherStart = chain(scene, other);
    if (!otherStart) continue;
    Unknowns u = *otherStart;
    const std::optional<double> cost = solve(scene, u, {true, 1, 100, 1e-8});
    if (!cost || (bestCost && *cost >= *bestCost)) continue;
    best = u;
    bestCost = cost;
    chosen = other;
  }
  if (!bestCost)
    return Error{
        "The cards of these photographs do not fit one flat board: check that none of "
        "them is bent or was moved, and take the photographs again."};
  return best;
}

double factorOf(const Fit& f, double assumedFactor) {
  double chi2 = 0;
  int count = 0;
  for (size_t i = 0; i < f.scene.seen.size(); ++i)
    if (f.scene.seen[i].used) {
      chi2 += squaredSigmas(f.scene.seen[i], f.residualsPx[i]);
      ++count;
    }
  const Eigen::MatrixXd corners = cornerNormal(f.scene, f.at, f.columns, assumedFactor);
  const Eigen::MatrixXd priors = priorNormal(f.scene, f.at, f.columns);
  const double fitted = (corners * inverseOf(corners + priors)).trace();
  const double freedom = std::max(0.0, 2 * count - fitted);
  return std::sqrt((kSigmaBelief + chi2) / (kSigmaBelief + freedom));
}

// A tape that says another size of the cards than they can have would pull all else out of shape.
void leaveOutContradictingTapes(Scene& scene, const Unknowns& withoutTapes) {
  const double declared = scene.sharedPrior[cardScale];
  const auto contradicts = [&](const TapedDistance& tape) {
    const double sigma = std::hypot(scene.sharedSigma[cardScale] / declared, tape.sigmaMm / tape.mm,
                                    kCamerasOwnDoubt);
    return std::abs(printByTape(scene, withoutTapes, tape) / declared - 1) > kOutlierSigmas * sigma;
  };
  for (const TapedDistance& tape : std::exchange(scene.taped, {}))
    (contradicts(tape) ? scene.tapedLeftOut : scene.taped).push_back(tape);
}

}  // namespace

Result<Fit> fit(Scene scene) {
  std::vector<TapedDistance> taped = std::exchange(scene.taped, {});
  Result<Unknowns> start = bestStart(scene);
  if (!start) return start.error();
  scene.taped = std::move(taped);
  leaveOutContradictingTapes(scene, *start);
  Fit f;
  f.columns = columnsOf(scene);
  f.at = std::move(start).value();
  f.scene = std::move(scene);
  f.residualsPx = residualsPx(f.scene, f.at);
  double factor = std::max(0.5, medianFactor(f.scene, f.residualsPx));
  for (int round = 0; round < 3; ++round) {
    markOutliers(f.scene, f.residualsPx);
    if (const auto who = contradiction(f.scene)) return contradicts(*who);
    if (!solve(f.scene, f.at, {false, factor, 60, 1e-10})) return contradicts("One of the cards");
    f.residualsPx = residualsPx(f.scene, f.at);
    const double before = factor;
    factor = factorOf(f, before);
    if (round > 0 && std::abs(factor / before - 1) < 0.01) break;
  }
  if (factor > kHopelessFactor) return contradicts("One of the cards");
  f.sigmaFactor = factor;
  f.normal = cornerNormal(f.scene, f.at, f.columns, factor) + priorNormal(f.scene, f.at, f.columns);
  return f;
}

}  // namespace rackside::measure
