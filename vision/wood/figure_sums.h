// SPDX-License-Identifier: GPL-3.0-or-later
// Figure maps summed up (summed-area tables), so that what lies under a part is read in a few
// look-ups.
#pragma once

#include <array>
#include <vector>

#include "vision/wood/figure_maps.h"

namespace rackside {

// What a region of a face looks like.
struct FigureReading {
  double woodShare = 0;    // of the region that is board in full view
  double grainRad = 0;     // mean direction of the fibres, from +x
  double grainSpread = 0;  // 0: one direction; 1: every direction alike
  double coherence = 0;
  double ringsTurned = 0;      // 0: ring lines run along the board, 1: across
  double lightness = 0;        // ln, against the face's mean
  double lightnessSpread = 0;  // standard deviation of means over about three centimetres
  double colourShare = 0;      // share of the wood whose colour shows; the next two are of it
  double warmth = 0, warmthSpread = 0;
  double sapwoodShare = 0;
  double contrast = 0;  // rms of the ring-scale changes, as a share of the light
  double ripple = 0;    // rms of the ripple
};

class FigureSums {
 public:
  using Sum = std::array<double, kFigureLayers>;

  FigureSums() = default;
  explicit FigureSums(const FigureMaps& maps);

  // Integrals over the rectangle (board mm); outside the face all is 0.
  Sum over(const Rect& r) const;
  // Over any outline, in slices of about sliceMm along x.
  Sum over(const Polygon& p, double sliceMm = 25) const;

 private:
  void corner(double x, double y, double sign, Sum& sum) const;
  Rect area_;
  double cellMm_ = 1;
  int columns_ = 0, rows_ = 0;
  std::vector<std::array<float, kFigureLayers>> table_;  // (rows + 1) × (columns + 1)
};

FigureReading readingOf(const FigureSums::Sum& sum, double areaMm2);

}  // namespace rackside
