// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/panel.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace rackside {
namespace {

// A step of 6 % in lightness or warmth, or grain that meets at 5°, is plain to see across a seam
// (judged by eye; no source).
constexpr double kPlainStep = 0.06;
constexpr double kPlainSlopeRad = 5 * CV_PI / 180;
constexpr size_t kMostTried = 7;  // strips whose orders are all tried; beyond, by exchanges

// As it comes next to its neighbour: which edge, and whether it runs the other way.
struct Side {
  const StripEdge* edge;
  bool reversed;
};

Side lowSide(const PanelStrip& s, bool turned) {
  return turned ? Side{&s.far, true} : Side{&s.near, false};
}
Side highSide(const PanelStrip& s, bool turned) {
  return turned ? Side{&s.near, true} : Side{&s.far, false};
}

Seam seamOf(const PanelStrip& below, bool belowTurned, const PanelStrip& above, bool aboveTurned) {
  const Side a = highSide(below, belowTurned), b = lowSide(above, aboveTurned);
  const bool colour = below.colourKnown && above.colourKnown;
  double step = 0, slope = 0;
  for (int i = 0; i < StripEdge::kStretches; ++i) {
    const size_t p = size_t(a.reversed ? StripEdge::kStretches - 1 - i : i);
    const size_t q = size_t(b.reversed ? StripEdge::kStretches - 1 - i : i);
    const double light = a.edge->lightness[p] - b.edge->lightness[q];
    const double warm = colour ? a.edge->warmth[p] - b.edge->warmth[q] : 0;
    step += light * light + warm * warm;
    slope += std::abs(std::remainder(a.edge->slopeRad[p] - b.edge->slopeRad[q], CV_PI));
  }
  return {std::sqrt(step / StripEdge::kStretches), slope / StripEdge::kStretches};
}

std::vector<LaidStrip> plainOrder(const Panel& panel) {
  std::vector<LaidStrip> strips(panel.strips.size());
  for (size_t i = 0; i < strips.size(); ++i) strips[i].strip = int(i);
  return strips;
}

// The same panel seen from its other side is the same panel.
bool isMirror(const std::vector<LaidStrip>& a, const std::vector<LaidStrip>& b) {
  if (a.size() != b.size()) return false;
  for (size_t i = 0; i < a.size(); ++i) {
    const LaidStrip& other = b[b.size() - 1 - i];
    if (a[i].strip != other.strip || a[i].turned == other.turned) return false;
  }
  return true;
}

void keep(std::vector<PanelOrder>& best, PanelOrder order, size_t most) {
  if (best.size() >= most && order.cost >= best.back().cost) return;
  for (const PanelOrder& o : best)
    if (o.strips == order.strips || isMirror(o.strips, order.strips)) return;
  const auto at = std::upper_bound(best.begin(), best.end(), order.cost,
                                   [](double cost, const PanelOrder& o) { return cost < o.cost; });
  best.insert(at, std::move(order));
  if (best.size() > most) best.pop_back();
}

void tryTurns(const Panel& panel, std::vector<LaidStrip> strips, size_t most,
              std::vector<PanelOrder>& best) {
  const size_t ways = size_t(1) << strips.size();
  for (size_t way = 0; way < ways; ++way) {
    for (size_t i = 0; i < strips.size(); ++i) strips[i].turned = (way >> i) & 1U;
    keep(best, judgedOrder(panel, strips), most);
  }
}

// Exchanges two strips or turns one as long as that helps.
PanelOrder improved(const Panel& panel, PanelOrder order) {
  for (bool better = true; better;) {
    better = false;
    for (size_t i = 0; i < order.strips.size(); ++i)
      for (size_t j = i; j < order.strips.size(); ++j) {
        std::vector<LaidStrip> strips = order.strips;
        if (i == j)
          strips[i].turned = !strips[i].turned;
        else
          std::swap(strips[i], strips[j]);
        PanelOrder trial = judgedOrder(panel, strips);
        if (trial.cost < order.cost - 1e-9) order = std::move(trial), better = true;
      }
  }
  return order;
}

}  // namespace

double Seam::cost() const {
  return std::hypot(colourStep / kPlainStep, slopeRad / kPlainSlopeRad) / std::sqrt(2.0);
}

PanelOrder judgedOrder(const Panel& panel, const std::vector<LaidStrip>& strips) {
  PanelOrder order;
  order.strips = strips;
  double worst = 0;
  for (size_t i = 0; i + 1 < strips.size(); ++i) {
    const LaidStrip &a = strips[i], &b = strips[i + 1];
    order.seams.push_back(
        seamOf(panel.strips[size_t(a.strip)], a.turned, panel.strips[size_t(b.strip)], b.turned));
    worst = std::max(worst, order.seams.back().cost());
    order.cost += order.seams.back().cost() / double(strips.size() - 1);
  }
  order.cost += worst;
  return order;
}

std::vector<PanelOrder> bestOrders(const Panel& panel, size_t most) {
  std::vector<PanelOrder> best;
  std::vector<LaidStrip> strips = plainOrder(panel);
  if (strips.size() > kMostTried) {
    keep(best, improved(panel, judgedOrder(panel, strips)), most);
    return best;
  }
  std::vector<int> sequence(strips.size());
  std::iota(sequence.begin(), sequence.end(), 0);
  do {
    if (sequence.size() > 1 && sequence.front() > sequence.back()) continue;  // seen from behind
    for (size_t i = 0; i < strips.size(); ++i) strips[i] = {sequence[i], false};
    tryTurns(panel, strips, most, best);
  } while (std::next_permutation(sequence.begin(), sequence.end()));
  return best;
}

std::string words(const Seam& seam) {
  char text[120];
  std::snprintf(text, sizeof text, "colour steps by %.0f %%, grain meets at %.0f°",
                100 * seam.colourStep, seam.slopeRad * 180 / CV_PI);
  return text;
}

}  // namespace rackside
