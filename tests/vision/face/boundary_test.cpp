// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/boundary.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace rackside;

namespace {

constexpr int kColumns = 200, kRows = 120, kArris = 50, kSeam = 90;
constexpr int kEndColumns = 50;

// Wood and ground of one colour. A faint seam of the ground runs along the board beyond its
// side. roughness: what it says on either side of the arris.
BoundaryProblem paleOnPale(float roughness) {
  BoundaryProblem p;
  p.lab.create(kRows, kColumns, CV_32FC3);
  cv::RNG random(5);
  random.fill(p.lab, cv::RNG::NORMAL, cv::Scalar(170, 130, 140), cv::Scalar(2, 0.5, 0.5));
  p.lab.row(kSeam) -= cv::Scalar(5, 0, 0);
  p.usable = cv::Mat(p.lab.size(), CV_8U, cv::Scalar(255));
  p.seen = p.usable.clone();
  p.evidence = cv::Mat::zeros(p.lab.size(), CV_32F);
  p.wallMm = cv::Mat::zeros(p.lab.size(), CV_32F);
  p.roughness = cv::Mat(p.lab.size(), CV_32F, cv::Scalar(-roughness));
  p.roughness.rowRange(0, kArris) = cv::Scalar(roughness);
  p.first.assign(kColumns, 5);
  return p;
}

double medianRow(const Boundary& boundary) {
  std::vector<double> rows;
  for (const BoundaryColumn& c : boundary.columns) rows.push_back(c.row);
  std::nth_element(rows.begin(), rows.begin() + kColumns / 2, rows.end());
  return rows[kColumns / 2];
}

// The end of a board on ground of its own colour: half of it shows by a step, before the other half
// lies a seam of the ground farther out.
BoundaryProblem halfSeenEnd() {
  BoundaryProblem p = paleOnPale(0);
  p.mostSlope = 0.15, p.mostBendMm = 2;
  const cv::Range columns(0, kEndColumns);
  for (cv::Mat* m : {&p.lab, &p.usable, &p.seen, &p.evidence, &p.wallMm, &p.roughness})
    *m = m->colRange(columns).clone();
  p.first.resize(kEndColumns);
  p.lab.row(kSeam) += cv::Scalar(5, 0, 0);
  p.lab(cv::Rect(0, kArris, kEndColumns / 2, kRows - kArris)) -= cv::Scalar(12, 0, 0);
  p.lab(cv::Rect(kEndColumns / 2, kArris + 20, kEndColumns / 2, 1)) -= cv::Scalar(5, 0, 0);
  return p;
}

// A live edge: the camera sees its bark, dark and unlike any wood, as wide as a sawn wall would be.
BoundaryProblem barkSeen() {
  constexpr int kBarkRows = 8;
  BoundaryProblem p = paleOnPale(0);
  cv::RNG random(6);
  cv::Mat grain(kRows, 1, CV_32FC3);  // lines that run along, as strong as the bark is dark
  random.fill(grain, cv::RNG::NORMAL, cv::Scalar(0, 0, 0), cv::Scalar(45, 1, 1));
  for (int x = 0; x < kColumns; ++x) p.lab.col(x) += grain;
  p.wallMm = cv::Scalar(kBarkRows * p.acrossMm);
  p.lab.rowRange(kArris, kArris + kBarkRows) -= cv::Scalar(80, 0, 0);
  p.evidence.rowRange(0, kArris) = cv::Scalar(1.5);
  p.evidence.rowRange(kArris, kRows) = cv::Scalar(-1.5);
  return p;
}

}  // namespace

TEST_CASE("a seam of the ground is no side where the face's roughness ends before it") {
  CHECK(std::abs(medianRow(findBoundary(paleOnPale(0))) - kSeam) < 3);
  const double shownMm = 1.5 * std::abs(medianRow(findBoundary(paleOnPale(1))) - kArris);
  CHECK(shownMm < 8);  // roughness alone lets a few millimetres off
}

TEST_CASE("an end runs straight on where half of it shows, not along a seam of the ground") {
  const Boundary end = findBoundary(halfSeenEnd());
  for (const BoundaryColumn& c : end.columns) CHECK(std::abs(c.row - kArris) < 4);
}

TEST_CASE("bark that shows where a wall would is no ground inside the border") {
  CHECK(std::abs(medianRow(findBoundary(barkSeen())) - kArris) < 2);
}
