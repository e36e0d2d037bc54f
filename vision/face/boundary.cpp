// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/boundary.h"

#include <algorithm>

#include "vision/face/border_path.h"
#include "vision/face/boundary_cost.h"

namespace rackside {
namespace {

constexpr double kSamePlaceMm = 4;   // nearer than this is the same place
constexpr double kFarthestMm = 250;  // others are looked for this far
constexpr double kWindowMm = 160;    // over which a place is compared with others

}  // namespace

std::vector<BoundaryColumn> findBoundary(const BoundaryProblem& problem) {
  const BoundaryCost cost = boundaryCost(problem);
  BorderPathOptions options;
  options.stepCost = problem.stiffness;
  options.samePlace = int(kSamePlaceMm / problem.acrossMm) + 1;
  options.farthest = int(kFarthestMm / problem.acrossMm);
  options.window = int(kWindowMm / problem.alongMm);
  const BorderPath path = cheapestBorder(cost.total, options);
  std::vector<BoundaryColumn> columns(path.row.size());
  for (size_t i = 0; i < columns.size(); ++i) {
    BoundaryColumn& c = columns[i];
    const int x = int(i), y = path.row[i];
    c.row = y;
    c.margin = path.margin[i];
    c.hidden = cost.hidden.at<uchar>(y, x);
    const int beyond = std::min(problem.seen.rows - 1, y + 2);
    c.atPictureEdge = problem.seen.at<uchar>(beyond, x) == 0 || y >= problem.seen.rows - 2;
  }
  return columns;
}

}  // namespace rackside
