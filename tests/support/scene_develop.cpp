// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_develop.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "tests/support/exif_writer.h"
#include "tests/support/noise.h"
#include "tests/support/scene_camera.h"

namespace rackside::synthetic {
namespace {

constexpr double kFullFrameDiagonalMm = 43.2666;  // 36 × 24 mm
constexpr double kSensorDiagonalMm = 8.0;         // of the imagined phone

float srgbFromLinear(float l) {
  return l <= 0.0031308F ? 12.92F * l : 1.055F * std::pow(l, 1 / 2.4F) - 0.055F;
}

// Weights of the four-tap Catmull-Rom cubic.
std::array<float, 4> cubicWeights(float t) {
  const float t2 = t * t;
  const float t3 = t2 * t;
  return {-0.5F * t + t2 - 0.5F * t3, 1 - 2.5F * t2 + 1.5F * t3, 0.5F * t + 2 * t2 - 1.5F * t3,
          -0.5F * t2 + 0.5F * t3};
}

cv::Vec3f sampleCubic(const cv::Mat& m, float x, float y) {
  const int x0 = std::clamp(floorToInt(x), 1, m.cols - 3);
  const int y0 = std::clamp(floorToInt(y), 1, m.rows - 3);
  const auto wx = cubicWeights(x - static_cast<float>(x0));
  const auto wy = cubicWeights(y - static_cast<float>(y0));
  float b = 0, g = 0, r = 0;
  for (int j = 0; j < 4; ++j) {
    const auto* p = m.ptr<cv::Vec3w>(y0 - 1 + j) + x0 - 1;
    const float w = wy[static_cast<size_t>(j)];
    for (int i = 0; i < 4; ++i) {
      const float both = w * wx[static_cast<size_t>(i)];
      b += both * p[i][0];
      g += both * p[i][1];
      r += both * p[i][2];
    }
  }
  return cv::Vec3f(b, g, r) * (1.0F / 65535.0F);
}

// Undistorted ÷ distorted radius, by the square of the distorted one: exact at the nodes, which are
// so close that a straight line between them errs by less than 1e-8.
class UndistortTable {
 public:
  explicit UndistortTable(const CameraSpec& camera) {
    const double reach = 0.6 * std::hypot(camera.widthPx, camera.heightPx) / camera.focalPx;
    perUnit_ = (kNodes - 2) / (reach * reach);
    for (int i = 0; i < kNodes; ++i) {
      const double r = std::sqrt(std::max(i, 1) / perUnit_);
      ratio_.push_back(undistort(camera, {r, 0}).x / r);
    }
  }
  double operator()(double r2) const {
    const double at = r2 * perUnit_;
    const auto i = static_cast<size_t>(at);
    return ratio_[i] + (at - static_cast<double>(i)) * (ratio_[i + 1] - ratio_[i]);
  }

 private:
  static constexpr int kNodes = 4096;
  double perUnit_ = 1;
  std::vector<double> ratio_;
};

// Through the lens, in linear light, with the corners darkened.
cv::Mat3f throughLens(const cv::Mat& rendered, const CameraSpec& camera) {
  const UndistortTable table(camera);
  cv::Mat3f out(camera.heightPx, camera.widthPx);
  const cv::Point2d pp = principalPoint(camera);
  const double cx = 0.5 * (rendered.cols - 1);
  const double cy = 0.5 * (rendered.rows - 1);
  const double perPx = 1 / camera.focalPx;
  const double corner2 = 0.25 * (static_cast<double>(camera.widthPx) * camera.widthPx +
                                 static_cast<double>(camera.heightPx) * camera.heightPx);
  for (int y = 0; y < out.rows; ++y) {
    for (int x = 0; x < out.cols; ++x) {
      const double dx = x - pp.x, dy = y - pp.y;
      const double far2 = dx * dx + dy * dy;
      const double scale = camera.renderScale * table(far2 * perPx * perPx);
      const cv::Vec3f s = sampleCubic(rendered, static_cast<float>(scale * dx + cx),
                                      static_cast<float>(scale * dy + cy));
      out(y, x) = static_cast<float>(1 - camera.vignette * far2 / corner2) * s;
    }
  }
  return out;
}

// Normal noise: rows of a drawn strip, each picture row from its own place.
class NoiseStrip {
 public:
  explicit NoiseStrip(uint32_t seed) : seed_(seed), strip_(1, kLength) {
    cv::RNG rng(seed);
    rng.fill(strip_, cv::RNG::NORMAL, 0, 1);
  }
  const float* row(int y, int values) const {
    return strip_[0] + hashCell(seed_, y, 3) % static_cast<uint32_t>(kLength - values);
  }

 private:
  static constexpr int kLength = 1 << 21;
  uint32_t seed_;
  cv::Mat1f strip_;
};

// Automatic exposure: the middle of the picture's light to a fixed grey, then what is asked.
float gainFor(const cv::Mat3f& linear, double exposureEv) {
  cv::Mat small;
  cv::resize(linear, small, cv::Size(64, 48), 0, 0, cv::INTER_AREA);
  const cv::Scalar mean = cv::mean(small);
  const double grey = 0.114 * mean[0] + 0.587 * mean[1] + 0.299 * mean[2];
  return static_cast<float>(0.23 / std::max(grey, 1e-4) * std::pow(2, exposureEv));
}

}  // namespace

PinholeRaster pinholeRaster(const CameraSpec& camera) {
  const cv::Point2d pp = principalPoint(camera);
  double reachX = 0, reachY = 0;
  const int steps = 64;
  for (int i = 0; i <= steps; ++i) {
    const double x = -0.5 + static_cast<double>(camera.widthPx) * i / steps;
    const double y = -0.5 + static_cast<double>(camera.heightPx) * i / steps;
    for (const cv::Point2d& p : {cv::Point2d(x, -0.5), cv::Point2d(x, camera.heightPx - 0.5),
                                 cv::Point2d(-0.5, y), cv::Point2d(camera.widthPx - 0.5, y)}) {
      const cv::Point2d u = undistort(camera, (1 / camera.focalPx) * (p - pp));
      reachX = std::max(reachX, std::abs(u.x) * camera.focalPx);
      reachY = std::max(reachY, std::abs(u.y) * camera.focalPx);
    }
  }
  const double scale = camera.renderScale;
  return {2 * static_cast<int>(std::ceil(scale * reachX + 3)),
          2 * static_cast<int>(std::ceil(scale * reachY + 3))};
}

cv::Mat developPhoto(const cv::Mat& rendered, const CameraSpec& camera, uint32_t seed) {
  if (rendered.type() != CV_16UC3) throw std::logic_error("developPhoto wants 16 bit colour");
  cv::Mat3f light = throughLens(rendered, camera);
  if (camera.blurPx > 0) cv::GaussianBlur(light, light, cv::Size(), camera.blurPx);
  const float gain = gainFor(light, camera.exposureEv);
  const NoiseStrip noise(seed);
  constexpr int kSteps = 8192;
  constexpr float kBrightest = 1.6F;
  std::vector<float> coded, sigma;
  for (int i = 0; i <= kSteps; ++i) {
    const float l = kBrightest * static_cast<float>(i) / kSteps;
    // With a soft shoulder, as phones do.
    coded.push_back(255 *
                    srgbFromLinear(l < 0.6F ? l : 0.6F + 0.4F * std::tanh((l - 0.6F) / 0.4F)));
    // Shot noise grows with the square root of light; 0.23 is the mid grey of gainFor.
    sigma.push_back(static_cast<float>(camera.noise) * 0.5F * std::sqrt((l + 0.01F) / 0.20F));
  }
  const auto cell = [&](float l) {
    return static_cast<size_t>(std::clamp(l / kBrightest, 0.0F, 1.0F) * kSteps);
  };
  cv::Mat out(light.size(), CV_8UC3);
  for (int y = 0; y < out.rows; ++y) {
    const float* n = noise.row(y, 3 * out.cols);
    const float* in = light.ptr<float>(y);
    auto* to = out.ptr<uchar>(y);
    for (int i = 0; i < 3 * out.cols; ++i) {
      const float l = gain * in[i];
      to[i] = cv::saturate_cast<uchar>(coded[cell(l + sigma[cell(l)] * n[i])]);
    }
  }
  return out;
}

void writePhoto(const cv::Mat& photo, const CameraSpec& camera, const std::filesystem::path& file) {
  std::vector<uint8_t> bytes;
  cv::imencode(".jpg", photo, bytes, {cv::IMWRITE_JPEG_QUALITY, camera.jpegQuality});
  if (camera.exif) {
    const double diagonalPx = std::hypot(camera.widthPx, camera.heightPx);
    const double share = camera.focalPx * (1 + camera.exifFocalError) / diagonalPx;
    ExifToWrite e;
    e.make = camera.make;
    e.model = camera.model;
    e.orientation = camera.orientation;
    e.focalMm = share * kSensorDiagonalMm;
    e.focal35Mm = static_cast<int>(std::lround(share * kFullFrameDiagonalMm));
    bytes = withExif(bytes, e);
  }
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char*>(bytes.data()),
            static_cast<std::streamsize>(bytes.size()));
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

}  // namespace rackside::synthetic
