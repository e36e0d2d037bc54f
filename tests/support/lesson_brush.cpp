// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/lesson_brush.h"

#include <algorithm>
#include <cmath>

namespace rackside::synthetic {
namespace {

constexpr double kPi = 3.14159265358979323846;

float fall(double from, double to, double v) {  // 1 below from, 0 above to
  return 1 - smooth01(static_cast<float>(std::clamp((v - from) / (to - from), 0.0, 1.0)));
}

cv::Vec3f mix(const cv::Vec3f& a, const cv::Vec3f& b, float t) {
  return a + t * (b - a);
}

uint32_t seedOf(Draw& draw) {
  return static_cast<uint32_t>(draw.whole(1, 1 << 30));
}

// Distance from p to the line, and how far along it the nearest place lies (0..1).
double toLine(const std::vector<Point>& line, Point p, double& along) {
  double best = 1e9;
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const Point d = line[i + 1] - line[i];
    const double t = std::clamp(dot(p - line[i], d) / std::max(dot(d, d), 1e-9), 0.0, 1.0);
    const double dist = norm(p - (line[i] + t * d));
    if (dist >= best) continue;
    best = dist;
    along = (static_cast<double>(i) + t) / static_cast<double>(line.size() - 1);
  }
  return best;
}

}  // namespace

// shade(colour, q, angle, x, y): q is 1 on the ellipse. Where it is told to (it returns true), the
// pixel takes the label.
template <class Shade>
void LessonBrush::eachPixel(const Ellipse& e, double grow, LessonLabel label, const Shade& shade) {
  const double reach = grow * std::max(e.semiX, e.semiY) + 3;
  const double c = std::cos(e.angleRad), s = std::sin(e.angleRad);
  const int left = std::max(0, static_cast<int>(e.centre.x - reach)),
            right = std::min(lesson_.bgr.cols - 1, static_cast<int>(e.centre.x + reach)),
            top = std::max(0, static_cast<int>(e.centre.y - reach)),
            bottom = std::min(lesson_.bgr.rows - 1, static_cast<int>(e.centre.y + reach));
  for (int y = top; y <= bottom; ++y)
    for (int x = left; x <= right; ++x) {
      const double dx = x - e.centre.x, dy = y - e.centre.y;
      const double a = (dx * c + dy * s) / e.semiX, b = (dy * c - dx * s) / e.semiY;
      cv::Vec3b& pixel = lesson_.bgr(y, x);
      cv::Vec3f colour = cv::Vec3f(pixel) / 255.0F;
      const bool inside = shade(colour, std::hypot(a, b), std::atan2(b, a), x, y);
      for (int k = 0; k < 3; ++k) pixel[k] = cv::saturate_cast<uchar>(255 * colour[k]);
      if (inside) lesson_.labels(y, x) = static_cast<uchar>(label);
    }
}

cv::Vec3f LessonBrush::woodRound(const Ellipse& e) const {
  const int reach = 4 + static_cast<int>(1.5 * std::max(e.semiX, e.semiY));
  const cv::Rect box = cv::Rect(static_cast<int>(e.centre.x) - reach,
                                static_cast<int>(e.centre.y) - reach, 2 * reach, 2 * reach) &
                       cv::Rect({0, 0}, lesson_.bgr.size());
  if (box.empty()) return {0.4F, 0.5F, 0.6F};
  const cv::Scalar mean = cv::mean(lesson_.bgr(box));
  return {static_cast<float>(mean[0] / 255), static_cast<float>(mean[1] / 255),
          static_cast<float>(mean[2] / 255)};
}

// So much of the wood's light, warmer or greyer than the wood.
cv::Vec3f LessonBrush::brownOf(cv::Vec3f wood, double light) {
  const double warm = draw_.between(-0.05, 0.35) * (1 - light);
  const float grey = (wood[0] + wood[1] + wood[2]) / 3;
  wood = mix(wood, {grey, grey, grey}, static_cast<float>(draw_.between(0, 0.5)));
  return {static_cast<float>(wood[0] * light * (1 - warm)), static_cast<float>(wood[1] * light),
          static_cast<float>(wood[2] * light * (1 + warm))};
}

void LessonBrush::knot(const Ellipse& e, LessonLabel kind) {
  const bool loose = kind == LessonLabel::looseKnot;
  const double radius = std::max(e.semiX, e.semiY), small = std::min(e.semiX, e.semiY);
  const uint32_t seed = seedOf(draw_);
  const cv::Vec3f core =
      brownOf(woodRound(e), loose ? draw_.between(0.12, 0.6) : draw_.between(0.3, 0.86));
  const double wobble = draw_.between(0.02, 0.12), pitch = draw_.between(2, 7);
  const auto rings = static_cast<float>(draw_.between(0.02, 0.2)),
             grain = static_cast<float>(draw_.between(0.02, 0.2)),
             middle = static_cast<float>(draw_.between(-0.25, 0.5)),
             halo = static_cast<float>(draw_.between(0, 0.4)),
             cover = static_cast<float>(draw_.between(0.75, 1));
  const double haloReach = draw_.between(1.3, 2.8), soft = draw_.between(0.4, 2.5) / radius;
  // A loose knot has a ring of bark or a gap round it; a sound one at most a dark line, grown in.
  const auto rim = static_cast<float>(loose ? draw_.between(0.45, 0.95)
                                            : std::max(0.0, draw_.between(-0.4, 0.35)));
  const double rimWide = (loose ? draw_.between(0.8, 3.5) : draw_.between(0.5, 1.2)) / small;
  const double gapFrom = draw_.between(-kPi, kPi), gap = loose ? draw_.between(0, 1.6) : 0;
  eachPixel(e, haloReach, kind, [&](cv::Vec3f& c, double q, double angle, double x, double y) {
    q *= 1 + wobble * noise1(seed, 4 + 2 * angle) + 0.3 * wobble * noise1(seed + 5, 9 + 7 * angle);
    const float inside = cover * fall(1 - soft, 1 + soft, q);
    float light = 1 +
                  rings * std::sin(static_cast<float>(q * radius * 2 * kPi / pitch +
                                                      2 * noise1(seed + 1, 3 * angle))) +
                  grain * noise2(seed + 2, x / 1.6, y / 1.6) - middle * fall(0.1, 0.8, q) * 0.6F;
    const double away = std::abs(std::remainder(angle - gapFrom, 2 * kPi));
    const float shut = away < gap ? 0.15F : 1.0F;
    light *= 1 - rim * shut * fall(0, rimWide, std::abs(q - 1 + rimWide / 2));
    c = mix(c * (1 - halo * fall(0.9, haloReach, q)), core * std::max(light, 0.05F), inside);
    return q < 1;
  });
  if (kind == LessonLabel::checkedKnot) {
    starChecks(e, draw_.between(1.2, 4));
  } else if (draw_.chance(0.4)) {
    starChecks(e, draw_.between(0.3, 0.9));  // too fine to be called a check
  }
}

void LessonBrush::starChecks(const Ellipse& e, double widthPx) {
  const uint32_t seed = seedOf(draw_);
  const double turn = draw_.between(-kPi, kPi), dark = draw_.between(0.65, 0.97);
  const int rays = draw_.whole(1, 4);
  const cv::Mat1b labels = lesson_.labels.clone();
  for (int i = 0; i < rays; ++i) {
    const double way = turn + 2 * kPi * i / rays + draw_.between(-0.5, 0.5),
                 reach = draw_.between(0.5, 0.98), back = rays < 3 ? draw_.between(0, 0.6) : 0;
    const double c = std::cos(e.angleRad), s = std::sin(e.angleRad);
    const auto at = [&](double q) {
      const double a = q * e.semiX * std::cos(way), b = q * e.semiY * std::sin(way);
      return e.centre + Point{a * c - b * s, a * s + b * c};
    };
    const std::vector<Point> line{at(-back), at(0.15), at(reach)};
    alongLine(line, widthPx + 2, [&](cv::Vec3f& colour, double dist, double t, Point) {
      const double half = 0.5 * widthPx * (1 - 0.8 * t) * (1 + 0.3 * noise1(seed, 6 * t + i));
      colour *= 1 - static_cast<float>(dark) * fall(half - 0.4, half + 0.5, dist);
      return LessonLabel::none;
    });
  }
  labels.copyTo(lesson_.labels);  // the checks are part of the knot
}

void LessonBrush::hole(const Ellipse& e, LessonLabel kind) {
  const uint32_t seed = seedOf(draw_);
  const cv::Vec3f wood = woodRound(e);
  const cv::Vec3f deep = brownOf(wood, draw_.between(0.04, 0.25));
  const double wobble = draw_.between(0, 0.12), soft = 0.5 / std::max(e.semiX, e.semiY),
               lit = draw_.between(-kPi, kPi);
  const auto wall = static_cast<float>(draw_.between(0, 0.35)),
             stained = static_cast<float>(std::max(0.0, draw_.between(-0.3, 0.4)));
  eachPixel(e, 2.2, kind, [&](cv::Vec3f& c, double q, double angle, double, double) {
    q *= 1 + wobble * noise1(seed, 4 + 2 * angle);
    // The far wall catches some light.
    const float bright = wall * fall(0.2, 1.6, std::abs(std::remainder(angle - lit, 2 * kPi))) *
                         (1 - fall(0.5, 0.95, q));
    c = mix(c * (1 - stained * fall(1, 2, q)), mix(deep, wood, bright),
            fall(1 - soft, 1 + soft, q));
    return q < 1;
  });
}

void LessonBrush::bark(const Ellipse& e) {
  const uint32_t seed = seedOf(draw_);
  const cv::Vec3f dark = brownOf(woodRound(e), draw_.between(0.12, 0.5));
  const double wobble = draw_.between(0.05, 0.3);
  const auto rough = static_cast<float>(draw_.between(0.15, 0.6)),
             paleRim = static_cast<float>(draw_.between(-0.3, 0.2));
  eachPixel(e, 1.8, LessonLabel::barkPocket,
            [&](cv::Vec3f& c, double q, double angle, double x, double y) {
              q *= 1 + wobble * noise1(seed, 3 * angle + 7) +
                   0.5 * wobble * noise2(seed + 3, x / 5, y / 3);
              const float light = 1 + rough * noise2(seed + 1, x / 3.4, y / 1.8);
              c = mix(c * (1 + paleRim * fall(1, 1.5, q)), dark * std::max(light, 0.1F),
                      0.96F * fall(0.93, 1.07, q));
              return q < 1;
            });
}

void LessonBrush::gum(const Ellipse& e) {
  const uint32_t seed = seedOf(draw_);
  cv::Vec3f amber = brownOf(woodRound(e), draw_.between(0.3, 0.8));
  amber = {amber[0] * static_cast<float>(draw_.between(0.4, 0.8)), amber[1] * 0.85F, amber[2]};
  const double wobble = draw_.between(0.05, 0.25), soft = draw_.between(0.05, 0.3);
  const auto shine = static_cast<float>(std::max(0.0, draw_.between(-0.3, 0.5))),
             cover = static_cast<float>(draw_.between(0.6, 0.95));
  eachPixel(
      e, 1.6, LessonLabel::gum, [&](cv::Vec3f& c, double q, double angle, double x, double y) {
        q *= 1 + wobble * noise1(seed, 3 * angle + 7);
        const float gleam = shine * fall(0.1, 0.5, std::abs(noise2(seed + 1, x / 9, y / 3) - 0.4));
        c = mix(c, mix(amber, {1, 1, 1}, gleam * 0.5F), cover * fall(1 - soft, 1 + soft, q));
        return q < 1;
      });
}

void LessonBrush::streak(const Ellipse& e) {
  const uint32_t seed = seedOf(draw_);
  const cv::Vec3f dull = brownOf(woodRound(e), draw_.between(0.35, 0.75));
  const auto cover = static_cast<float>(draw_.between(0.6, 0.9));
  eachPixel(e, 1.5, LessonLabel::streak, [&](cv::Vec3f& c, double q, double, double x, double y) {
    q += 0.25 * noise2(seed, x / 14, y / 2);
    c = mix(c, dull, cover * fall(0.6, 1.2, q));
    return q < 0.95;
  });
}

void LessonBrush::stain(const Ellipse& e) {
  const uint32_t seed = seedOf(draw_);
  const bool blue = draw_.chance(0.5);
  const cv::Vec3f tone = blue ? cv::Vec3f(0.72F, 0.62F, 0.52F) : cv::Vec3f(0.5F, 0.48F, 0.46F);
  const auto cover = static_cast<float>(draw_.between(0.5, 1));
  eachPixel(e, 1.8, LessonLabel::stain,
            [&](cv::Vec3f& c, double q, double angle, double x, double y) {
              q *= 1 + 0.15 * noise1(seed, 2.2 * angle + 9);
              const float t =
                  cover * fall(0.7, 1.2, q) * (0.8F + 0.2F * cloud2(seed + 1, x / 30, y / 18));
              c = mix(c, c.mul(tone), t);
              return q < 1;
            });
}

// shade(colour, distance, along 0..1, place) gives the label of the pixel, `none` to leave it.
template <class Shade>
void LessonBrush::alongLine(const std::vector<Point>& line, double reachPx, const Shade& shade) {
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  for (const Point p : line) {
    x0 = std::min(x0, p.x - reachPx), x1 = std::max(x1, p.x + reachPx);
    y0 = std::min(y0, p.y - reachPx), y1 = std::max(y1, p.y + reachPx);
  }
  const cv::Rect box =
      cv::Rect(cv::Point(cvFloor(x0), cvFloor(y0)), cv::Point(cvCeil(x1) + 1, cvCeil(y1) + 1)) &
      cv::Rect({0, 0}, lesson_.bgr.size());
  for (int y = box.y; y < box.br().y; ++y)
    for (int x = box.x; x < box.br().x; ++x) {
      const Point p{static_cast<double>(x), static_cast<double>(y)};
      double along = 0;
      const double dist = toLine(line, p, along);
      if (dist > reachPx) continue;
      cv::Vec3b& pixel = lesson_.bgr(y, x);
      cv::Vec3f colour = cv::Vec3f(pixel) / 255.0F;
      const LessonLabel label = shade(colour, dist, along, p);
      for (int k = 0; k < 3; ++k) pixel[k] = cv::saturate_cast<uchar>(255 * colour[k]);
      if (label != LessonLabel::none) lesson_.labels(y, x) = static_cast<uchar>(label);
    }
}

void LessonBrush::check(const std::vector<Point>& line, double widthPx) {
  const uint32_t seed = seedOf(draw_);
  const double mouth = draw_.chance(0.5) ? 0 : draw_.between(0.2, 0.8),  // where it is widest
      gaps = draw_.chance(0.3) ? draw_.between(0.1, 0.5) : -1, dark = draw_.between(0.45, 0.97);
  const auto dust = static_cast<float>(draw_.between(0, 0.3));
  const auto warm = static_cast<float>(draw_.between(0, 0.06));
  alongLine(line, widthPx + 4, [&](cv::Vec3f& c, double dist, double t, Point p) {
    const double off = t < mouth ? (mouth - t) / mouth : (t - mouth) / (1 - mouth);
    const double open = gaps > 0 && noise1(seed + 3, 12 * t) > 1 - 2 * gaps ? 0.1 : 1;
    const double half = 0.5 * widthPx * open * (1 - 0.85 * off) * (1 + 0.3 * noise1(seed, p.x / 6));
    const float in =
        std::min(1.0F, static_cast<float>(2.5 * half)) * fall(half - 0.4, half + 0.5, dist);
    c = mix(c * (1 - dust * fall(half, half + 3, dist)),
            c * (1 - static_cast<float>(dark)) + cv::Vec3f(0, warm / 2, warm), in);
    return dist < std::max(half, 1.0) ? LessonLabel::check : LessonLabel::none;
  });
}

void LessonBrush::pith(const std::vector<Point>& line, double widthPx) {
  const uint32_t seed = seedOf(draw_);
  Ellipse place;
  place.centre = line[line.size() / 2];
  place.semiX = place.semiY = widthPx;
  const cv::Vec3f brown = brownOf(woodRound(place), draw_.between(0.3, 0.75));
  const double soft = draw_.between(0.5, 3);
  alongLine(line, widthPx + 6, [&](cv::Vec3f& c, double dist, double, Point p) {
    const double half = 0.5 * widthPx * (1 + 0.25 * noise1(seed, p.x / 25));
    const float light = 1 + 0.15F * noise2(seed + 1, p.x / 20, p.y / 1.5);
    c = mix(c, brown * light, 0.9F * fall(half - soft, half + soft, dist));
    return dist < half ? LessonLabel::pith : LessonLabel::none;
  });
}

}  // namespace rackside::synthetic
