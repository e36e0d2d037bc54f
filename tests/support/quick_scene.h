// SPDX-License-Identifier: GPL-3.0-or-later
// A quick renderer of its own for tests of the face: boards as prisms with side walls, a cast
// shadow, a floor, clutter of the same wood, and cards, seen through an exact camera. Rendered,
// with the outline known to the last digit.
#pragma once

#include <cstdint>

#include "tests/support/exact_camera.h"

namespace rackside::test {

enum class Ground { plain, planks, concrete, sameWood, dark };

struct QuickSceneOptions {
  uint64_t seed = 1;
  cv::Size size{4000, 3000};
  double lengthMm = 2400;
  double widthMm = 210;
  double thicknessMm = 30;
  double taperMm = 12;
  double crookMm = 6;
  double roughMm = 0.3;    // of the long edges, one standard deviation
  double wavyMm = 0;       // live edges: amplitude
  double barkMm = 0;       // dark band of bark inside the wall's place, outside the face
  double endSlant = 0.02;  // sawn ends out of square
  double weathered = 0;    // 0..1, grey patches
  double woodTone = 0.5;   // 0 dark walnut .. 1 pale ash
  double contrast = 1;     // of the grain
  bool sapwood = false;
  Ground ground = Ground::concrete;
  int neighbours = 0;  // boards of the same wood lying against it
  double neighbourGapMm = 2;
  bool clutter = false;  // offcuts and sticks about
  double tiltRad = 0.1, azimuthRad = 1.2, rollRad = 0.05;
  double focalPx = 3000, k1 = -0.01;
  double fill = 0.86;  // of the picture's length that the board takes
  double lightAzimuthRad = 0.8, lightElevationRad = 0.9, lightSoftness = 0.08;
  double blurPx = 0.8, noise = 3;
  int jpegQuality = 92;
  double glare = 0;
  int cards = 3;
  bool cardOverEdge = false;
  bool cardsOnBench = false;
  double cardStockMm = 0;
  Point shiftMm;                          // of the board against the picture's middle
  std::vector<std::string> woodPictures;  // photographs of real wood to dress the board in
};

struct QuickScene {
  cv::Mat bgr;
  Camera camera;
  Polygon outline;  // plane frame
  std::vector<std::pair<int, Pose>> cards;
  std::vector<Polygon> cardOutlines;
};

// The plane frame has its origin at the middle of the board, x along it.
QuickScene describeQuickScene(const QuickSceneOptions& options);  // all but the picture
QuickScene renderQuickScene(const QuickSceneOptions& options);

}  // namespace rackside::test
