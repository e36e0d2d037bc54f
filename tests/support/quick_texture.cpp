// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/quick_texture.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

namespace rackside::test {
namespace {

double hash(int64_t x, int64_t y, uint64_t seed) {
  uint64_t h = seed * 0x9E3779B97F4A7C15ull ^ uint64_t(x) * 0xC2B2AE3D27D4EB4Full ^
               uint64_t(y) * 0x165667B19E3779F9ull;
  h ^= h >> 31;
  h *= 0xD6E8FEB86659FD93ull;
  h ^= h >> 29;
  return double(h >> 11) / double(1ull << 53) * 2 - 1;
}

cv::Vec3f mix(const cv::Vec3f& a, const cv::Vec3f& b, double t) {
  return a * float(1 - t) + b * float(t);
}

cv::Mat tiled(const cv::Mat& picture, cv::Size size) {
  cv::Mat out(size, CV_32FC3);
  const auto fold = [](int i, int n) {
    i %= 2 * n;
    return i < n ? i : 2 * n - 1 - i;
  };
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x)
      out.at<cv::Vec3f>(y, x) = picture.at<cv::Vec3f>(fold(y, picture.rows), fold(x, picture.cols));
  return out;
}

cv::Mat pictureTexture(const std::string& file, cv::Size size, double pxPerMm) {
  cv::Mat picture = cv::imread(file), linear;
  picture.convertTo(linear, CV_32FC3, 1 / 255.0);
  cv::pow(linear, 2.2, linear);
  cv::resize(linear, linear, {}, 0.5 * pxPerMm, 0.5 * pxPerMm, cv::INTER_AREA);
  return tiled(linear, size);
}

}  // namespace

double smoothNoise(double x, double y, uint64_t seed) {
  const double fx = std::floor(x), fy = std::floor(y);
  double u = x - fx, v = y - fy;
  u = u * u * (3 - 2 * u);
  v = v * v * (3 - 2 * v);
  const auto ix = int64_t(fx), iy = int64_t(fy);
  return (hash(ix, iy, seed) * (1 - u) + hash(ix + 1, iy, seed) * u) * (1 - v) +
         (hash(ix, iy + 1, seed) * (1 - u) + hash(ix + 1, iy + 1, seed) * u) * v;
}

cv::Mat woodTexture(cv::Size size, double pxPerMm, const QuickSceneOptions& o, uint64_t seed) {
  if (!o.woodPictures.empty())
    return pictureTexture(o.woodPictures[seed % o.woodPictures.size()], size, pxPerMm);
  const cv::Vec3f dark(0.045f, 0.075f, 0.13f), pale(0.42f, 0.55f, 0.66f), grey(0.24f, 0.25f, 0.26f);
  const cv::Vec3f base = mix(dark, pale, o.woodTone);
  cv::Mat out(size, CV_32FC3);
  for (int py = 0; py < size.height; ++py)
    for (int px = 0; px < size.width; ++px) {
      const double x = px / pxPerMm, y = py / pxPerMm;
      const double warp =
          14 * smoothNoise(x / 420, y / 90, seed) + 4 * smoothNoise(x / 90, y / 30, seed + 1);
      const double ring =
          std::sin((y + warp) * (0.35 + 0.12 * smoothNoise(x / 900, y / 60, seed + 2)));
      double tone = 1 + o.contrast * (0.16 * ring + 0.1 * smoothNoise(x / 60, y / 0.9, seed + 3) +
                                      0.08 * smoothNoise(x / 25, y / 2.5, seed + 4) +
                                      0.1 * smoothNoise(x / 500, y / 70, seed + 5));
      tone *=
          1 + 0.03 * o.contrast * std::sin(x * 1.1 + 2 * smoothNoise(x / 40, y / 200, seed + 6));
      for (int k = 0; k < 5; ++k) {  // knots
        const double kx = (hash(k, 7, seed) * 0.5 + 0.5) * size.width / pxPerMm;
        const double ky = (hash(k, 8, seed) * 0.5 + 0.5) * size.height / pxPerMm;
        const double r = 8 + 10 * (hash(k, 9, seed) * 0.5 + 0.5);
        const double d = std::hypot((x - kx) / 1.4, y - ky) / r;
        if (d < 2.5) tone *= 1 - 0.55 * std::exp(-d * d * d) - 0.1 * std::sin(d * 7) * std::exp(-d);
      }
      cv::Vec3f c = base * float(tone);
      if (o.sapwood) {
        const double edge = 0.2 * size.height / pxPerMm + 8 * smoothNoise(x / 300, 0, seed + 11);
        if (y < edge) c = mix(c, pale * float(tone), 0.6);
      }
      const double patch =
          smoothNoise(x / 150, y / 60, seed + 12) + 0.5 * smoothNoise(x / 30, y / 12, seed + 13);
      const double w = o.weathered * std::clamp(0.65 + 0.6 * patch, 0.0, 1.0);
      c = mix(c, grey * float(0.6 + 0.4 * tone), w);
      out.at<cv::Vec3f>(py, px) = c;
    }
  return out;
}

cv::Mat groundTexture(cv::Size size, double pxPerMm, const QuickSceneOptions& o) {
  const uint64_t seed = o.seed + 500;
  if (o.ground == Ground::sameWood) return woodTexture(size, pxPerMm, o, o.seed + 77);
  cv::Mat out(size, CV_32FC3);
  const cv::Vec3f tint(float(0.9 + 0.15 * hash(1, 1, seed)), 1,
                       float(1.05 + 0.15 * hash(2, 1, seed)));
  const double level =
      o.ground == Ground::dark ? 0.05 : 0.12 + 0.25 * (hash(3, 1, seed) * 0.5 + 0.5);
  for (int py = 0; py < size.height; ++py)
    for (int px = 0; px < size.width; ++px) {
      const double x = px / pxPerMm, y = py / pxPerMm;
      double tone = 1 + 0.12 * smoothNoise(x / 200, y / 200, seed + 1) +
                    0.06 * smoothNoise(x / 11, y / 11, seed + 2) +
                    0.08 * smoothNoise(x / 1.7, y / 1.7, seed + 3);
      cv::Vec3f c = tint * float(level * tone);
      if (o.ground == Ground::concrete && smoothNoise(x / 6, y / 6, seed + 4) > 0.72) c *= 0.6f;
      if (o.ground == Ground::planks) {
        const double a = 0.4 + hash(4, 1, seed), along = x * std::cos(a) + y * std::sin(a),
                     across = -x * std::sin(a) + y * std::cos(a);
        const double n = std::floor(across / 120), f = across - n * 120;
        tone = 1 + 0.15 * hash(int64_t(n), 5, seed) +
               0.12 * smoothNoise(along / 80, across / 2, seed + 5) +
               0.08 * std::sin(across * 0.4 + 6 * smoothNoise(along / 300, across / 60, seed + 6));
        c = mix({0.1f, 0.17f, 0.26f}, {0.35f, 0.47f, 0.58f}, 0.5 + 0.5 * hash(6, 1, seed)) *
            float(tone);
        if (f < 2) c *= 0.25f;
      }
      out.at<cv::Vec3f>(py, px) = c;
    }
  return out;
}

}  // namespace rackside::test
