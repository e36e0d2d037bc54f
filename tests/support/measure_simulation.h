// SPDX-License-Identifier: GPL-3.0-or-later
// Simulated measurements with known truth: a board, references on it, cameras, a lens and corner
// noise, pushed through the real adjustment. Projection is OpenCV's, not the adjustment's own.
#pragma once

#include <opencv2/core.hpp>
#include <random>
#include <vector>

#include "vision/measure/adjustment.h"

namespace rackside::simulation {

struct PlacedTarget {
  Target target;
  Point at;  // of its centre on the board: x along from the left end, y across from the near edge
  double turnRad = 0;
};

struct Camera {  // aimed at a point of the board from `distanceMm` away
  Point aim;
  double distanceMm = 0;  // 0: as far as the whole board needs to be in the picture
  double tiltRad = 0;     // between the optical axis and the board's normal
  double azimuthRad = 0;  // towards which side it leans, from +x
  double rollRad = 0;     // of the picture about the optical axis; 0: the board runs along +x px
};

// What the case knows beforehand and how far the truth strays from it.
struct LensSpread {
  double focalPx = 3000;
  double focalSigma = 0.02;  // as a fraction
  double centreSigmaPx = 15;
  double k1Sigma = 0.01;
};

struct Setup {
  cv::Size size{4000, 3000};
  double lengthMm = 3000, widthMm = 250;
  std::vector<PlacedTarget> targets;
  std::vector<Camera> cameras;
  LensSpread lens;           // what the adjustment is told
  LensSpread truth;          // what the true lens is drawn from, about the same centre
  double focalBias = 0;      // the true focal length is (1 + this) × what is drawn
  double sigmaPx = 0.1;      // of the corners, true
  double toldSigmaPx = 0.1;  // of the corners, as told
  double outlierShare = 0;   // corners displaced by 5 to 20 px
  bool drawScale = false;    // the print's scale is drawn from its prior
  bool drawThickness = false;
  bool drawBow = false;
  AdjustmentOptions options;  // nominal
};

struct Draw {
  std::vector<Sight> sights;
  std::vector<cv::Matx33d> turns;  // cameraFromBoard
  std::vector<cv::Vec3d> shifts;
  std::vector<Lens> lenses;  // true, by photograph
  double bowEndsMm = 0;
};
Draw draw(const Setup& setup, std::mt19937_64& random);

// A board point as the true camera shows it.
cv::Point2d truePx(const Setup& setup, const Draw& d, size_t photo, Point board);

struct Error95 {
  double error = 0;  // measured minus true, mm
  double u95 = 0;
  double u95Total = 0;
};
struct Outcome {
  Error95 length, widthMiddle, widthEnd;  // widthEnd: the right end, 60 mm in
};
// Reads the board's ends and edges off the photographs through the adjustment, with edgeSigmaPx of
// noise on each reading (counted in the ±).
Outcome measure(const Setup& setup, const Draw& d, const Adjustment& adjustment, double edgeSigmaPx,
                std::mt19937_64& random);

// Sigma of the distance between two board points by the modes alone.
double modeSigma(const std::vector<PlaneMode>& modes, PlaneMode::Cause cause, Point a, Point b);

// Where the simulated board lies in the adjustment's plane frame.
struct Lay {
  Polygon region;  // plane frame
  Pose boardFromPlane;
};
Lay layOf(const Setup& setup, const Draw& d, const Adjustment& adjustment);

}  // namespace rackside::simulation
