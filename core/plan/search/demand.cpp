// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/demand.h"

#include <algorithm>
#include <functional>

namespace rackside {

bool Demand::fits(const std::vector<int>& parts) const {
  for (size_t i = 0; i < parts.size();) {
    size_t next = i;
    while (next < parts.size() && parts[next] == parts[i]) ++next;
    if (static_cast<int>(next - i) > left[parts[i]]) return false;
    i = next;
  }
  return std::all_of(panels.begin(), panels.end(), [&](const WantedPanel& panel) {
    int begun = 0;
    for (const PanelWay& way : panel.ways) {
      const auto [from, to] = std::equal_range(parts.begin(), parts.end(), way.part);
      begun += begunWith(way, static_cast<int>(to - from));
    }
    return begun <= panel.copies;
  });
}

void Demand::take(const std::vector<int>& parts) {
  if (held.empty()) held.assign(left.size(), 0);
  for (const int part : parts) --left[part], ++held[part];
  for (const WantedPanel& panel : panels) {
    int open = panel.copies;
    for (const PanelWay& way : panel.ways) open -= begunWith(way, 0);
    for (const PanelWay& way : panel.ways)
      left[way.part] = std::max(
          0, std::min(left[way.part],
                      way.strips * (begunWith(way, 0) + std::max(0, open)) - heldOf(way.part)));
  }
}

int Demand::begunWith(const PanelWay& way, int more) const {
  return (heldOf(way.part) + more + way.strips - 1) / way.strips;
}

void Demand::decide(const std::vector<int>& made) {
  auto next = made.begin();
  for (WantedPanel& panel : panels) {
    for (PanelWay& way : panel.ways) way.least = way.most = *next++;
    leaveWithin(panel);
  }
}

void Demand::limitPanel(size_t panel, int least, int most) {
  panels[panel].least = least;
  panels[panel].copies = most;
  leaveWithin(panels[panel]);
}

void Demand::limitWay(size_t panel, size_t way, int least, int most) {
  panels[panel].ways[way].least = least;
  panels[panel].ways[way].most = most;
  leaveWithin(panels[panel]);
}

// Where some are asked for, as a panel of one strip.
void Demand::limitPart(int part, double mostWorth, int least, int most) {
  left[part] = most;
  if (least > 0) panels.push_back({{{part, 1, mostWorth}}, most, least});
}

void Demand::leaveWithin(const WantedPanel& panel) {
  for (const PanelWay& way : panel.ways)
    left[way.part] =
        std::clamp(panel.most(way) * way.strips - heldOf(way.part), 0, std::max(0, left[way.part]));
}

std::vector<char> Demand::strips() const {
  std::vector<char> is(left.size(), 0);
  for (const WantedPanel& panel : panels)
    for (const PanelWay& way : panel.ways) is[way.part] = 1;
  return is;
}

bool Demand::isStrip(int part) const {
  return std::any_of(panels.begin(), panels.end(), [&](const WantedPanel& panel) {
    return std::any_of(panel.ways.begin(), panel.ways.end(),
                       [&](const PanelWay& way) { return way.part == part; });
  });
}

double Demand::ceiling(const std::vector<double>& prices) const {
  double all = 0;
  const std::vector<char> isStrip = strips();
  for (size_t p = 0; p < prices.size(); ++p)
    if (!isStrip[p]) all += prices[p] * left[p];
  for (const WantedPanel& panel : panels) {
    all += ceilingOf(panel, prices);
    for (const PanelWay& way : panel.ways) {
      const double price = prices[way.part];
      all -= price * heldOf(way.part);
      all += std::max(0.0, price - way.mostWorth) * way.strips * panel.copies;  // thrown away
    }
  }
  return all;
}

// The dearest ways first, as many as are asked for, or more as long as they pay.
double Demand::ceilingOf(const WantedPanel& panel, const std::vector<double>& prices) {
  double all = 0;
  int open = panel.copies, asked = panel.least;
  std::vector<std::pair<double, int>> more;  // price of a panel, how many
  for (const PanelWay& way : panel.ways) {
    const double price = way.strips * prices[way.part];
    all += price * way.least;
    open -= way.least;
    asked -= way.least;
    more.emplace_back(price, panel.most(way) - way.least);
  }
  std::sort(more.begin(), more.end(), std::greater<>());
  for (const auto& [price, most] : more) {
    const int made = std::clamp(most, 0, std::max(0, price > 0 ? open : asked));
    all += price * made;
    open -= made;
    asked -= made;
  }
  return all;
}

int Demand::wholeOf(const WantedPanel& panel, const std::vector<int>& copies) const {
  int whole = 0;
  for (const PanelWay& way : panel.ways)
    whole += (copies[way.part] + heldOf(way.part)) / way.strips;
  return std::min(whole, panel.copies);
}

double Demand::waste(const std::vector<int>& copies) const {
  double all = 0;
  for (const WantedPanel& panel : panels) {
    int whole = wholeOf(panel, copies);
    for (const PanelWay& way : panel.ways) {
      const int strips = copies[way.part] + heldOf(way.part);
      const int taken = std::min(whole, strips / way.strips);
      whole -= taken;
      all += way.mostWorth * (strips - taken * way.strips);
    }
  }
  return all;
}

double Demand::inCopies(const std::vector<int>& copies) const {
  double all = 0;
  const std::vector<char> isStrip = strips();
  for (size_t p = 0; p < copies.size(); ++p)
    if (!isStrip[p]) all += copies[p];
  for (const WantedPanel& panel : panels)
    for (const PanelWay& way : panel.ways)
      all += static_cast<double>(copies[way.part]) / way.strips;
  return all;
}

bool Demand::lacks(const std::vector<int>& copies) const {
  const std::vector<char> isStrip = strips();
  for (size_t p = 0; p < copies.size(); ++p)
    if (!isStrip[p] && copies[p] < left[p]) return true;
  return std::any_of(panels.begin(), panels.end(), [&](const WantedPanel& panel) {
    return wholeOf(panel, copies) < panel.copies;
  });
}

}  // namespace rackside
