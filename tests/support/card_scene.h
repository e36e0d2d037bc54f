// SPDX-License-Identifier: GPL-3.0-or-later
// Rendered pictures of cards and tags with known truth: a plane seen by a pinhole camera.
// Independent of the detector; shares only the drawing of the card with it.
#pragma once

#include <opencv2/core.hpp>
#include <random>
#include <vector>

#include "vision/cards/card_model.h"

namespace rackside::test {

// A camera over the plane z = 0 (mm, y up seen from above); looks at `target` from `distanceMm`.
struct PlaneCamera {
  cv::Size size{4000, 3000};
  double focalPx = 3100;
  double distanceMm = 2480;
  double tiltRad = 0;         // of the optical axis from the plane's normal
  double tiltTowardsRad = 0;  // direction in the plane of that tilt
  double rollRad = 0;
  Point target;
  cv::Matx33d imageFromPlane() const;
};

struct PlacedCard {
  int number = 0;
  bool tag = false;
  Pose planeFromCard;
};

struct Spoil {
  double blurPx = 1;
  double noise = 3;    // grey levels, one standard deviation
  double falloff = 0;  // light at the darkest corner = 1 − falloff
  double white = 225;  // grey of the card's paper
  double black = 35;   // of its ink
};

enum class Ground { wood, floor, noise, text, plain };
// A picture without any card.
cv::Mat groundPicture(Ground ground, cv::Size size, std::mt19937& random);

// Paints the cards into `picture` (CV_8UC1) with 4 × 4 samples a pixel.
void paintCards(cv::Mat& picture, const cv::Matx33d& imageFromPlane,
                const std::vector<PlacedCard>& cards, const Spoil& spoil);
// Light, blur and noise over the whole picture.
void spoilPicture(cv::Mat& picture, const Spoil& spoil, std::mt19937& random);

}  // namespace rackside::test
