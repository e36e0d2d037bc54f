// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/wood_defects.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "tests/support/noise.h"

namespace rackside::synthetic {
namespace {

using Shade = std::function<cv::Vec3f(const cv::Vec3f&, double x, double y)>;

// Calls shade for each pixel of the face within the box.
void eachPixel(PaintedWood& face, const Rect& box, const Shade& shade) {
  const double mm = face.mmPerPx;
  const int left = std::max(0, static_cast<int>((box.x0 - face.u0) / mm));
  const int right = std::min(face.bgr.cols - 1, static_cast<int>((box.x1 - face.u0) / mm) + 1);
  const int top = std::max(0, static_cast<int>((face.v1 - box.y1) / mm));
  const int bottom = std::min(face.bgr.rows - 1, static_cast<int>((face.v1 - box.y0) / mm) + 1);
  for (int py = top; py <= bottom; ++py) {
    auto* row = face.bgr.ptr<cv::Vec3b>(py);
    for (int px = left; px <= right; ++px) {
      const cv::Vec3f c = cv::Vec3f(row[px]) / 255.0F;
      const cv::Vec3f s = shade(c, face.u0 + px * mm, face.v1 - py * mm);
      for (int k = 0; k < 3; ++k) row[px][k] = cv::saturate_cast<uchar>(255 * s[k]);
    }
  }
}

Rect boxOf(const Ellipse& e, double grow) {
  const double reach = grow * std::max(e.semiX, e.semiY);
  return {e.centre.x - reach, e.centre.y - reach, e.centre.x + reach, e.centre.y + reach};
}

// 1 on the ellipse, < 1 inside; angle round the middle in *angle.
double inUnits(const Ellipse& e, double x, double y, double* angle) {
  const double dx = x - e.centre.x;
  const double dy = y - e.centre.y;
  const double a = (dx * std::cos(e.angleRad) + dy * std::sin(e.angleRad)) / e.semiX;
  const double b = (-dx * std::sin(e.angleRad) + dy * std::cos(e.angleRad)) / e.semiY;
  *angle = std::atan2(b, a);
  return std::hypot(a, b);
}

float fall(double from, double to, double v) {  // 1 below from, 0 above to
  return 1 - smooth01(static_cast<float>(std::clamp((v - from) / (to - from), 0.0, 1.0)));
}

cv::Vec3f mix(const cv::Vec3f& a, const cv::Vec3f& b, float t) {
  return a + t * (b - a);
}

void paintKnot(const DefectSpec& d, const Ellipse& e, uint32_t seed, float grey,
               PaintedWood& face) {
  const double radius = std::max(e.semiX, e.semiY);
  const cv::Vec3f heart = d.loose ? cv::Vec3f(0.10F, 0.13F, 0.19F) : cv::Vec3f(0.18F, 0.27F, 0.40F);
  const cv::Vec3f dusty(0.27F, 0.31F, 0.35F);
  const cv::Vec3f core = mix(heart, dusty, 0.45F * grey);
  eachPixel(face, boxOf(e, 3.2), [&](const cv::Vec3f& c, double x, double y) {
    double angle = 0;
    const double q = inUnits(e, x, y, &angle) * (1 + 0.03 * noise1(seed, 4 + 2 * angle));
    const double edge = 0.35 / radius;
    const float inside = fall(1 - edge, 1 + edge, q);
    const float ring =
        0.10F * std::sin(static_cast<float>(q * radius * 2.6 + 2 * noise1(seed + 1, 3 * angle)));
    const float star =
        fall(0.02, 0.07 + 0.05 * q, std::abs(std::sin(1.5 * angle + 2 * q + seed % 7))) *
        fall(0.55, 0.9, q);
    cv::Vec3f knot =
        core *
        (1.0F + ring + 0.12F * cellSigned(seed, static_cast<int>(x * 2), static_cast<int>(y * 2)));
    knot *= 1 - 0.55F * star;
    if (d.loose) knot *= 1 - 0.75F * fall(0, 0.10, std::abs(q - 0.94));
    const float halo = 0.32F * fall(0.9, 2.6, q);
    return mix(c * (1 - halo), knot, 0.94F * inside);
  });
}

void paintHole(const Ellipse& e, PaintedWood& face) {
  eachPixel(face, boxOf(e, 1.6), [&](const cv::Vec3f& c, double x, double y) {
    double angle = 0;
    const double q = inUnits(e, x, y, &angle);
    const double edge = 0.2 / std::max(e.semiX, e.semiY);
    return mix(c, cv::Vec3f(0.04F, 0.05F, 0.06F), fall(1 - edge, 1 + edge, q));
  });
}

void paintBark(const Ellipse& e, uint32_t seed, PaintedWood& face) {
  eachPixel(face, boxOf(e, 1.6), [&](const cv::Vec3f& c, double x, double y) {
    double angle = 0;
    const double q = inUnits(e, x, y, &angle) * (1 + 0.10 * noise1(seed, 3 * angle + 7));
    const float rough = 0.6F + 0.5F * noise2(seed + 1, x / 1.7, y / 0.9);
    return mix(c, cv::Vec3f(0.10F, 0.13F, 0.17F) * rough, 0.95F * fall(0.96, 1.05, q));
  });
}

void paintStain(const Ellipse& e, uint32_t seed, PaintedWood& face) {
  eachPixel(face, boxOf(e, 1.8), [&](const cv::Vec3f& c, double x, double y) {
    double angle = 0;
    const double q = inUnits(e, x, y, &angle) * (1 + 0.12 * noise1(seed, 2.2 * angle + 9));
    const float t = 0.6F * fall(0.75, 1.2, q) * (0.8F + 0.2F * cloud2(seed + 1, x / 15, y / 9));
    return mix(c, c.mul(cv::Vec3f(0.52F, 0.46F, 0.42F)), t);
  });
}

// Distance from a point to the line and how far along it the nearest place lies (0..1).
double toLine(const std::vector<Point>& line, Point p, double* along) {
  double best = 1e9;
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const Point d = line[i + 1] - line[i];
    const double t = std::clamp(dot(p - line[i], d) / dot(d, d), 0.0, 1.0);
    const double dist = norm(p - (line[i] + t * d));
    if (dist < best) {
      best = dist;
      *along = (static_cast<double>(i) + t) / static_cast<double>(line.size() - 1);
    }
  }
  return best;
}

void paintCrack(const DefectSpec& d, const std::vector<Point>& line, uint32_t seed,
                PaintedWood& face) {
  // In pieces, so that each pixel looks at few segments.
  const size_t piece = 12;
  for (size_t i = 0; i + 1 < line.size(); i += piece) {
    const std::vector<Point> part(
        line.begin() + static_cast<long>(i),
        line.begin() + static_cast<long>(std::min(line.size(), i + piece + 1)));
    Rect box{1e9, 1e9, -1e9, -1e9};
    for (const Point& p : part) {
      box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
             std::max(box.y1, p.y)};
    }
    const double share =
        static_cast<double>(part.size() - 1) / static_cast<double>(line.size() - 1);
    const double start = static_cast<double>(i) / static_cast<double>(line.size() - 1);
    box = {box.x0, box.y0 - 4, box.x1, box.y1 + 4};
    eachPixel(face, box, [&](const cv::Vec3f& c, double x, double y) {
      double t = 0;
      const double dist = toLine(part, {x, y}, &t);
      const double at = start + share * t;
      const double half = 0.5 * d.acrossMm * (1 - 0.85 * at) * (1 + 0.3 * noise1(seed, x / 3));
      const float dark = fall(half - 0.12, half + 0.25, dist);
      const float dust = 0.15F * fall(half, half + 2.0, dist);
      return mix(c * (1 - dust), cv::Vec3f(0.05F, 0.06F, 0.07F),
                 dark * (d.kind == "split" ? 0.97F : 0.88F));
    });
  }
}

MarkKind kindOf(const DefectSpec& d) {
  if (d.kind == "knot") return MarkKind::knot;
  if (d.kind == "check") return MarkKind::check;
  if (d.kind == "split") return MarkKind::split;
  if (d.kind == "bark") return MarkKind::barkPocket;
  if (d.kind == "stain") return MarkKind::stain;
  return d.alongMm < 2.6 ? MarkKind::wormHoles : MarkKind::holeToFill;
}

bool isCrack(const DefectSpec& d) {
  return d.kind == "check" || d.kind == "split";
}

std::optional<MarkShape> shapeOn(const WoodLog& log, const DefectSpec& d, double z) {
  if (!log.reaches(d, z)) return std::nullopt;
  if (isCrack(d)) return Stroke{log.crackLine(d, z), d.acrossMm};
  const auto e = log.section(d, z);
  if (!e) return std::nullopt;
  return *e;
}

}  // namespace

void paintDefects(const WoodLog& log, double z, const PaintOptions& options, PaintedWood& face) {
  uint32_t seed = log.spec().seed + 500;
  for (const DefectSpec& d : log.spec().defects) {
    seed += 17;
    if (!log.reaches(d, z)) continue;
    if (isCrack(d)) {
      paintCrack(d, log.crackLine(d, z), seed, face);
      continue;
    }
    const auto e = log.section(d, z);
    if (!e) continue;
    if (d.kind == "knot") paintKnot(d, *e, seed, static_cast<float>(options.grey), face);
    if (d.kind == "hole") paintHole(*e, face);
    if (d.kind == "bark") paintBark(*e, seed, face);
    if (d.kind == "stain") paintStain(*e, seed, face);
  }
}

std::vector<Mark> trueMarks(const WoodLog& log) {
  std::vector<Mark> marks;
  for (const DefectSpec& d : log.spec().defects) {
    Mark m;
    m.kind = kindOf(d);
    m.onA = shapeOn(log, d, log.thicknessMm());
    m.onB = shapeOn(log, d, 0);
    m.through = d.through;
    if (!d.through) m.depthMm = d.depthMm;
    m.depthFrom = d.onB ? Face::B : Face::A;
    if (d.kind == "knot") m.soundness = d.loose ? Soundness::loose : Soundness::sound;
    marks.push_back(m);
  }
  return marks;
}

std::vector<SapwoodAt> sapwoodLine(const WoodLog& log, double z, const Rect& within,
                                   double stepMm) {
  std::vector<SapwoodAt> line;
  const double sap = log.spec().sapRadiusMm;
  if (sap <= 0) return line;
  const auto excess = [&](double x, double y) { return log.ringRadius(x, y, z) - sap; };
  for (double x = within.x0; x <= within.x1 + 1e-9; x += stepMm) {
    SapwoodAt at{x, {}, excess(x, within.y0) > 0};
    for (double y = within.y0; y < within.y1; y += 1) {
      const double next = std::min(y + 1, within.y1);
      double low = y, high = next;
      if ((excess(x, low) > 0) == (excess(x, high) > 0)) continue;
      for (int i = 0; i < 20; ++i) {
        const double mid = 0.5 * (low + high);
        ((excess(x, low) > 0) == (excess(x, mid) > 0) ? low : high) = mid;
      }
      at.crossings.push_back(0.5 * (low + high));
    }
    line.push_back(at);
  }
  return line;
}

}  // namespace rackside::synthetic
