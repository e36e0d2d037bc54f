// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/register_face.h"

#include <algorithm>
#include <numbers>

#include "core/geometry/polygon.h"
#include "vision/face/board_frame.h"
#include "vision/face/rigid_match.h"

namespace rackside {
namespace {

constexpr double kClearlyBetter = 0.6;  // misfit of one way against the other's
constexpr double kNoisyMm = 0.5;        // misfits below that say nothing about which way
constexpr double kWorstMisfitMm = 6;    // beyond it the outlines are not of one board
constexpr double kWorstTieMm = 15;

struct Candidate {
  RigidMatch match;  // board from the found outline's own box frame, after `flip`
  cv::Matx22d flip;  // of the box frame
  double tieMm = 0;  // worst tie point
};

Point turn(const cv::Matx22d& m, Point p) {
  return {m(0, 0) * p.x + m(0, 1) * p.y, m(1, 0) * p.x + m(1, 1) * p.y};
}

Polygon flipped(const Polygon& p, const cv::Matx22d& flip) {
  Polygon out;
  for (const Point& q : p) out.push_back(turn(flip, q));
  if (cv::determinant(flip) < 0) std::reverse(out.begin(), out.end());
  return out;
}

Point toBoard(const Candidate& c, const Pose& boxFromPlane, Point plane) {
  return rackside::apply(c.match.targetFromSource,
                         turn(c.flip, rackside::apply(boxFromPlane, plane)));
}

Error askForTies(const std::string& why) {
  return Error{why +
               " Name one or two places seen before and now (a through knot, a hole, a tag on an "
               "end) with --tie, so that the faces are laid on each other by those."};
}

// planeFromBoard: the inverse of plane → box → flip → board.
cv::Matx23d planeFromBoard(const Candidate& c, const Pose& boxFromPlane) {
  const Point o = toBoard(c, boxFromPlane, {0, 0}), x = toBoard(c, boxFromPlane, {1, 0}) - o,
              y = toBoard(c, boxFromPlane, {0, 1}) - o;
  const double det = x.x * y.y - y.x * x.y;  // ±1
  const cv::Matx22d inv(y.y / det, -y.x / det, -x.y / det, x.x / det);
  const Point shift = turn(inv, o);
  return {inv(0, 0), inv(0, 1), -shift.x, inv(1, 0), inv(1, 1), -shift.y};
}

double edgeSigma(const Outline& a, const FoundOutline& b) {
  const auto mean = [](const std::vector<OutlineVertex>& v) {
    double sum = 0;
    for (const OutlineVertex& q : v) sum += q.sigmaMm * q.sigmaMm;
    return v.empty() ? 0.0 : sum / double(v.size());
  };
  return std::sqrt(mean(a.vertices) + mean(b.vertices));
}

Result<FaceFit> registerBy(const Outline& faceA, const FoundOutline& found, const TiePairs& ties,
                           const cv::Matx22d& first, const cv::Matx22d& second,
                           const std::string& what, std::optional<WayRound> known = {}) {
  const Polygon target = faceA.polygon();
  const BoardFrame own =
      frameBoard(found, {std::sin(found.axisAngleRad), -std::cos(found.axisAngleRad)});
  Polygon source;
  for (const OutlineVertex& v : own.vertices) source.push_back(v.at);
  std::vector<Candidate> ways;
  for (const cv::Matx22d& flip : {first, second}) {
    Candidate c{matchOutlines(target, flipped(source, flip)), flip, 0};
    for (const auto& [board, plane] : ties)
      c.tieMm = std::max(c.tieMm, norm(toBoard(c, own.boardFromPlane, plane) - board));
    ways.push_back(c);
  }
  Candidate &a = ways[0], &b = ways[1];
  const bool swap = !ties.empty() ? b.tieMm < a.tieMm
                    : known       ? *known == WayRound::turned
                                  : b.match.misfitMm < a.match.misfitMm;
  const Candidate& best = swap ? b : a;
  const Candidate& other = swap ? a : b;
  if (ties.empty()) {
    if (best.match.misfitMm > kWorstMisfitMm)
      return askForTies("The outline of " + what + " does not fit the stored one (" +
                        std::to_string(int(std::lround(best.match.misfitMm))) +
                        " mm apart): wane, or another board.");
    if (!known && (other.match.misfitMm < kNoisyMm ||
                   best.match.misfitMm > kClearlyBetter * other.match.misfitMm))
      return askForTies("The outline of " + what +
                        " fits the stored one either way round, so the ends could be swapped.");
  } else if (best.tieMm > kWorstTieMm) {
    return Error{
        "The tie points do not fit: they lie " + std::to_string(int(std::lround(best.tieMm))) +
        " mm apart once the outlines are laid on each other. Check which places were named."};
  }
  FaceFit fit;
  fit.planeFromBoard = planeFromBoard(best, own.boardFromPlane);
  fit.misfitMm = best.match.misfitMm;
  fit.how = !ties.empty() ? "outline and tie points" : known ? "outline and figure" : "outline";
  // The outlines' own noise averages out over their length; a misfit of shape (wane) does not.
  fit.u95Mm = 1.96 * std::hypot(edgeSigma(faceA, found) / 3, 0.5 * best.match.misfitMm,
                                ties.empty() ? 0.0 : best.tieMm / 3);
  return fit;
}

}  // namespace

Result<FaceFit> registerFaceB(const Outline& faceA, const FoundOutline& found,
                              const TiePairs& ties) {
  return registerBy(faceA, found, ties, {1, 0, 0, -1}, {-1, 0, 0, 1}, "face B");
}

Result<FaceFit> registerRetake(const Outline& faceA, const FoundOutline& found,
                               const TiePairs& ties, std::optional<WayRound> known) {
  return registerBy(faceA, found, ties, {1, 0, 0, 1}, {-1, 0, 0, -1}, "the retake", known);
}

}  // namespace rackside
