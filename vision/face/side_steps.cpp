// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/side_steps.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

constexpr double kStepMm = 12, kStepWithinMm = 40;
constexpr double kBeyondStepSigmaMm = 4.5;  // as of a side that may be lost altogether

}  // namespace

void doubtBeyondSteps(std::vector<EdgePoint>& side) {
  const size_t reach = size_t(kStepWithinMm / kEdgeStepMm) / 2;
  const auto step = [&](size_t i) { return std::abs(side[i + reach].at.y - side[i - reach].at.y); };
  std::vector<size_t> ends{0};
  for (size_t i = reach; i + reach < side.size(); ++i) {
    if (step(i) < kStepMm) continue;
    size_t steepest = i;
    for (; i + reach < side.size() && step(i) >= kStepMm; ++i)
      if (step(i) > step(steepest)) steepest = i;
    ends.push_back(steepest);
  }
  ends.push_back(side.size());
  size_t longest = 1;
  for (size_t k = 1; k < ends.size(); ++k)
    if (ends[k] - ends[k - 1] > ends[longest] - ends[longest - 1]) longest = k;
  for (size_t i = 0; i < side.size(); ++i) {
    EdgePoint& p = side[i];
    if ((i < ends[longest - 1] || i >= ends[longest]) && p.state == EdgeState::sure)
      p.state = EdgeState::unsure, p.sigmaMm = std::max(p.sigmaMm, kBeyondStepSigmaMm);
  }
}

}  // namespace rackside
