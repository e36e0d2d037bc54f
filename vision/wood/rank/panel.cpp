// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/panel.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace rackside {
namespace {

// A step of 6 % in lightness or warmth, or grain that meets at 5°, is plain to see across a seam
// (judged by eye; no source).
constexpr double kPlainStep = 0.06;
constexpr double kPlainSlopeRad = 5 * CV_PI / 180;
// Sapwood inside a panel is worse than any step of colour that is only plain to see.
constexpr double kSapwoodInside = 4;
constexpr size_t kMostTried = 7;  // strips whose orders are all tried; beyond, by exchanges

// As it comes next to its neighbour: which edge, and whether it runs the other way.
struct Side {
  const StripEdge* edge;
  bool reversed;
};

const StripFace& shown(const PanelStrip& s, const LaidStrip& laid) {
  return laid.over ? *s.other : s;
}

Side lowSide(const StripFace& s, bool turned) {
  return turned ? Side{&s.far, true} : Side{&s.near, false};
}
Side highSide(const StripFace& s, bool turned) {
  return turned ? Side{&s.near, true} : Side{&s.far, false};
}

Seam seamOf(const Panel& panel, const LaidStrip& low, const LaidStrip& high) {
  const StripFace& below = shown(panel.strips[size_t(low.strip)], low);
  const StripFace& above = shown(panel.strips[size_t(high.strip)], high);
  const Side a = highSide(below, low.turned), b = lowSide(above, high.turned);
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
  return {std::sqrt(step / StripEdge::kStretches), slope / StripEdge::kStretches,
          a.edge->sapwood || b.edge->sapwood};
}

// The same panel turned half round in its plane is the same panel.
bool isHalfTurn(const std::vector<LaidStrip>& a, const std::vector<LaidStrip>& b) {
  if (a.size() != b.size()) return false;
  for (size_t i = 0; i < a.size(); ++i) {
    const LaidStrip& other = b[b.size() - 1 - i];
    if (a[i].strip != other.strip || a[i].turned == other.turned || a[i].over != other.over)
      return false;
  }
  return true;
}

void keep(std::vector<PanelOrder>& best, PanelOrder order, size_t most) {
  if (best.size() >= most && order.cost >= best.back().cost) return;
  for (const PanelOrder& o : best)
    if (o.strips == order.strips || isHalfTurn(o.strips, order.strips)) return;
  const auto at = std::upper_bound(best.begin(), best.end(), order.cost,
                                   [](double cost, const PanelOrder& o) { return cost < o.cost; });
  best.insert(at, std::move(order));
  if (best.size() > most) best.pop_back();
}

// The ways one strip may lie.
std::vector<LaidStrip> waysOf(const Panel& panel, int strip) {
  std::vector<LaidStrip> ways{{strip, false, false}, {strip, true, false}};
  if (panel.strips[size_t(strip)].other) {
    ways.push_back({strip, false, true});
    ways.push_back({strip, true, true});
  }
  return ways;
}

// Lays strip after strip in every way, and gives up a beginning that already costs more than the
// last of the best few.
class AllOrders {
 public:
  AllOrders(const Panel& panel, size_t most) : panel_(panel), most_(most) {
    const auto count = int(panel.strips.size());
    for (int i = 0; i < count; ++i)
      for (const LaidStrip& way : waysOf(panel, i)) ways_.push_back(way);
    for (const LaidStrip& low : ways_)
      for (const LaidStrip& high : ways_)
        costs_.push_back(low.strip == high.strip ? 0 : seamOf(panel, low, high).cost());
  }

  std::vector<PanelOrder> best() {
    used_.assign(panel_.strips.size(), false);
    lay(0, 0);
    return std::move(best_);
  }

 private:
  void lay(double sum, double worst) {
    const size_t count = panel_.strips.size();
    const double cost = sum / std::max(1.0, double(count) - 1) + worst;
    if (best_.size() >= most_ && cost >= best_.back().cost) return;
    if (laid_.size() == count) {
      std::vector<LaidStrip> strips;
      strips.reserve(count);
      for (const size_t way : laid_) strips.push_back(ways_[way]);
      return keep(best_, judgedOrder(panel_, strips), most_);
    }
    for (size_t way = 0; way < ways_.size(); ++way) {
      const auto strip = size_t(ways_[way].strip);
      if (used_[strip]) continue;
      const double seam = laid_.empty() ? 0 : costs_[laid_.back() * ways_.size() + way];
      used_[strip] = true;
      laid_.push_back(way);
      lay(sum + seam, std::max(worst, seam));
      laid_.pop_back();
      used_[strip] = false;
    }
  }

  const Panel& panel_;
  size_t most_;
  std::vector<LaidStrip> ways_;
  std::vector<double> costs_;  // of the seam between two ways, ways × ways
  std::vector<bool> used_;
  std::vector<size_t> laid_;
  std::vector<PanelOrder> best_;
};

// Exchanges two strips, or lays one another way, as long as that helps.
PanelOrder improved(const Panel& panel, PanelOrder order) {
  const auto take = [&](const std::vector<LaidStrip>& strips) {
    PanelOrder trial = judgedOrder(panel, strips);
    if (trial.cost >= order.cost - 1e-9) return false;
    order = std::move(trial);
    return true;
  };
  for (bool better = true; better;) {
    better = false;
    for (size_t i = 0; i < order.strips.size(); ++i) {
      for (const LaidStrip& way : waysOf(panel, order.strips[i].strip)) {
        std::vector<LaidStrip> strips = order.strips;
        strips[i] = way;
        better = take(strips) || better;
      }
      for (size_t j = 0; j < i; ++j) {
        std::vector<LaidStrip> strips = order.strips;
        std::swap(strips[i], strips[j]);
        better = take(strips) || better;
      }
    }
  }
  return order;
}

}  // namespace

double Seam::cost() const {
  return std::hypot(colourStep / kPlainStep, slopeRad / kPlainSlopeRad) / std::sqrt(2.0) +
         (sapwood ? kSapwoodInside : 0);
}

PanelOrder judgedOrder(const Panel& panel, const std::vector<LaidStrip>& strips) {
  PanelOrder order;
  order.strips = strips;
  double worst = 0;
  for (size_t i = 0; i + 1 < strips.size(); ++i) {
    order.seams.push_back(seamOf(panel, strips[i], strips[i + 1]));
    worst = std::max(worst, order.seams.back().cost());
    order.cost += order.seams.back().cost() / double(strips.size() - 1);
  }
  order.cost += worst;
  return order;
}

std::vector<PanelOrder> bestOrders(const Panel& panel, size_t most) {
  if (panel.strips.size() <= kMostTried) return AllOrders(panel, most).best();
  std::vector<LaidStrip> strips(panel.strips.size());
  for (size_t i = 0; i < strips.size(); ++i) strips[i].strip = int(i);
  return {improved(panel, judgedOrder(panel, strips))};
}

std::string words(const Seam& seam) {
  char text[120];
  std::snprintf(text, sizeof text, "colour steps by %.0f %%, grain meets at %.0f°",
                100 * seam.colourStep, seam.slopeRad * 180 / CV_PI);
  return text;
}

}  // namespace rackside
