// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/painted_check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/crayon_brush.h"
#include "tests/support/noise.h"
#include "tests/support/photo_wear.h"
#include "tests/support/wood_defects.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {
namespace {

constexpr double kThicknessMm = 27;
constexpr double kNearMm = 3;  // a check is found where a proposed line is this near

DefectSpec defect(const char* kind, double x, double y, double along, double across) {
  DefectSpec d;
  d.kind = kind;
  d.x = x, d.y = y, d.alongMm = along, d.acrossMm = across;
  return d;
}

WoodSpec boardOf(const std::string& species, uint32_t seed, double lengthMm, double widthMm,
                 Draw& draw) {
  WoodSpec s;
  s.species = species;
  s.seed = seed;
  s.pithYMm = draw.between(-60, widthMm + 60), s.pithZMm = draw.between(-130, -40);
  s.ringMm = draw.between(1.5, 5);
  s.saw.kind = draw.chance(0.3) ? "none" : draw.chance(0.5) ? "band" : "circular";
  s.saw.pitchMm = draw.between(2.5, 7);
  if (draw.chance(0.4)) s.sapRadiusMm = draw.between(110, 180);
  // One a stretch, so that none covers another.
  for (double x = 90; x < lengthMm - 330; x += 170) {
    const double y = draw.between(25, widthMm - 25);
    if (draw.chance(0.6)) {
      s.defects.push_back(defect("knot", x, y, draw.between(3, 20), 0));
      s.defects.back().loose = draw.chance(0.5);
    } else {
      s.defects.push_back(defect("check", x, y, draw.between(40, 140), draw.between(0.9, 2.5)));
    }
  }
  return s;
}

void lay(PaintedCheck& check, const cv::Mat& grey, cv::Point2d atMm, const char* what) {
  cv::Mat bgr;
  cv::cvtColor(grey, bgr, cv::COLOR_GRAY2BGR);
  bgr.convertTo(bgr, -1, 0.84, 12);
  const cv::Point at(cvRound(atMm.x / check.face.mmPerPx), cvRound(atMm.y / check.face.mmPerPx));
  const cv::Rect place = cv::Rect(at, bgr.size()) & cv::Rect({0, 0}, check.face.bgr.size());
  bgr(cv::Rect({0, 0}, place.size())).copyTo(check.face.bgr(place));
  check.decoys.push_back({what, Ellipse{{place.x + place.width / 2.0, place.y + place.height / 2.0},
                                        0.7 * place.width,
                                        0.7 * place.height,
                                        0}});
}

}  // namespace

PaintedCheck paintedCheck(const std::string& species, uint32_t seed, double lengthMm,
                          double widthMm) {
  Draw draw(seed * 991ULL + 77);
  const WoodLog log(boardOf(species, seed, lengthMm, widthMm, draw), kThicknessMm);
  PaintOptions paint;
  paint.mmPerPx = 0.5;
  paint.grey = seed % 2 ? draw.between(0.3, 0.9) : 0;
  const PaintedWood painted = paintFace(log, {0, 0, lengthMm, widthMm}, kThicknessMm, paint);
  PaintedCheck check;
  check.face.mmPerPx = paint.mmPerPx;
  check.face.bgr = painted.bgr;
  const std::array<double, 6> pixels{2, 0, 0, 0, -2, 2 * widthMm};
  for (Mark m : trueMarks(log)) {
    m.onA = carried(*m.onA, pixels);
    check.truth.push_back(m);
  }
  const double free = lengthMm - 200;
  lay(check, drawCard(cardModel(1 + int(seed % 20)), 2), {free, 10}, "card");
  lay(check, drawTag(tagModel(1 + int(seed % 90)), 2), {free + 20, widthMm - 60}, "tag");
  std::mt19937_64 random(seed);
  const cv::Point2d at(free - 60, widthMm / 2);
  test::drawCrayon(check.face.bgr, 0.5, {test::BrushStroke::Kind::cross, at, 60},
                   static_cast<test::BrushColour>(seed % 4), random);
  check.decoys.push_back({"crayon", Ellipse{{2 * at.x, 2 * at.y}, 90, 90, 0}});
  PhotoWear wear = randomWear(seed);
  wear.blurPx = draw.between(0.5, 1.1);  // of a telephone's picture at 0.5 to 1 mm a pixel
  check.face.bgr = worn(check.face.bgr, wear);
  check.face.wood = cv::Mat(check.face.bgr.size(), CV_8U, cv::Scalar(255));
  return check;
}

namespace {

bool inside(const Ellipse& e, Point p) {
  return std::hypot((p.x - e.centre.x) / e.semiX, (p.y - e.centre.y) / e.semiY) < 1;
}

Point middleOf(const MarkShape& shape) {
  if (const auto* e = std::get_if<Ellipse>(&shape)) return e->centre;
  const Polygons ps = polygonsOf(shape);
  if (ps.empty()) return {};
  const Rect b = bounds(ps.front());
  return {(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
}

// Of the line's points, those that the shape comes near.
double shareNear(const std::vector<Point>& line, const std::vector<ProposedMark>& marks,
                 double nearPx) {
  double near = 0;
  for (const Point p : line)
    near += std::any_of(marks.begin(), marks.end(), [&](const ProposedMark& m) {
      const Polygons grown = offset(polygonsOf(m.shape), nearPx);
      return std::any_of(grown.begin(), grown.end(),
                         [&](const Polygon& g) { return contains(g, p); });
    });
  return line.empty() ? 0 : near / double(line.size());
}

struct Tally {
  int knots = 0, knotsFound = 0, falseOnes = 0, onDecoys = 0;
  double checkMm = 0, checkFoundMm = 0, clearMm2 = 0;
};

bool meets(const MarkShape& proposed, const MarkShape& truth, double nearPx) {
  const Polygons grown = offset(polygonsOf(truth), nearPx);
  return !intersect(grown, polygonsOf(proposed)).empty();
}

void score(const PaintedCheck& c, const MarkModel& model, Tally& t) {
  RunControl run;
  const auto marks = proposeMarks(c.face, model, run);
  const double mm = c.face.mmPerPx;
  for (const Mark& truth : c.truth) {
    if (const auto* line = std::get_if<Stroke>(&*truth.onA)) {
      double length = 0;
      for (size_t i = 0; i + 1 < line->points.size(); ++i)
        length += mm * norm(line->points[i + 1] - line->points[i]);
      t.checkMm += length;
      t.checkFoundMm += length * shareNear(line->points, marks, kNearMm / mm);
      continue;
    }
    const auto& e = std::get<Ellipse>(*truth.onA);
    ++t.knots;
    t.knotsFound += std::any_of(marks.begin(), marks.end(), [&](const ProposedMark& m) {
      const double part = area(polygonsOf(m.shape)) / (CV_PI * e.semiX * e.semiY);
      return familyOf(m.kind) == RegionFamily::round && inside(e, middleOf(m.shape)) &&
             part > 0.33 && part < 3;
    });
  }
  for (const ProposedMark& m : marks) {
    const Point at = middleOf(m.shape);
    if (std::any_of(c.decoys.begin(), c.decoys.end(),
                    [&](const auto& d) { return inside(d.second, at); })) {
      ++t.onDecoys;
    } else if (std::none_of(c.truth.begin(), c.truth.end(), [&](const Mark& truth) {
                 return meets(m.shape, *truth.onA, 2 * kNearMm / mm);
               })) {
      ++t.falseOnes;
    }
  }
  t.clearMm2 += mm * mm * double(c.face.bgr.total());
}

}  // namespace

void scorePaintedChecks(const MarkModel& model) {
  std::printf("\n%-8s %6s %8s %13s %10s %10s\n", "painted", "knots", "found", "checks found",
              "false/m2", "on decoys");
  Tally all;
  const auto line = [](const char* name, const Tally& t) {
    std::printf("%-8s %6d %7.1f%% %12.1f%% %10.2f %10d\n", name, t.knots,
                100.0 * t.knotsFound / std::max(1, t.knots),
                100.0 * t.checkFoundMm / std::max(1.0, t.checkMm),
                1e6 * t.falseOnes / std::max(1.0, t.clearMm2), t.onDecoys);
  };
  for (const char* species : {"cherry", "ash", "walnut", "maple", "oak", "beech"}) {
    Tally t;
    for (uint32_t seed = 1; seed <= 8; ++seed)
      score(paintedCheck(species, 40000 + seed, 1800, 200), model, t);
    line(species, t);
    all.knots += t.knots, all.knotsFound += t.knotsFound, all.falseOnes += t.falseOnes;
    all.onDecoys += t.onDecoys, all.checkMm += t.checkMm, all.checkFoundMm += t.checkFoundMm;
    all.clearMm2 += t.clearMm2;
  }
  line("all", all);
}

}  // namespace rackside::synthetic
