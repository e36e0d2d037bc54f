// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/lesson_faces.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "tests/support/wood_defects.h"

namespace rackside::synthetic {
namespace {

constexpr double kMm = 0.5, kThicknessMm = 27;
constexpr double kWidthMm = (kLessonCols - 1) * kMm, kHeightMm = (kLessonRows - 1) * kMm;

cv::Vec3f between(const cv::Vec3f& a, const cv::Vec3f& b, double t) {
  return a + static_cast<float>(t) * (b - a);
}

cv::Vec3f tinted(cv::Vec3f c, Draw& draw) {
  const double light = draw.between(0.7, 1.15);
  for (int k = 0; k < 3; ++k)
    c[k] = static_cast<float>(std::clamp(c[k] * light * draw.between(0.9, 1.1), 0.03, 0.97));
  return c;
}

// Between two of the species that are known by name, and off to one side of both.
Species anyWood(Draw& draw) {
  static const char* const names[] = {"cherry", "ash", "walnut", "maple", "oak"};
  const Species &a = speciesNamed(names[draw.whole(0, 4)]),
                &b = speciesNamed(names[draw.whole(0, 4)]);
  const double t = draw.unit();
  const auto real = [&](double low, double high) {
    return static_cast<float>(draw.between(low, high));
  };
  Species s = a;
  s.early = tinted(between(a.early, b.early, t), draw);
  s.late = between(s.early, tinted(between(a.late, b.late, t), draw), draw.between(0.2, 1.2));
  s.sapEarly = tinted(between(a.sapEarly, b.sapEarly, t), draw);
  s.sapLate =
      between(s.sapEarly, tinted(between(a.sapLate, b.sapLate, t), draw), draw.between(0.2, 1));
  s.rough = tinted(between(a.rough, b.rough, t), draw);
  s.lateSharpness = real(0.6, 6);
  // Bands of strong pores are what is most easily taken for checks.
  const bool strongPores = draw.chance(0.3);
  s.ringPorous = strongPores || draw.chance(0.3) ? real(0.7, 1) : real(0, 0.6);
  s.poreStrength = strongPores ? real(0.35, 0.75) : real(0.03, 0.5);
  s.poreLengthMm = real(3, 18), s.poreWidthMm = real(0.18, 0.5);
  s.rays = draw.chance(0.4) ? real(0, 0.5) : 0;
  s.toneFromRing = real(0.01, 0.1);
  return s;
}

WoodSpec anyLog(uint32_t seed, Draw& draw) {
  WoodSpec s;
  s.seed = seed;
  s.species = "oak";  // not looked at: the look is given
  s.pithYMm = draw.between(-120, 280), s.pithZMm = draw.between(-200, -15);
  s.pithSlopeZ = draw.between(-0.05, 0.05);
  s.ringMm = draw.between(1.2, 7);
  s.fibreSlope = draw.between(-0.05, 0.05);
  if (draw.chance(0.4)) s.sapRadiusMm = draw.between(60, 220);
  if (draw.chance(0.15)) s.curl = draw.between(0.2, 1), s.curlPitchMm = draw.between(7, 20);
  s.saw.kind = draw.chance(0.35) ? "none" : draw.chance(0.5) ? "band" : "circular";
  s.saw.pitchMm = draw.between(1.5, 9), s.saw.strength = draw.between(0.3, 1.5);
  s.saw.slantDeg = draw.between(-8, 8), s.saw.radiusMm = draw.between(200, 800);
  return s;
}

double logBetween(Draw& draw, double low, double high) {
  return std::exp(draw.between(std::log(low), std::log(high)));
}

struct Planned {
  LessonLabel label = LessonLabel::none;
  DefectSpec at;  // for knots: what turns the grain
};

LessonLabel drawKind(Draw& draw) {
  using L = LessonLabel;
  static constexpr L kinds[] = {
      L::soundKnot, L::soundKnot,   L::soundKnot,   L::soundKnot, L::looseKnot,  L::looseKnot,
      L::looseKnot, L::checkedKnot, L::checkedKnot, L::check,     L::check,      L::check,
      L::check,     L::check,       L::check,       L::gum,       L::gum,        L::pith,
      L::streak,    L::hole,        L::hole,        L::stain,     L::barkPocket, L::barkPocket,
      L::wormHole,  L::wormHole};
  return kinds[draw.whole(0, static_cast<int>(std::size(kinds)) - 1)];
}

bool isKnot(LessonLabel l) {
  return l == LessonLabel::soundKnot || l == LessonLabel::looseKnot ||
         l == LessonLabel::checkedKnot;
}

std::vector<Planned> planMarks(Draw& draw) {
  std::vector<Planned> marks;
  if (draw.chance(0.2)) return marks;  // clear wood is a lesson too
  const int count = draw.whole(1, 6);
  for (int i = 0; i < count; ++i) {
    Planned p;
    p.label = drawKind(draw);
    p.at.x = draw.between(0, kWidthMm), p.at.y = draw.between(0, kHeightMm);
    if (isKnot(p.label)) {
      p.at.alongMm = draw.chance(0.25) ? logBetween(draw, 1.2, 3) : logBetween(draw, 2.5, 32);
      p.at.acrossMm = p.at.alongMm;
      p.at.through = true;
      p.at.loose = p.label == LessonLabel::looseKnot;
      if (draw.chance(0.4))
        p.at.tiltX = draw.between(-1.2, 1.2), p.at.tiltY = draw.between(-0.8, 0.8);
    }
    marks.push_back(p);
  }
  return marks;
}

// Board millimetres to pixels of the lesson.
Point pixel(Point mm) {
  return {mm.x / kMm, (kHeightMm - mm.y) / kMm};
}

Ellipse lens(const WoodLog& log, Point at, double along, double across) {
  return {pixel(at), along / kMm, across / kMm, -log.fibreAngle(at.x, at.y, kThicknessMm)};
}

// A line that follows the fibres, or strays from them a little.
std::vector<Point> fibreLine(const WoodLog& log, Point from, double lengthMm, double stray) {
  std::vector<Point> line;
  const double step = 3;
  for (double s = 0; s <= lengthMm; s += step) {
    line.push_back(pixel(from));
    const double angle = log.fibreAngle(from.x, from.y, kThicknessMm) + stray;
    from = from + Point{step * std::cos(angle), step * std::sin(angle)};
  }
  if (line.size() < 2) line.push_back(line.front() + Point{2, 0});
  return line;
}

void paintChecks(const WoodLog& log, Point at, LessonBrush& brush, Draw& draw) {
  const double stray = draw.between(-0.04, 0.04);
  if (draw.chance(0.25)) {  // a family of short ones, as fast drying makes
    const int count = draw.whole(3, 9);
    for (int i = 0; i < count; ++i)
      brush.check(fibreLine(log, at + Point{draw.between(-40, 40), draw.between(-15, 15)},
                            logBetween(draw, 6, 45), stray),
                  draw.between(0.7, 2.2));
    return;
  }
  brush.check(fibreLine(log, at - Point{draw.between(0, 80), 0}, logBetween(draw, 12, 220), stray),
              logBetween(draw, 1, 5.5));
}

void paintWormHoles(Point at, LessonBrush& brush, Draw& draw) {
  const int count = draw.chance(0.4) ? 1 : draw.whole(2, 10);
  const double size = draw.between(0.7, 2.4);
  for (int i = 0; i < count; ++i) {
    const Point p = at + Point{draw.between(-18, 18), draw.between(-12, 12)};
    const double own = size * draw.between(0.8, 1.2);
    brush.hole({pixel(p), own / kMm, own * draw.between(0.75, 1) / kMm, draw.between(-1, 1)},
               LessonLabel::wormHole);
  }
}

void paintMark(const WoodLog& log, const Planned& p, LessonBrush& brush, Draw& draw) {
  const Point at{p.at.x, p.at.y};
  const auto lensOf = [&](double low, double high, double flat, double round) {
    const double along = logBetween(draw, low, high);
    return lens(log, at, along, std::max(0.7, along * draw.between(flat, round)));
  };
  switch (p.label) {
    case LessonLabel::soundKnot:
    case LessonLabel::looseKnot:
    case LessonLabel::checkedKnot: {
      Ellipse e = *log.section(p.at, kThicknessMm);
      const double squeeze = draw.between(0.6, 1);
      brush.knot({pixel(e.centre), e.semiX / kMm, squeeze * e.semiY / kMm, -e.angleRad}, p.label);
      break;
    }
    case LessonLabel::check:
      return paintChecks(log, at, brush, draw);
    case LessonLabel::wormHole:
      return paintWormHoles(at, brush, draw);
    case LessonLabel::gum:
      return brush.gum(lensOf(3, 30, 0.08, 0.45));
    case LessonLabel::barkPocket:
      return brush.bark(lensOf(3, 32, 0.12, 0.6));
    case LessonLabel::streak:
      return brush.streak(lensOf(6, 60, 0.04, 0.15));
    case LessonLabel::stain:
      return brush.stain(lensOf(8, 45, 0.3, 0.8));
    case LessonLabel::hole:
      return brush.hole(lensOf(2, 18, 0.4, 1), LessonLabel::hole);
    case LessonLabel::pith:
      return brush.pith(fibreLine(log, {-5, at.y}, kWidthMm + 10, 0), draw.between(4, 18));
    default:
      return;
  }
}

// What wood_defects.h painted in its own look.
void labelTrueMarks(const WoodLog& log, Lesson& lesson) {
  for (const Mark& m : trueMarks(log)) {
    const auto& e = std::get<Ellipse>(*m.onA);
    const Point c = pixel(e.centre);
    const auto label =
        m.soundness == Soundness::loose ? LessonLabel::looseKnot : LessonLabel::soundKnot;
    cv::ellipse(lesson.labels,
                cv::RotatedRect({float(c.x), float(c.y)},
                                {float(2 * e.semiX / kMm), float(2 * e.semiY / kMm)},
                                float(-e.angleRad * 180 / CV_PI)),
                static_cast<int>(label), cv::FILLED);
  }
}

PaintOptions anyPaint(Draw& draw) {
  PaintOptions paint;
  paint.mmPerPx = kMm;
  paint.grey = draw.chance(0.45) ? 0 : draw.between(0.1, 1);
  paint.look = anyWood(draw);
  paint.sawLight = draw.between(0.2, 1.3);
  return paint;
}

Lesson faceOf(const WoodLog& log, const PaintOptions& paint) {
  Lesson lesson;
  lesson.mmPerPx = kMm;
  lesson.bgr = paintFace(log, {0, 0, kWidthMm, kHeightMm}, kThicknessMm, paint)
                   .bgr(cv::Rect(0, 0, kLessonCols, kLessonRows))
                   .clone();
  lesson.labels = cv::Mat1b(lesson.bgr.size(), uchar(0));
  return lesson;
}

}  // namespace

Lesson paintLesson(uint32_t seed) {
  Draw draw(seed * 77ULL + 1234567);
  const std::vector<Planned> marks = planMarks(draw);
  WoodSpec spec = anyLog(seed, draw);
  for (const Planned& p : marks)
    if (isKnot(p.label)) spec.defects.push_back(p.at);
  const WoodLog log(spec, kThicknessMm);
  PaintOptions paint = anyPaint(draw);
  paint.defects = draw.chance(0.2);  // as wood_defects.h paints knots
  Lesson lesson = faceOf(log, paint);
  if (paint.defects) labelTrueMarks(log, lesson);
  LessonBrush brush(lesson, draw);
  for (const Planned& p : marks)
    if (!paint.defects || !isKnot(p.label)) paintMark(log, p, brush, draw);
  addDecoys(lesson, draw);
  cutEdges(lesson, draw);
  return lesson;
}

Lesson paintClearLesson(uint32_t seed) {
  Draw draw(seed * 77ULL + 7654321);
  const WoodLog log(anyLog(seed, draw), kThicknessMm);
  return faceOf(log, anyPaint(draw));
}

}  // namespace rackside::synthetic
