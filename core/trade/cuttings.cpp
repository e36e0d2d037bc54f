// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/cuttings.h"

#include <algorithm>
#include <bit>
#include <queue>

#include "core/trade/clear_boxes.h"

namespace rackside {
namespace {

GridRect overlap(const GridRect& a, const GridRect& b) {
  GridRect o{std::max(a.column0, b.column0), std::max(a.row0, b.row0),
             std::min(a.column1, b.column1), std::min(a.row1, b.row1)};
  if (o.columns() <= 0 || o.rows() <= 0) return {};
  return o;
}

struct Node {
  std::vector<GridRect> boxes;  // one a cutting; area 0: this cutting is not used
  long long bound = 0;
  bool operator<(const Node& other) const { return bound < other.bound; }
};

class Search {
 public:
  Search(const CuttingGrid& grid, const CuttingSearch& options)
      : options_(options), boxes_(grid, options.least), whole_{0, 0, grid.columns, grid.rows} {}

  CuttingResult run() {
    if (whole_.area() == 0 || options_.most < 1) return {};
    push(std::vector<GridRect>(static_cast<size_t>(options_.most), whole_));
    for (long long steps = 0; !open_.empty(); ++steps) {
      const long long bound = open_.top().bound;
      if (bound <= best_.cells || decided(bound) || steps >= options_.limitSteps) {
        best_.bound = std::max(bound, best_.cells);
        return best_;
      }
      const Node node = open_.top();
      open_.pop();
      expand(node);
    }
    best_.bound = best_.cells;
    return best_;
  }

 private:
  bool decided(long long bound) const {
    return options_.enough >= 0 && (best_.cells >= options_.enough || bound < options_.enough);
  }

  void push(std::vector<GridRect> boxes) {
    std::sort(boxes.begin(), boxes.end());
    Node node{std::move(boxes), 0};
    node.bound = boundOf(node);
    if (node.bound > best_.cells) open_.push(std::move(node));
  }

  // The least, over every split of the cuttings in two, of the largest rectangles of the first ones
  // plus the cells that the others can cover.
  long long boundOf(const Node& node) {
    std::vector<const BoxContent*> contents;
    for (const GridRect& box : node.boxes)
      if (box.area() > 0) contents.push_back(&boxes_.content(box));
    std::sort(contents.begin(), contents.end(), [](const BoxContent* a, const BoxContent* b) {
      return a->largest.area() < b->largest.area();
    });
    long long single = 0;
    for (const BoxContent* c : contents) single += c->largest.area();
    long long bound = single;
    CellSet covered;
    for (auto c = contents.rbegin(); c != contents.rend(); ++c) {
      covered.resize((*c)->coverable.size());
      long long cells = 0;
      for (size_t i = 0; i < covered.size(); ++i) {
        covered[i] |= (*c)->coverable[i];
        cells += std::popcount(covered[i]);
      }
      single -= (*c)->largest.area();
      bound = std::min(bound, single + cells);
    }
    return bound;
  }

  // Takes the boxes' rectangles, the largest first, each beside those before it.
  void tryGreedy(const Node& node) {
    std::vector<GridRect> boxes = node.boxes;
    std::sort(boxes.begin(), boxes.end(), [this](const GridRect& a, const GridRect& b) {
      return pick(a).area() > pick(b).area();
    });
    CuttingResult found;
    for (const GridRect& box : boxes) {
      if (box.area() == 0) continue;
      const GridRect r = boxes_.largestBeside(box, found.cuttings);
      if (r.area() == 0) continue;
      found.cuttings.push_back(r);
      found.cells += r.area();
    }
    if (found.cells > best_.cells) best_ = std::move(found);
  }

  GridRect pick(const GridRect& box) {
    return box.area() > 0 ? boxes_.content(box).largest : GridRect{};
  }

  struct Conflict {
    size_t first = 0, second = 0;
    GridRect shared;
  };
  Conflict worstConflict(const Node& node) {
    Conflict worst;
    for (size_t i = 0; i < node.boxes.size(); ++i)
      for (size_t j = i + 1; j < node.boxes.size(); ++j) {
        const GridRect shared = overlap(pick(node.boxes[i]), pick(node.boxes[j]));
        if (shared.area() > worst.shared.area()) worst = {i, j, shared};
      }
    return worst;
  }

  void expand(const Node& node) {
    tryGreedy(node);
    const Conflict conflict = worstConflict(node);
    if (conflict.shared.area() == 0) return;  // the picks are a choice, and tryGreedy took it
    const int column = (conflict.shared.column0 + conflict.shared.column1) / 2;
    const int row = (conflict.shared.row0 + conflict.shared.row1) / 2;
    leaveFree(node, conflict.first, column, row);
    // Two cuttings in the same box are alike: it does not matter which of them gives way.
    if (node.boxes[conflict.first] != node.boxes[conflict.second])
      leaveFree(node, conflict.second, column, row);
  }

  // The cutting `index` does not cover the cell.
  void leaveFree(const Node& node, size_t index, int column, int row) {
    const GridRect box = node.boxes[index];
    const GridRect parts[] = {{box.column0, box.row0, column, box.row1},
                              {column + 1, box.row0, box.column1, box.row1},
                              {box.column0, box.row0, box.column1, row},
                              {box.column0, row + 1, box.column1, box.row1}};
    bool any = false;
    for (const GridRect& part : parts) {
      if (part.columns() <= 0 || part.rows() <= 0 || pick(part).area() == 0) continue;
      any = true;
      std::vector<GridRect> boxes = node.boxes;
      boxes[index] = part;
      push(std::move(boxes));
    }
    if (any) return;
    std::vector<GridRect> boxes = node.boxes;
    boxes[index] = {};
    push(std::move(boxes));
  }

  const CuttingSearch& options_;
  ClearBoxes boxes_;
  GridRect whole_;
  std::priority_queue<Node> open_;
  CuttingResult best_;
};

}  // namespace

CuttingResult bestCuttings(const CuttingGrid& grid, const CuttingSearch& search) {
  return Search(grid, search).run();
}

}  // namespace rackside
