// SPDX-License-Identifier: GPL-3.0-or-later
// How much the light of a surface changes from place to place, in shares of itself. Saw marks,
// pores and grain make it, and it ends where the face ends even when the colour does not; shade
// leaves it nearly alone.
#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace rackside {

// Per cent of its light by which a place differs from those one, two and three columns before it.
// light: CV_32F, columns along a side → CV_32FC3
cv::Mat changesAlong(const cv::Mat& light);

// values: CV_32FC3, averaged over so many columns (an odd number) where there is weight (CV_32F).
cv::Mat averagedAlong(const cv::Mat& values, const cv::Mat& weight, int columns);

// By row across a side: how well an arris there parts the evidence, face up to it and ground from
// the foot of its wall on. The wall may be like either, which leaves places as far apart as it is
// wide. evidence: by row, > 0 for face; wallRows: by row.
std::vector<double> partings(const std::vector<double>& evidence, const std::vector<int>& wallRows);

// Tells two surfaces apart by such changes, averaged: the logarithms of each surface's are taken to
// be normally distributed.
class RoughnessModel {
 public:
  // With too few samples of either the model knows nothing.
  RoughnessModel(const std::vector<cv::Vec3f>& face, const std::vector<cv::Vec3f>& beyond);
  bool knows() const { return knows_; }
  // log(p(face) / p(beyond)); 0 when nothing is known.
  double evidence(const cv::Vec3f& changes) const;

 private:
  struct Normal {
    cv::Vec3d mean;
    cv::Matx33d inverse;
    double logDeterminant = 0;
    double log(const cv::Vec3d& v) const;
  };
  static Normal normalOf(const std::vector<cv::Vec3f>& samples);
  bool knows_ = false;
  Normal face_, beyond_;
};

}  // namespace rackside
