// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/wood_face.h"

#include <algorithm>
#include <cmath>

#include "tests/support/noise.h"
#include "tests/support/wood_defects.h"

namespace rackside::synthetic {
namespace {

constexpr double kCoarseMm = 1.0;  // the log's fields are smooth at this scale

enum class Cut { face, edge, end };

struct Plane {
  Cut cut = Cut::face;
  double fixed = 0;  // z of a face, y of an edge, x of an end
};

float ramp(float low, float high, float v) {
  return smooth01(std::clamp((v - low) / (high - low), 0.0F, 1.0F));
}

// sin(2 pi t) within 0.1 %, for any t: a parabola, once corrected.
float sineOfTurn(float t) {
  const float f = t - static_cast<float>(floorToInt(t));
  const float p = f < 0.5F ? 16 * f * (0.5F - f) : -16 * (f - 0.5F) * (1 - f);
  return p * (0.775F + 0.225F * std::abs(p));
}

// Growth by radius: the phase within the year and the year's own tone, tabulated.
class RingTable {
 public:
  RingTable(uint32_t seed, double ringMm, float lateSharpness) {
    Draw draw(seed * 7919ULL + 3);
    double r = -150;
    int year = 0;
    while (static_cast<int>(phase_.size()) < kCells) {
      const double era = 1 + 0.35 * noise1(seed + 70, year / 6.0);
      const double width = ringMm * era * draw.between(0.65, 1.35);
      const double tone = draw.between(-1, 1);
      const double end = r + width;
      while (static_cast<int>(phase_.size()) < kCells && cellRadius() < end) {
        const float phase = static_cast<float>((cellRadius() - r) / width);
        late_.push_back(std::pow(phase, lateSharpness) * (1 - ramp(0.93F, 1.0F, phase)));
        contrast_.push_back(0.75F + 0.25F * noise1(seed + 71, cellRadius() / 9));
        phase_.push_back(phase);
        tone_.push_back(static_cast<float>(tone));
      }
      r = end;
      ++year;
    }
  }
  float phase(float r) const { return phase_[cell(r)]; }
  // Soft turn from this year's late wood to the next year's early wood.
  float late(float r) const { return late_[cell(r)] * contrast_[cell(r)]; }
  float tone(float r) const { return tone_[cell(r)]; }

 private:
  static constexpr int kCells = 20000;
  static constexpr double kStep = 0.05;
  double cellRadius() const { return -150 + kStep * static_cast<double>(phase_.size()); }
  static size_t cell(float r) {
    return static_cast<size_t>(
        std::clamp((r + 150) / static_cast<float>(kStep), 0.0F, kCells - 1.0F));
  }
  std::vector<float> phase_, tone_, late_, contrast_;
};

struct Fields {  // on the coarse grid
  cv::Mat1f radius, across;
};

Fields coarseFields(const WoodLog& log, const Rect& r, const Plane& plane) {
  const int w = static_cast<int>(r.width() / kCoarseMm) + 3;
  const int h = static_cast<int>(r.height() / kCoarseMm) + 3;
  Fields f{cv::Mat1f(h, w), cv::Mat1f(h, w)};
  for (int j = 0; j < h; ++j) {
    for (int i = 0; i < w; ++i) {
      const double u = r.x0 + i * kCoarseMm;
      const double v = r.y0 + j * kCoarseMm;
      double x = u, y = v, z = plane.fixed;
      if (plane.cut == Cut::edge) y = plane.fixed, z = v;
      if (plane.cut == Cut::end) x = plane.fixed, y = u, z = v;
      f.radius(j, i) = static_cast<float>(log.ringRadius(x, y, z));
      f.across(j, i) = static_cast<float>(plane.cut == Cut::face ? log.fibreY(x, y, z) : v);
    }
  }
  return f;
}

float bilinear(const cv::Mat1f& m, float i, float j) {
  const int i0 = static_cast<int>(i);
  const int j0 = static_cast<int>(j);
  const float a = i - static_cast<float>(i0);
  const float b = j - static_cast<float>(j0);
  const float* p = m[j0] + i0;
  const float* q = m[j0 + 1] + i0;
  return (1 - b) * ((1 - a) * p[0] + a * p[1]) + b * ((1 - a) * q[0] + a * q[1]);
}

// One point of clean wood, then grey, then saw marks.
class Painter {
 public:
  Painter(const WoodLog& log, const PaintOptions& options, Plane plane)
      : spec_(log.spec()),
        look_(options.look ? *options.look : speciesNamed(log.spec().species)),
        options_(options),
        plane_(plane),
        rings_(log.spec().seed, log.spec().ringMm, look_.lateSharpness),
        grey_(static_cast<float>(options.grey)) {}

  cv::Vec3f colour(float u, float v, float radius, float across) const {
    cv::Vec3f c = clean(u, v, radius, across);
    if (grey_ > 0) c = greyed(c, u, v, across);
    if (options_.sawMarks && plane_.cut != Cut::end) c *= sawShade(u, v);
    return c;
  }

 private:
  cv::Vec3f clean(float u, float v, float radius, float across) const {
    const uint32_t s = spec_.seed;
    const float phase = rings_.phase(radius);
    const float late = rings_.late(radius);
    float sap = 0;
    if (spec_.sapRadiusMm > 0) {
      sap = ramp(-0.8F, 0.8F, radius - static_cast<float>(spec_.sapRadiusMm));
    }
    const cv::Vec3f heart = look_.early + late * (look_.late - look_.early);
    const cv::Vec3f pale = look_.sapEarly + late * (look_.sapLate - look_.sapEarly);
    cv::Vec3f c = heart + sap * (pale - heart);
    float light = 1 + look_.toneFromRing * rings_.tone(radius);
    light += 0.035F * noise2(s + 72, u / 220, across / 18) + 0.02F * cloud2(s + 73, u / 60, v / 50);
    if (plane_.cut == Cut::end) {
      light -= look_.poreStrength * 0.8F * ramp(0.2F, 0.8F, noise2(s + 74, u / 0.5F, v / 0.5F)) *
               (1 - look_.ringPorous * ramp(0.1F, 0.4F, phase));
      return c * (light * 0.88F);
    }
    light += 0.030F * noise2(s + 75, u / 16, across / 0.35F);
    light -= pores(u, across, phase) + rays(u, across);
    light += ripple(u, v, across);
    return c * light;
  }

  float pores(float u, float across, float phase) const {
    const float where = 1 - look_.ringPorous * ramp(0.15F, 0.45F, phase);
    if (where < 0.02F) return 0;
    const float n = noise2(spec_.seed + 76, u / look_.poreLengthMm, across / look_.poreWidthMm);
    const float fine = noise2(spec_.seed + 77, u / (0.4F * look_.poreLengthMm),
                              across / (0.7F * look_.poreWidthMm));
    return look_.poreStrength * where * (ramp(0.15F, 0.75F, n) + 0.5F * ramp(0.3F, 0.8F, fine));
  }

  float rays(float u, float across) const {
    if (look_.rays <= 0) return 0;
    const float n = noise2(spec_.seed + 78, u / 3.5F, across / 0.3F);
    return 0.25F * look_.rays * ramp(0.55F, 0.85F, n);
  }

  float ripple(float u, float v, float across) const {
    if (spec_.curl <= 0) return 0;
    const uint32_t s = spec_.seed;
    const float envelope = 0.6F + 0.4F * noise2(s + 79, u / 180, v / 60);
    const float turn =
        u / static_cast<float>(spec_.curlPitchMm) + 0.8F * noise2(s + 80, u / 60, across / 25);
    return 0.11F * static_cast<float>(spec_.curl) * envelope * sineOfTurn(turn);
  }

  cv::Vec3f greyed(const cv::Vec3f& c, float u, float v, float across) const {
    const uint32_t s = spec_.seed;
    const cv::Vec3f mid = 0.5F * (look_.early + look_.late);
    const float mean = (mid[0] + mid[1] + mid[2]) / 3;
    const float own = (c[0] + c[1] + c[2]) / 3;
    // The wood's own light and dark stays at a part of its strength, its colour fades.
    const float keep = 1 - 0.62F * grey_;
    const float shade = 1 + keep * (own / mean - 1);
    cv::Vec3f dull = look_.rough * shade;
    cv::Vec3f out = c + (0.92F * grey_) * (dull - c);
    float light = 1 + grey_ * (0.13F * cloud2(s + 81, u / 300, v / 110) +
                               0.07F * noise2(s + 82, u / 7, across / 0.6F) +
                               0.05F * noise2(s + 83, u / 1.4F, v / 0.7F));
    if (options_.stickerBands) light *= stickerLight(u, v);
    // Dirt in specks and smears.
    light -= 0.18F * grey_ * ramp(0.55F, 0.9F, cloud2(s + 86, u / 35, v / 28));
    light -= 0.25F * grey_ * ramp(0.80F, 0.95F, noise2(s + 87, u / 2.6F, v / 1.7F));
    return out * light;
  }

  // Stickers kept rain and light away: paler bands square across, every half metre or so.
  float stickerLight(float u, float v) const {
    const uint32_t s = spec_.seed;
    const int sticker = floorToInt((u - 90) / 520 + 0.5F);
    const float away =
        std::abs(u - 90 - 520 * static_cast<float>(sticker)) - 3 * noise1(s + 84, v / 40);
    const float pale = 1 - ramp(11, 24, away + 4 * noise1(s + 85, v / 130));
    return 1 + 0.09F * grey_ * pale * cellUnit(s + 85, sticker, 1);
  }

  float sawShade(float u, float v) const {
    const SawSpec& saw = spec_.saw;
    if (saw.kind == "none") return 1;
    const uint32_t s = spec_.seed;
    const double t = sawPhase(saw, s, u, v);
    const int line = floorToInt(t);
    const float at = static_cast<float>(t - line);
    const float strong =
        0.35F + 0.65F * (0.5F * (cellUnit(s + 88, line, 2) + cellUnit(s + 88, line / 7, 3)));
    const float place = 0.75F + 0.45F * cloud2(s + 89, u / 160, v / 120);
    const float wave = sineOfTurn(at) + 0.45F * sineOfTurn(2 * at + cellUnit(s + 90, line, 4));
    const float tear = 0.35F * noise2(s + 91, u / 0.8F, v / 5);
    return 1 + static_cast<float>(0.085 * saw.strength * options_.sawLight) * strong * place *
                   (wave + tear);
  }

  const WoodSpec& spec_;
  const Species look_;
  const PaintOptions& options_;
  Plane plane_;
  RingTable rings_;
  float grey_;
};

cv::Vec3b toBytes(const cv::Vec3f& c) {
  return {cv::saturate_cast<uchar>(255 * c[0]), cv::saturate_cast<uchar>(255 * c[1]),
          cv::saturate_cast<uchar>(255 * c[2])};
}

PaintedWood paint(const WoodLog& log, const Rect& r, const Plane& plane,
                  const PaintOptions& options) {
  const Fields fields = coarseFields(log, r, plane);
  const Painter painter(log, options, plane);
  const float mm = static_cast<float>(options.mmPerPx);
  PaintedWood out{{}, options.mmPerPx, r.x0, r.y1};
  const int w = static_cast<int>(std::ceil(r.width() / mm)) + 1;
  const int h = static_cast<int>(std::ceil(r.height() / mm)) + 1;
  out.bgr.create(h, w, CV_8UC3);
  for (int py = 0; py < h; ++py) {
    const float v =
        std::max(static_cast<float>(r.y1) - static_cast<float>(py) * mm, static_cast<float>(r.y0));
    const float j = (v - static_cast<float>(r.y0)) / static_cast<float>(kCoarseMm);
    auto* row = out.bgr.ptr<cv::Vec3b>(py);
    for (int px = 0; px < w; ++px) {
      const float du = static_cast<float>(px) * mm;
      const float i =
          std::min(du / static_cast<float>(kCoarseMm), static_cast<float>(fields.radius.cols - 2));
      row[px] =
          toBytes(painter.colour(static_cast<float>(r.x0) + du, v, bilinear(fields.radius, i, j),
                                 bilinear(fields.across, i, j)));
    }
  }
  return out;
}

}  // namespace

double sawPhase(const SawSpec& saw, uint32_t seed, double x, double y) {
  const double jitter = 0.8 * noise1(seed + 92, x / 75) + 0.25 * noise2(seed + 93, x / 300, y / 40);
  if (saw.kind == "circular") {
    const double fromHub = y - 40 + 30 * cellSigned(seed + 94, 1, 1);
    const double reach = std::max(saw.radiusMm * saw.radiusMm - fromHub * fromHub, 1.0);
    return (x - std::sqrt(reach)) / saw.pitchMm + jitter;
  }
  const double slant = saw.slantDeg * 3.14159265358979 / 180;
  return (x * std::cos(slant) + y * std::sin(slant)) / saw.pitchMm + jitter;
}

PaintedWood paintFace(const WoodLog& log, const Rect& xyMm, double z, const PaintOptions& options) {
  PaintedWood out = paint(log, xyMm, {Cut::face, z}, options);
  if (options.defects) paintDefects(log, z, options, out);
  return out;
}

PaintedWood paintEdge(const WoodLog& log, const Rect& xzMm, double y, const PaintOptions& options) {
  return paint(log, xzMm, {Cut::edge, y}, options);
}

PaintedWood paintEnd(const WoodLog& log, const Rect& yzMm, double x, const PaintOptions& options) {
  return paint(log, yzMm, {Cut::end, x}, options);
}

}  // namespace rackside::synthetic
