// SPDX-License-Identifier: GPL-3.0-or-later
#include "free_search.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace rackside::testing {
namespace {

class Dice {
 public:
  explicit Dice(unsigned long long seed) : engine_(seed) {}
  double between(double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  }
  int whole(int lo, int hi) { return std::min(hi, static_cast<int>(between(lo, hi + 1))); }
  bool chance(double p) { return between(0, 1) < p; }

 private:
  std::mt19937_64 engine_;
};

struct Circle {
  Point at;
  double radius;  // clearance included
  double depth;   // 1e9: through
};

// A rectangle that may lean: its lower left corner, along and across.
struct Leaning {
  Point corner;
  double angle, length, width;
  Point at(double u, double v) const {
    const double c = std::cos(angle), s = std::sin(angle);
    return {corner.x + u * c - v * s, corner.y + u * s + v * c};
  }
  double distance(Point p) const {
    const double c = std::cos(angle), s = std::sin(angle);
    const double dx = p.x - corner.x, dy = p.y - corner.y;
    const double u = dx * c + dy * s, v = -dx * s + dy * c;
    const double outU = std::max({-u, u - length, 0.0}), outV = std::max({-v, v - width, 0.0});
    return std::hypot(outU, outV);
  }
};

// The wood of one board: between two lines of points, its sure edge taken off.
class Wood {
 public:
  Wood(const Board& board, const Shop& shop) : thickness_(board.thicknessMm) {
    const auto& v = board.outline.vertices;
    const size_t half = v.size() / 2;
    const double margin = 1.96 * v[0].sigmaMm;
    for (size_t i = 0; i < half; ++i) low_.push_back(v[i].at);
    for (size_t i = v.size(); i > half; --i) high_.push_back(v[i - 1].at);
    double steepest = 0;
    for (const auto* edge : {&low_, &high_})
      for (size_t i = 0; i + 1 < edge->size(); ++i)
        steepest = std::max(steepest, std::abs(((*edge)[i + 1].y - (*edge)[i].y) /
                                               ((*edge)[i + 1].x - (*edge)[i].x)));
    margin_ = margin * std::hypot(1, steepest) + 1e-6;
    first_ = low_.front().x + std::max(shop.endTrimMm, margin + 1e-6);
    last_ = low_.back().x - std::max(shop.endTrimMm, margin + 1e-6);
    for (const Mark& m : board.marks) {
      const Ellipse e = std::get<Ellipse>(*m.onA);
      knots_.push_back({e.centre, e.semiX + shop.clearance(m.kind), m.depthMm.value_or(1e9)});
    }
  }
  double first() const { return first_; }
  double last() const { return last_; }
  double thickness() const { return thickness_; }
  // Along an edge, or from one point of it to another.
  double edgeAngle(Dice& dice) const {
    const auto& edge = dice.chance(0.5) ? low_ : high_;
    const int from = dice.whole(0, static_cast<int>(edge.size()) - 2);
    const Point run =
        edge[static_cast<size_t>(dice.whole(from + 1, static_cast<int>(edge.size()) - 1))] -
        edge[static_cast<size_t>(from)];
    return std::atan2(run.y, run.x);
  }
  double lowest() const {
    return std::min_element(low_.begin(), low_.end(), [](Point a, Point b) { return a.y < b.y; })
        ->y;
  }
  double highest() const {
    return std::max_element(high_.begin(), high_.end(), [](Point a, Point b) { return a.y < b.y; })
        ->y;
  }
  bool holds(const Leaning& rough) const {
    for (const double u : {0.0, rough.length})
      for (const double v : {0.0, rough.width}) {
        const Point p = rough.at(u, v);
        if (p.x < first_ || p.x > last_ || p.y < heightAt(low_, p.x) + margin_ ||
            p.y > heightAt(high_, p.x) - margin_)
          return false;
      }
    // An edge's points beside the rectangle must stay out of it.
    const auto meets = [&](Point p, double way) {
      return rough.distance({p.x, p.y + way * margin_}) < 1e-9;
    };
    return std::none_of(low_.begin(), low_.end(), [&](Point p) { return meets(p, 1); }) &&
           std::none_of(high_.begin(), high_.end(), [&](Point p) { return meets(p, -1); });
  }
  bool clear(const Leaning& finished, double takeOff) const {
    return std::all_of(knots_.begin(), knots_.end(), [&](const Circle& k) {
      return k.depth <= takeOff || finished.distance(k.at) >= k.radius;
    });
  }

 private:
  static double heightAt(const std::vector<Point>& edge, double x) {
    for (size_t i = 0; i + 1 < edge.size(); ++i)
      if (x <= edge[i + 1].x)
        return edge[i].y +
               (edge[i + 1].y - edge[i].y) * (x - edge[i].x) / (edge[i + 1].x - edge[i].x);
    return edge.back().y;
  }

  std::vector<Point> low_, high_;
  std::vector<Circle> knots_;
  double margin_ = 0, first_ = 0, last_ = 0, thickness_ = 0;
};

class FreeSearch {
 public:
  FreeSearch(const PlanRequest& request, unsigned seed) : request_(request), dice_(seed) {
    for (const Board& b : request.boards) woods_.emplace_back(b, request.shop);
  }

  double plan() {
    left_.clear();
    for (const Part& p : request_.parts) left_.push_back(p.copies);
    double value = 0;
    for (const Wood& wood : woods_)
      for (double x = wood.first(); x < wood.last();) {
        const double added = section(wood, x);
        if (added > 0)
          value += added;
        else
          x += dice_.between(5, 60);
      }
    return value;
  }

 private:
  struct Kind {
    size_t part;
    int copies;
    double length, width;  // rough
  };
  Kind kindOf(size_t part) {
    const Shop& shop = request_.shop;
    const Part& p = request_.parts[part];
    const int copies = dice_.chance(0.6) ? 1 : dice_.whole(1, left_[part]);
    const double clear = copies * p.lengthMm + (copies - 1) * shop.crosscutKerfMm;
    return {part, copies,
            std::max(clear + shop.lengthAllowanceMm + 2 * shop.snipeMm, shop.shortestSafeMm),
            std::max(p.widthMm + shop.widthAllowanceMm, shop.narrowestSafeMm)};
  }

  // A section that begins at x, which is moved behind it; what it is worth.
  double section(const Wood& wood, double& x) {
    std::vector<size_t> wanted;
    for (size_t p = 0; p < left_.size(); ++p)
      if (left_[p] > 0) wanted.push_back(p);
    if (wanted.empty()) {
      x = wood.last();
      return 0;
    }
    const double angle = angleOn(wood);
    const Kind lead =
        kindOf(wanted[static_cast<size_t>(dice_.whole(0, static_cast<int>(wanted.size()) - 1))]);
    const double box = boxOf(lead, angle);
    if (x + box > wood.last()) return 0;
    double value = 0, y = wood.lowest() * std::cos(angle) - x * std::sin(angle) - 60;
    const double top = wood.highest() + 60 + std::abs((x + box) * std::sin(angle));
    std::vector<Kind> tried{lead};
    while (y < top) {
      if (!placeOne(wood, x, box, angle, tried, y, value)) y += 2;
      tried.clear();
      for (const size_t p : wanted)
        if (left_[p] > 0) tried.push_back(kindOf(p));
      if (tried.empty()) break;
      std::rotate(tried.begin(), tried.begin() + dice_.whole(0, static_cast<int>(tried.size()) - 1),
                  tried.end());
    }
    if (value > 0) x += box + request_.shop.crosscutKerfMm;
    return value;
  }

  // Any that the checker takes; most often one that the wood suggests.
  double angleOn(const Wood& wood) {
    constexpr double kSteepest = 5 * std::numbers::pi / 180;
    if (dice_.chance(0.2)) return 0;
    const double angle = dice_.chance(0.5) ? wood.edgeAngle(dice_) + dice_.between(-0.004, 0.004)
                                           : dice_.between(-kSteepest, kSteepest);
    return std::clamp(angle, -kSteepest, kSteepest);
  }

  static double boxOf(const Kind& k, double angle) {
    return k.length * std::cos(angle) + k.width * std::abs(std::sin(angle));
  }

  // y: across the rip, in its direction.
  bool placeOne(const Wood& wood, double x, double box, double angle,
                const std::vector<Kind>& tried, double& y, double& value) {
    const double s = std::sin(angle), c = std::cos(angle);
    for (const Kind& k : tried) {
      const double spare = box - boxOf(k, angle);
      if (spare < 0 || k.copies > left_[k.part]) continue;
      const double at = x + (dice_.chance(0.5) ? 0 : dice_.between(0, spare));
      // The corner that lies furthest to the left touches `at`.
      const double u = (at + std::max(y * s, (y + k.width) * s)) / c;
      const Leaning rough{{u * c - y * s, u * s + y * c}, angle, k.length, k.width};
      const Part& part = request_.parts[k.part];
      const double clear = k.copies * part.lengthMm + (k.copies - 1) * request_.shop.crosscutKerfMm;
      const double endMm = (k.length - clear) / 2, sideMm = (k.width - part.widthMm) / 2;
      const Leaning finished{rough.at(endMm, sideMm), angle, clear, part.widthMm};
      const double takeOff = (wood.thickness() - part.thicknessMm) / 2;
      if (!wood.holds(rough) || !wood.clear(finished, takeOff)) continue;
      left_[k.part] -= k.copies;
      value += k.copies * (part.value > 0 ? part.value : part.lengthMm * part.widthMm);
      y += k.width + request_.shop.ripKerfMm;
      return true;
    }
    return false;
  }

  const PlanRequest& request_;
  Dice dice_;
  std::vector<Wood> woods_;
  std::vector<int> left_;
};

Board freeBoard(Dice& dice, int index) {
  Board b;
  b.id = {"board-" + std::to_string(index)};
  b.name = std::to_string(index + 1);
  b.thicknessMm = dice.between(26, 28);
  const double length = dice.between(900, 2000), width = dice.between(110, 220);
  const double crook = dice.chance(0.4) ? dice.between(-15, 15) : 0;
  const double taper = dice.chance(0.5) ? dice.between(-20, 20) : 0;
  const int n = 8;
  std::vector<Point> low, high;
  for (int i = 0; i <= n; ++i) {
    const double x = length * i / n, u = 2.0 * i / n - 1, bend = crook * (1 - u * u);
    low.push_back({x, 30 + bend});
    high.push_back({x, 30 + width + bend + taper * u});
  }
  for (const Point p : low) b.outline.vertices.push_back({p, 0.3, EdgeState::sure});
  for (auto p = high.rbegin(); p != high.rend(); ++p)
    b.outline.vertices.push_back({*p, 0.3, EdgeState::sure});
  for (int i = dice.whole(0, 5); i >= 0; --i) {
    Mark m;
    m.id = {b.id.text + "-" + std::to_string(i)};
    const double r = dice.between(4, 14);
    m.onA = Ellipse{{dice.between(0, length), 30 + dice.between(0, width)}, r, r, 0};
    m.kind = dice.chance(0.7) ? MarkKind::knot : MarkKind::holeToFill;
    if (m.kind == MarkKind::knot) m.soundness = Soundness::loose;
    if (m.kind == MarkKind::holeToFill) m.depthMm = dice.between(0.5, 6), m.depthFrom = Face::A;
    b.marks.push_back(m);
  }
  return b;
}

}  // namespace

PlanRequest freeRack(unsigned seed) {
  Dice dice(seed * 7907ULL + 3);
  PlanRequest request;
  for (int i = dice.whole(1, 2); i > 0; --i) request.boards.push_back(freeBoard(dice, i));
  for (int i = dice.whole(2, 4); i > 0; --i) {
    Part p;
    p.id = {"part-" + std::to_string(i)};
    p.name = p.id.text;
    p.lengthMm = dice.chance(0.2) ? dice.between(50, 120) : dice.between(250, 1300);
    p.widthMm = dice.between(35, 120);
    p.thicknessMm = dice.between(18, 24);
    p.copies = p.lengthMm < 130 ? dice.whole(4, 12) : dice.whole(1, 4);
    p.showing = Showing::oneFace;
    p.look = Look::any;
    request.parts.push_back(p);
  }
  return request;
}

double freeSearch(const PlanRequest& request, int plans, unsigned seed) {
  FreeSearch search(request, seed);
  double best = 0;
  for (int i = 0; i < plans; ++i) best = std::max(best, search.plan());
  return best;
}

}  // namespace rackside::testing
