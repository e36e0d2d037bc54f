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
#include "tests/support/scene_camera.h"

namespace rackside::synthetic {
namespace {

constexpr double kFullFrameDiagonalMm = 43.2666;  // 36 × 24 mm
constexpr double kSensorDiagonalMm = 8.0;         // of the imagined phone

float linearFromSrgb(float s) {
  return s <= 0.04045F ? s / 12.92F : std::pow((s + 0.055F) / 1.055F, 2.4F);
}

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

cv::Vec3f sampleCubic(const cv::Mat& m, double x, double y) {
  const int x0 = std::clamp(static_cast<int>(std::floor(x)), 1, m.cols - 3);
  const int y0 = std::clamp(static_cast<int>(std::floor(y)), 1, m.rows - 3);
  const auto wx = cubicWeights(static_cast<float>(x - x0));
  const auto wy = cubicWeights(static_cast<float>(y - y0));
  cv::Vec3f sum(0, 0, 0);
  for (int j = 0; j < 4; ++j) {
    const auto* p = m.ptr<cv::Vec3w>(y0 - 1 + j) + x0 - 1;
    cv::Vec3f line(0, 0, 0);
    for (int i = 0; i < 4; ++i) {
      for (int k = 0; k < 3; ++k) line[k] += wx[static_cast<size_t>(i)] * p[i][k];
    }
    sum += wy[static_cast<size_t>(j)] * line;
  }
  return sum * (1.0F / 65535.0F);
}

// Through the lens, in linear light, with the corners darkened.
cv::Mat3f throughLens(const cv::Mat& rendered, const CameraSpec& camera) {
  std::array<float, 4097> linear{};
  for (size_t i = 0; i < linear.size(); ++i) linear[i] = linearFromSrgb(static_cast<float>(i) / 4096);
  const auto toLinear = [&](float s) {
    return linear[static_cast<size_t>(std::clamp(s, 0.0F, 1.0F) * 4096 + 0.5F)];
  };
  cv::Mat3f out(camera.heightPx, camera.widthPx);
  const cv::Point2d pp = principalPoint(camera);
  const double cx = 0.5 * (rendered.cols - 1);
  const double cy = 0.5 * (rendered.rows - 1);
  const double corner2 = 0.25 * (static_cast<double>(camera.widthPx) * camera.widthPx +
                                 static_cast<double>(camera.heightPx) * camera.heightPx);
  for (int y = 0; y < out.rows; ++y) {
    for (int x = 0; x < out.cols; ++x) {
      const cv::Point2d d((x - pp.x) / camera.focalPx, (y - pp.y) / camera.focalPx);
      const cv::Point2d u = undistort(camera, d);
      const cv::Vec3f s = sampleCubic(rendered, camera.focalPx * u.x + cx, camera.focalPx * u.y + cy);
      const double far2 = ((x - pp.x) * (x - pp.x) + (y - pp.y) * (y - pp.y)) / corner2;
      const float light = static_cast<float>(1 - camera.vignette * far2);
      out(y, x) = light * cv::Vec3f(toLinear(s[0]), toLinear(s[1]), toLinear(s[2]));
    }
  }
  return out;
}

// Automatic exposure: the middle of the picture's light to a fixed grey, then what is asked.
float gainFor(const cv::Mat3f& linear, double exposureEv) {
  cv::Mat small;
  cv::resize(linear, small, cv::Size(64, 48), 0, 0, cv::INTER_AREA);
  const cv::Scalar mean = cv::mean(small);
  const double grey = 0.114 * mean[0] + 0.587 * mean[1] + 0.299 * mean[2];
  return static_cast<float>(0.19 / std::max(grey, 1e-4) * std::pow(2, exposureEv));
}

}  // namespace

PinholeRaster pinholeRaster(const CameraSpec& camera) {
  const cv::Point2d pp = principalPoint(camera);
  double reachX = 0, reachY = 0;
  const int steps = 64;
  for (int i = 0; i <= steps; ++i) {
    const double x = -0.5 + static_cast<double>(camera.widthPx) * i / steps;
    const double y = -0.5 + static_cast<double>(camera.heightPx) * i / steps;
    for (const cv::Point2d& p :
         {cv::Point2d(x, -0.5), cv::Point2d(x, camera.heightPx - 0.5), cv::Point2d(-0.5, y),
          cv::Point2d(camera.widthPx - 0.5, y)}) {
      const cv::Point2d u = undistort(camera, (1 / camera.focalPx) * (p - pp));
      reachX = std::max(reachX, std::abs(u.x) * camera.focalPx);
      reachY = std::max(reachY, std::abs(u.y) * camera.focalPx);
    }
  }
  return {2 * static_cast<int>(std::ceil(reachX + 3)), 2 * static_cast<int>(std::ceil(reachY + 3))};
}

cv::Mat developPhoto(const cv::Mat& rendered, const CameraSpec& camera, uint32_t seed) {
  if (rendered.type() != CV_16UC3) throw std::logic_error("developPhoto wants 16 bit colour");
  cv::Mat3f light = throughLens(rendered, camera);
  if (camera.blurPx > 0) cv::GaussianBlur(light, light, cv::Size(), camera.blurPx);
  const float gain = gainFor(light, camera.exposureEv);
  cv::RNG rng(seed);
  cv::Mat3f noise(light.size());
  rng.fill(noise, cv::RNG::NORMAL, 0, 1);
  std::array<float, 8193> coded{};  // with a soft shoulder, as phones do
  for (size_t i = 0; i < coded.size(); ++i) {
    const float l = 1.6F * static_cast<float>(i) / 8192;
    coded[i] = srgbFromLinear(l < 0.6F ? l : 0.6F + 0.4F * std::tanh((l - 0.6F) / 0.4F));
  }
  cv::Mat out(light.size(), CV_8UC3);
  const float amplitude = static_cast<float>(camera.noise);
  for (int y = 0; y < out.rows; ++y) {
    for (int x = 0; x < out.cols; ++x) {
      for (int k = 0; k < 3; ++k) {
        const float l = std::max(0.0F, gain * light(y, x)[k]);
        // Shot noise grows with the square root of light; 0.19 is the mid grey above.
        const float sigma = amplitude * std::sqrt((l + 0.01F) / 0.20F) * 0.5F;
        const float v = std::clamp((l + sigma * noise(y, x)[k]) / 1.6F, 0.0F, 1.0F);
        out.at<cv::Vec3b>(y, x)[k] = cv::saturate_cast<uchar>(
            255 * coded[static_cast<size_t>(v * 8192)]);
      }
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
  out.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

}  // namespace rackside::synthetic
