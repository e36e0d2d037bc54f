// SPDX-License-Identifier: GPL-3.0-or-later
// What the wood of a face looks like, place by place: grain, growth rings, light, colour, ripple;
// as means over small cells, summed so that any rectangle or outline costs a few look-ups.
//
// All light is relative to the face's own mean (natural logarithm), so that the exposure and the
// tint of a photograph change nothing; how unevenly the face was lit is taken out before.
#pragma once

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/base/run_control.h"
#include "core/geometry/shapes.h"
#include "vision/wood/face_raster.h"
#include "vision/wood/saw_marks.h"
#include "vision/wood/tone.h"

namespace rackside {

// Every layer but `wood` is weighted by the share of wood in the cell.
enum class FigureLayer {
  wood,           // share of the cell that is board in full view, 0..1
  grainCos,       // the fibres' direction, read over about a centimetre, …
  grainSin,       // … at twice its angle
  coherence,      // 0..1: how much of the fine texture runs that way
  ringXx,         // products of the gradients of the growth rings …
  ringYy,         // … (changes of 1 to 10 mm)
  ringXy,         //
  tone,           // lightness, ln, over about three centimetres
  toneSquared,    // its square
  contrast,       // mean square of the ring-scale changes of tone
  ripple,         // mean square of waves of 5 to 30 mm along the grain
  colourKnown,    // 1 where the wood's colour shows, 0 where grey hides it
  warmth,         // ln(red / blue) over as much, against the face's mean, where it is known
  warmthSquared,  // its square
  sapwood,        // 1 in sapwood as far as it can be told
};
inline constexpr int kFigureLayers = 15;

// The line about which the arches of a flat sawn face close, at one x; one every kArchStepMm.
inline constexpr double kArchStepMm = 24;
struct ArchPoint {
  double x = 0, y = 0;
  double sure = 0;  // 0..1
};

struct FaceColour {
  // Share of colour the wood shows, 0 (grey) … 1 (freshly planed), against its species.
  double freshness = 0;
  double windowShare = 0;  // share of the face that shows its colour while the rest is grey
  double meanLight = 0;    // ln of the mean of the channels, 0..255, as photographed
  double meanWarmth = 0;   // ln(red / blue), as photographed
  // White paper in the face's mean light (blue, green, red, 0..255), from cards that lay on it; 0
  // where there were none.
  std::array<double, 3> white{};

  static constexpr double kFreshEnough = 0.7;
  bool shows() const { return freshness >= kFreshEnough; }
  bool lightKnown() const { return white[0] > 0; }
};

// Where sapwood meets heartwood, from left to right, and the side of the line the sapwood is on.
struct SapwoodEdge {
  bool lowSide = true;  // sapwood lies below the line, towards the near edge
  std::vector<Point> line;
  double sure = 0;  // 0..1
};

struct FigureMaps {
  Rect area;  // board frame
  double cellMm = 4;
  int columns = 0, rows = 0;  // row by row from area.y0
  std::array<std::vector<float>, kFigureLayers> layers;
  std::vector<ArchPoint> arches;  // along x; empty: no arches
  std::vector<SapwoodEdge> sapwood;
  SawMarks saw;
  LightField light;
  FaceColour colour;

  float at(FigureLayer layer, int column, int row) const {
    return layers[size_t(layer)][size_t(row) * columns + column];
  }
  // Direction of the fibres in a cell, -pi/2..pi/2 from +x.
  double grainRad(int column, int row) const {
    return 0.5 * std::atan2(at(FigureLayer::grainSin, column, row),
                            at(FigureLayer::grainCos, column, row));
  }
};

struct FigureOptions {
  double cellMm = 4;
  bool sawn = true;     // false: the face is known to be planed, so ripples are the wood's
  std::string species;  // tells how much colour to expect; empty: any
};

// `raster` at about 0.5 mm per pixel. `planed`, where given, receives the tone without marks.
FigureMaps figureMaps(const FaceRaster& raster, const FigureOptions& options, RunControl& control,
                      cv::Mat1f* planed = nullptr);

}  // namespace rackside
