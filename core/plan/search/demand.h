// SPDX-License-Identifier: GPL-3.0-or-later
// What a search still has to place: copies of parts, and panels, each of which is made whole in one
// of several ways or not at all.
//
// A way of making a panel is a part of its own in the search: the strip, wanted as often as all
// copies of the panel need. Strips that no whole panel takes are wasted: a plan loses their worth.
#pragma once

#include <algorithm>
#include <vector>

namespace rackside {

struct PanelWay {
  int part = 0;  // the strip
  int strips = 1;
  double mostWorth = 0;           // of a strip, wherever it lies
  int least = 0, most = 1 << 20;  // panels to be made in this way
};
struct WantedPanel {
  std::vector<PanelWay> ways;
  int copies = 1;  // at most; in all ways together
  int least = 0;
  // Panels of one way that may be made.
  int most(const PanelWay& way) const { return std::min(copies, way.most); }
  // Is one to be made whatever it costs?
  bool asked(const PanelWay& way) const { return least > 0 || way.least > 0; }
};

struct Demand {
  std::vector<int> left;            // copies that may still be laid out, by part
  std::vector<WantedPanel> panels;  // of parts that are strips
  std::vector<int> held;            // strips that are there already, by part; empty: none

  int heldOf(int part) const { return held.empty() ? 0 : held[part]; }
  // May these (ascending, one entry a copy) be laid out, without beginning too many panels?
  bool fits(const std::vector<int>& parts) const;
  // They are laid out for good. A panel that was begun is to be gone on with in that way.
  void take(const std::vector<int>& parts);
  // So many panels of each way, in the order of the ways of all panels, no more and no fewer.
  void decide(const std::vector<int>& made);
  // From `least` to `most` copies of a panel, or of those made in one way.
  void limitPanel(size_t panel, int least, int most);
  void limitWay(size_t panel, size_t way, int least, int most);
  // From `least` to `most` copies of a part that is no strip, each worth up to `mostWorth`.
  void limitPart(int part, double mostWorth, int least, int most);
  bool isStrip(int part) const;
  std::vector<char> strips() const;  // by part: is it one?
  // What the copies wanted can pay at prices: with the ceilings of all boards a bound for all plans
  // within the limits.
  double ceiling(const std::vector<double>& prices) const;
  // Of copies laid out, by part: the worth of strips that no whole panel takes.
  double waste(const std::vector<int>& copies) const;
  // Of copies laid out, by part: how many they are, a strip being its share of a panel.
  double inCopies(const std::vector<int>& copies) const;
  // Is something wanted that these copies do not give?
  bool lacks(const std::vector<int>& copies) const;

 private:
  // Panels begun in a way, with so many strips more.
  int begunWith(const PanelWay& way, int more) const;
  static double ceilingOf(const WantedPanel& panel, const std::vector<double>& prices);
  void leaveWithin(const WantedPanel& panel);
  // Whole panels of one kind.
  int wholeOf(const WantedPanel& panel, const std::vector<int>& copies) const;
};

}  // namespace rackside
