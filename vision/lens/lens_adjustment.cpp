// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/lens_adjustment.h"

#include <ceres/ceres.h>
#include <ceres/rotation.h>

#include <cmath>
#include <opencv2/calib3d.hpp>

namespace rackside {
namespace {

using LensParameters = std::array<double, 5>;  // focalPx, cx, cy, k1, k2
using PoseParameters = std::array<double, 6>;  // angle-axis, shift in mm: camera from pattern

// Corners of a real print and a real lens scatter more than the grey noise alone says; the square
// sum with this keeps the sharpest of them from ruling the fit. The final scale is the residual's.
constexpr double kFloorPx = 0.03;
constexpr double kStraySigmas = 5;

template <class T>
void project(const T* lens, const T* pose, const Point& mm, T* px) {
  const T point[3] = {T(mm.x), T(mm.y), T(0)};
  T p[3];
  ceres::AngleAxisRotatePoint(pose, point, p);
  for (int i = 0; i < 3; ++i) p[i] += pose[3 + i];
  const T u = p[0] / p[2], v = p[1] / p[2], r2 = u * u + v * v;
  const T d = T(1) + lens[3] * r2 + lens[4] * r2 * r2;
  px[0] = lens[0] * d * u + lens[1];
  px[1] = lens[0] * d * v + lens[2];
}

struct PointError {
  Point mm;
  cv::Point2d px;
  double sigmaPx;
  template <class T>
  bool operator()(const T* lens, const T* pose, T* residual) const {
    T modelled[2];
    project(lens, pose, mm, modelled);
    residual[0] = (modelled[0] - T(px.x)) / T(sigmaPx);
    residual[1] = (modelled[1] - T(px.y)) / T(sigmaPx);
    return true;
  }
};

// One focal length, principal point and both radial terms, and a pose for each view.
struct State {
  LensParameters lens;
  std::vector<PoseParameters> poses;
};

State firstGuess(const std::vector<PatternView>& views, const Lens& start) {
  std::vector<std::vector<cv::Point3f>> mm;
  std::vector<std::vector<cv::Point2f>> px;
  for (const PatternView& view : views) {
    mm.emplace_back();
    px.emplace_back();
    for (size_t i = 0; i < view.mm.size(); ++i) {
      mm.back().emplace_back(float(view.mm[i].x), float(view.mm[i].y), 0.f);
      px.back().emplace_back(float(view.px[i].x), float(view.px[i].y));
    }
  }
  cv::Mat k =
      (cv::Mat_<double>(3, 3) << start.focalPx, 0, start.cx, 0, start.focalPx, start.cy, 0, 0, 1);
  cv::Mat distortion = cv::Mat::zeros(5, 1, CV_64F);
  std::vector<cv::Mat> turns, shifts;
  cv::calibrateCamera(mm, px, start.size, k, distortion, turns, shifts,
                      cv::CALIB_USE_INTRINSIC_GUESS | cv::CALIB_FIX_ASPECT_RATIO |
                          cv::CALIB_ZERO_TANGENT_DIST | cv::CALIB_FIX_K3);
  State state;
  state.lens = {k.at<double>(0, 0), k.at<double>(0, 2), k.at<double>(1, 2),
                distortion.at<double>(0), distortion.at<double>(1)};
  for (size_t v = 0; v < views.size(); ++v) {
    PoseParameters pose;
    for (int i = 0; i < 3; ++i) {
      pose[size_t(i)] = turns[v].at<double>(i);
      pose[size_t(i) + 3] = shifts[v].at<double>(i);
    }
    state.poses.push_back(pose);
  }
  return state;
}

class Solver {
 public:
  Solver(const std::vector<PatternView>& views, State& state) : views_(views), state_(state) {
    for (const PatternView& view : views) kept_.emplace_back(view.px.size(), true);
  }

  bool solve(bool robust) {
    problem_ = std::make_unique<ceres::Problem>();
    for (size_t v = 0; v < views_.size(); ++v)
      for (size_t i = 0; i < views_[v].px.size(); ++i) {
        if (!kept_[v][i]) continue;
        auto* error = new PointError{views_[v].mm[i], views_[v].px[i], sigma(v, i)};
        problem_->AddResidualBlock(new ceres::AutoDiffCostFunction<PointError, 2, 5, 6>(error),
                                   robust ? new ceres::CauchyLoss(3.0) : nullptr,
                                   state_.lens.data(), state_.poses[v].data());
      }
    ceres::Solver::Options options;
    options.linear_solver_type = ceres::DENSE_SCHUR;
    options.max_num_iterations = 100;
    options.function_tolerance = 1e-12;
    options.logging_type = ceres::SILENT;
    ceres::Solver::Summary summary;
    ceres::Solve(options, problem_.get(), &summary);
    return summary.IsSolutionUsable();
  }

  cv::Point2d residual(size_t v, size_t i) const {
    double px[2];
    project(state_.lens.data(), state_.poses[v].data(), views_[v].mm[i], px);
    return views_[v].px[i] - cv::Point2d(px[0], px[1]);
  }

  // Leaves out what lies beyond kStraySigmas of the scatter found; counts them.
  int dropStrays() {
    std::vector<double> ratios;
    for (size_t v = 0; v < views_.size(); ++v)
      for (size_t i = 0; i < views_[v].px.size(); ++i)
        ratios.push_back(cv::norm(residual(v, i)) / sigma(v, i));
    auto middle = ratios.begin() + long(ratios.size() / 2);
    std::nth_element(ratios.begin(), middle, ratios.end());
    // The median of a Rayleigh variable is 1.177 of its sigma.
    const double limit = kStraySigmas * std::max(1.0, *middle / 1.177);
    int strays = 0;
    for (size_t v = 0; v < views_.size(); ++v)
      for (size_t i = 0; i < views_[v].px.size(); ++i) {
        kept_[v][i] = cv::norm(residual(v, i)) / sigma(v, i) <= limit;
        strays += kept_[v][i] ? 0 : 1;
      }
    return strays;
  }

  // Of the lens, the poses being free: the inverse of the Schur complement of the poses in the
  // normal matrix. False when the views leave some of the lens open.
  bool covariance(std::array<double, 25>& out) const {
    cv::Matx<double, 5, 5> normal;
    for (size_t v = 0; v < views_.size(); ++v) addReduced(v, normal);
    cv::Matx<double, 5, 5> scaled;
    for (int i = 0; i < 5; ++i)
      for (int j = 0; j < 5; ++j)
        scaled(i, j) = normal(i, j) / std::sqrt(normal(i, i) * normal(j, j));
    cv::Vec<double, 5> eigenvalues;
    if (!cv::checkRange(scaled) || !cv::eigen(scaled, eigenvalues)) return false;
    if (!(eigenvalues[4] > 1e-8)) return false;
    const cv::Matx<double, 5, 5> inverse = normal.inv(cv::DECOMP_SVD);
    std::copy(inverse.val, inverse.val + 25, out.begin());
    return true;
  }

  double sigma(size_t v, size_t i) const { return std::hypot(views_[v].sigmaPx[i], kFloorPx); }
  const std::vector<std::vector<bool>>& kept() const { return kept_; }

 private:
  void addReduced(size_t v, cv::Matx<double, 5, 5>& normal) const {
    using Jet = ceres::Jet<double, 11>;
    Jet lens[5], pose[6];
    for (int k = 0; k < 5; ++k) lens[k] = Jet(state_.lens[size_t(k)], k);
    for (int k = 0; k < 6; ++k) pose[k] = Jet(state_.poses[v][size_t(k)], 5 + k);
    cv::Matx<double, 11, 11> all;
    for (size_t i = 0; i < views_[v].px.size(); ++i) {
      if (!kept_[v][i]) continue;
      Jet residual[2];
      PointError{views_[v].mm[i], views_[v].px[i], sigma(v, i)}(lens, pose, residual);
      for (const Jet& r : residual) {
        const cv::Matx<double, 11, 1> slope(r.v.data());
        all += slope * slope.t();
      }
    }
    const auto lensPart = all.get_minor<5, 5>(0, 0);
    const auto mixed = all.get_minor<5, 6>(0, 5);
    const auto posePart = all.get_minor<6, 6>(5, 5);
    normal += lensPart - mixed * posePart.inv(cv::DECOMP_SVD) * mixed.t();
  }

  const std::vector<PatternView>& views_;
  State& state_;
  std::vector<std::vector<bool>> kept_;
  std::unique_ptr<ceres::Problem> problem_;
};

}  // namespace

Result<LensAdjustment> adjustLens(const std::vector<PatternView>& views, const Lens& start) {
  const Error lost{
      "the lens could not be worked out from these photographs; take some with the "
      "pattern tilted by 30° to 45° to each side"};
  State state;
  try {
    state = firstGuess(views, start);
  } catch (const cv::Exception&) {
    return lost;
  }
  Solver solver(views, state);
  if (!solver.solve(true)) return lost;
  LensAdjustment result;
  result.strays = solver.dropStrays();
  if (!solver.solve(false)) return lost;
  double squares = 0, whitened = 0;
  result.kept = solver.kept();
  for (size_t v = 0; v < views.size(); ++v) {
    result.residualPx.emplace_back();
    for (size_t i = 0; i < views[v].px.size(); ++i) {
      const cv::Point2d e = solver.residual(v, i);
      result.residualPx.back().push_back(e);
      if (!result.kept[v][i]) continue;
      ++result.points;
      squares += e.dot(e);
      whitened += e.dot(e) / std::pow(solver.sigma(v, i), 2);
    }
  }
  const double freedom = 2.0 * result.points - 5 - 6.0 * double(views.size());
  if (freedom < 10 || !solver.covariance(result.lens.covariance)) return lost;
  for (double& c : result.lens.covariance) c *= std::max(1.0, whitened / freedom);
  result.rmsPx = std::sqrt(squares / (2.0 * result.points));
  result.lens.size = start.size;
  result.lens.focalPx = state.lens[0];
  result.lens.cx = state.lens[1];
  result.lens.cy = state.lens[2];
  result.lens.k1 = state.lens[3];
  result.lens.k2 = state.lens[4];
  return result;
}

}  // namespace rackside
