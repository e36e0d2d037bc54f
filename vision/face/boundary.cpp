// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/boundary.h"

#include <algorithm>

#include "vision/face/border_path.h"
#include "vision/face/boundary_cost.h"
#include "vision/face/curve_border.h"

namespace rackside {
namespace {

constexpr double kSamePlaceMm = 4;   // nearer than this is the same place
constexpr double kFarthestMm = 250;  // others are looked for this far
constexpr double kWindowMm = 160;    // over which a place is compared with others

// A sawn side as one curve. Of rendered boards, sawn sides had a dearness below 0.3 where they
// could be seen and of about 0.5 where they were nearly lost; live edges from 0.6 on.
constexpr double kBendCostPerMm = 0.007;
constexpr float kMostAColumn = 3;
constexpr double kSawn = 0.45, kMaybeSawn = 0.65, kLeanPerMm2 = 0.02, kMostLean = 2;
constexpr double kClearBy = 0.25, kRivalWithin = 0.5;

BorderPathOptions pathOptions(const BoundaryProblem& problem) {
  BorderPathOptions options;
  options.stepCost = problem.stiffness;
  options.samePlace = int(kSamePlaceMm / problem.acrossMm) + 1;
  options.farthest = int(kFarthestMm / problem.acrossMm);
  options.window = int(kWindowMm / problem.alongMm);
  return options;
}

CurveBorder curveOf(const BoundaryProblem& problem, const cv::Mat& cost) {
  CurveOptions options;
  options.mostTilt = problem.mostSlope * problem.alongMm * cost.cols / 2 / problem.acrossMm;
  options.mostBend = problem.mostBendMm / problem.acrossMm;
  options.bendCost = kBendCostPerMm * problem.acrossMm;
  options.mostAColumn = kMostAColumn;
  options.samePlace = kSamePlaceMm / problem.acrossMm;
  return cheapestCurve(cost, options);
}

OneCurve judged(const CurveBorder& curve) {
  if (curve.rival - 2 * curve.dearness > kClearBy) return OneCurve::clearly;
  const bool rivalled = curve.rival - curve.dearness < kRivalWithin;
  return curve.dearness < kSawn || (curve.dearness < kMaybeSawn && rivalled) ? OneCurve::doubtful
                                                                             : OneCurve::no;
}

}  // namespace

Boundary findBoundary(const BoundaryProblem& problem) {
  const BoundaryCost cost = boundaryCost(problem);
  Boundary boundary;
  const cv::Mat ifSawn = cost.total + cost.ifSawn;
  const CurveBorder curve = curveOf(problem, ifSawn);
  boundary.sawn = judged(curve);
  cv::Mat total = cost.total, leaning;
  if (boundary.sawn != OneCurve::no) {
    total = ifSawn;
    leaning = leaningTo(curve, total.size(), kLeanPerMm2 * problem.acrossMm * problem.acrossMm,
                        kMostLean);
  }
  const BorderPath path = cheapestBorder(total, pathOptions(problem), leaning);
  boundary.columns.resize(path.row.size());
  for (size_t i = 0; i < path.row.size(); ++i) {
    BoundaryColumn& c = boundary.columns[i];
    const int x = int(i), y = path.row[i];
    c.row = y;
    c.margin = path.margin[i];
    c.hidden = cost.hidden.at<uchar>(y, x);
    const int beyond = std::min(problem.seen.rows - 1, y + 2);
    c.atPictureEdge = problem.seen.at<uchar>(beyond, x) == 0 || y >= problem.seen.rows - 2;
  }
  return boundary;
}

}  // namespace rackside
