// SPDX-License-Identifier: GPL-3.0-or-later
// Seeded value noise for synthetic wood and floors: smooth, repeatable, in -1..1.
#pragma once

#include <cstdint>

namespace rackside::synthetic {

inline uint32_t hashCell(uint32_t seed, int x, int y) {
  uint32_t h = static_cast<uint32_t>(x) * 0x9e3779b1U + static_cast<uint32_t>(y) * 0x85ebca77U +
               seed * 0xc2b2ae3dU;
  h = (h ^ (h >> 15)) * 0x2c1b3c6dU;
  h = (h ^ (h >> 12)) * 0x297a2d39U;
  return h ^ (h >> 15);
}
// Uniform in 0..1.
inline float cellUnit(uint32_t seed, int x, int y) {
  return static_cast<float>(static_cast<int>(hashCell(seed, x, y) >> 8)) * (1.0F / 16777216.0F);
}
inline float cellSigned(uint32_t seed, int x, int y) {
  return 2 * cellUnit(seed, x, y) - 1;
}
inline float smooth01(float t) {
  return t * t * (3 - 2 * t);
}
// std::floor is a library call on the plainest x86-64.
inline int floorToInt(double x) {
  const int i = static_cast<int>(x);
  return x < i ? i - 1 : i;
}
inline int floorToInt(float x) {
  const int i = static_cast<int>(x);
  return x < static_cast<float>(i) ? i - 1 : i;
}
template <class T>
float noise1(uint32_t seed, T x) {
  const int i = floorToInt(x);
  const float t = smooth01(static_cast<float>(x - static_cast<T>(i)));
  return (1 - t) * cellSigned(seed, i, 17) + t * cellSigned(seed, i + 1, 17);
}
template <class T>
float noise2(uint32_t seed, T x, T y) {
  const int i = floorToInt(x);
  const int j = floorToInt(y);
  const float tx = smooth01(static_cast<float>(x - static_cast<T>(i)));
  const float ty = smooth01(static_cast<float>(y - static_cast<T>(j)));
  const float low = (1 - tx) * cellSigned(seed, i, j) + tx * cellSigned(seed, i + 1, j);
  const float high = (1 - tx) * cellSigned(seed, i, j + 1) + tx * cellSigned(seed, i + 1, j + 1);
  return (1 - ty) * low + ty * high;
}
// Three octaves, each twice as fine and half as strong.
template <class T>
float cloud2(uint32_t seed, T x, T y) {
  return (noise2(seed, x, y) + 0.5F * noise2(seed + 1, 2 * x, 2 * y) +
          0.25F * noise2(seed + 2, 4 * x, 4 * y)) /
         1.75F;
}

// A small seeded generator whose sequence does not depend on the standard library.
class Draw {
 public:
  explicit Draw(uint64_t seed) : state_(seed * 0x9e3779b97f4a7c15ULL + 0x1234567ULL) {}
  double unit() {  // 0..1
    state_ ^= state_ >> 12;
    state_ ^= state_ << 25;
    state_ ^= state_ >> 27;
    return static_cast<double>((state_ * 2685821657736338717ULL) >> 11) * 0x1.0p-53;
  }
  double between(double low, double high) { return low + (high - low) * unit(); }
  int whole(int low, int high) {  // both included
    return low + static_cast<int>(unit() * (high - low + 1));
  }
  bool chance(double p) { return unit() < p; }
  double normal() {  // sum of twelve uniforms: close enough for scene making
    double s = -6;
    for (int i = 0; i < 12; ++i) s += unit();
    return s;
  }

 private:
  uint64_t state_;
};

}  // namespace rackside::synthetic
