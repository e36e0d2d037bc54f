// SPDX-License-Identifier: GPL-3.0-or-later
// Paints the marks of wood over a clean face in many looks, and what they are into a picture of
// labels: to learn from. (wood_defects.h paints each mark in one look, for tests of other things.)
#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry/shapes.h"
#include "tests/support/noise.h"

namespace rackside::synthetic {

// The labels of the open wood-surface set (labelled_wood.h), and two of our own.
enum class LessonLabel : uint8_t {
  none,
  soundKnot,
  looseKnot,
  checkedKnot,
  check,
  gum,
  pith,
  streak,
  hole,
  stain,
  overgrown,
  barkPocket,
  wormHole
};

struct Lesson {
  cv::Mat3b bgr;
  cv::Mat1b labels;
  double mmPerPx = 0.5;
};

// Shapes in pixels of the lesson, x right, y down; sizes in pixels.
class LessonBrush {
 public:
  LessonBrush(Lesson& lesson, Draw& draw) : lesson_(lesson), draw_(draw) {}

  void knot(const Ellipse& outline, LessonLabel kind);
  void hole(const Ellipse& outline, LessonLabel kind);  // a missing knot, or a worm hole
  void bark(const Ellipse& outline);
  void gum(const Ellipse& outline);
  void streak(const Ellipse& outline);
  void stain(const Ellipse& outline);
  // Along the line, as wide as `widthPx` at its widest.
  void check(const std::vector<Point>& line, double widthPx);
  void pith(const std::vector<Point>& line, double widthPx);

 private:
  cv::Vec3f woodRound(const Ellipse& e) const;
  cv::Vec3f brownOf(cv::Vec3f wood, double light);
  template <class Shade>
  void eachPixel(const Ellipse& e, double grow, LessonLabel label, const Shade& shade);
  template <class Shade>
  void alongLine(const std::vector<Point>& line, double reachPx, const Shade& shade);
  void starChecks(const Ellipse& knot, double widthPx);

  Lesson& lesson_;
  Draw& draw_;
};

}  // namespace rackside::synthetic
