// SPDX-License-Identifier: GPL-3.0-or-later
// What lies on wood and is no mark of it.
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <random>

#include "tests/support/crayon_brush.h"
#include "tests/support/lesson_faces.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {
namespace {

void shade(cv::Vec3b& pixel, float light) {
  for (int k = 0; k < 3; ++k) pixel[k] = cv::saturate_cast<uchar>(light * float(pixel[k]));
}

cv::Mat3b printed(Draw& draw, double pxPerMm) {
  cv::Mat grey;
  if (draw.chance(0.5)) {
    grey = drawCard(cardModel(draw.whole(1, 8)), pxPerMm);
  } else if (draw.chance(0.6)) {
    grey = drawTag(tagModel(draw.whole(1, 40)), pxPerMm);
  } else {  // a label of print and bars
    grey = cv::Mat(draw.whole(40, 120), draw.whole(60, 200), CV_8U, cv::Scalar(235));
    for (int x = 8; x + 8 < grey.cols; x += draw.whole(2, 7))
      cv::rectangle(grey, {x, 6, draw.whole(1, 3), grey.rows / 2}, 30, cv::FILLED);
    cv::putText(grey, "No " + std::to_string(draw.whole(1, 999)), {8, grey.rows - 8},
                cv::FONT_HERSHEY_SIMPLEX, 0.6, 40, 1, cv::LINE_AA);
  }
  cv::Mat bgr;
  cv::cvtColor(grey, bgr, cv::COLOR_GRAY2BGR);
  bgr.convertTo(bgr, -1, draw.between(0.6, 0.95), draw.between(0, 25));
  return bgr;
}

void layPaper(Lesson& lesson, Draw& draw) {
  const cv::Mat3b paper = printed(draw, 1 / lesson.mmPerPx);
  const cv::Point2f middle(float(draw.between(0, lesson.bgr.cols)),
                           float(draw.between(0, lesson.bgr.rows)));
  const double turn = draw.chance(0.5) ? draw.between(-10, 10) : draw.between(-180, 180);
  cv::Mat m = cv::getRotationMatrix2D({float(paper.cols) / 2, float(paper.rows) / 2}, turn, 1);
  m.at<double>(0, 2) += middle.x - paper.cols / 2.0;
  m.at<double>(1, 2) += middle.y - paper.rows / 2.0;
  cv::Mat3b laid;
  cv::Mat1b where, shadow;
  cv::warpAffine(paper, laid, m, lesson.bgr.size(), cv::INTER_AREA, cv::BORDER_REPLICATE);
  cv::warpAffine(cv::Mat1b(paper.size(), uchar(255)), where, m, lesson.bgr.size());
  m.at<double>(0, 2) += draw.between(-6, 6), m.at<double>(1, 2) += draw.between(-6, 6);
  cv::warpAffine(cv::Mat1b(paper.size(), uchar(255)), shadow, m, lesson.bgr.size());
  cv::GaussianBlur(shadow, shadow, {}, draw.between(0.6, 4));
  const auto deep = static_cast<float>(draw.between(0.1, 0.6) / 255);
  for (int y = 0; y < lesson.bgr.rows; ++y)
    for (int x = 0; x < lesson.bgr.cols; ++x)
      shade(lesson.bgr(y, x), 1 - deep * float(shadow(y, x)));
  laid.copyTo(lesson.bgr, where > 127);
  lesson.labels.setTo(0, where > 127);
}

// Lumber crayon or chalk, and ink, paint or pencil in any hand.
void drawOn(Lesson& lesson, Draw& draw) {
  const cv::Mat3b before = lesson.bgr.clone();
  std::mt19937_64 random(static_cast<uint64_t>(draw.whole(1, 1 << 30)));
  const double mm = lesson.mmPerPx;
  const cv::Point2d at(draw.between(0, lesson.bgr.cols * mm),
                       draw.between(0, lesson.bgr.rows * mm));
  if (draw.chance(0.65)) {
    const test::BrushStroke stroke{static_cast<test::BrushStroke::Kind>(draw.whole(0, 3)), at,
                                   draw.between(25, 140)};
    test::drawCrayon(lesson.bgr, mm, stroke, static_cast<test::BrushColour>(draw.whole(0, 3)),
                     random);
    if (draw.chance(0.25))  // a black stick
      cv::scaleAdd(cv::Mat(cv::abs(lesson.bgr - before)), -draw.between(0.7, 1.5), before,
                   lesson.bgr);
  } else {
    const double d = draw.between(10, 110);
    const cv::Scalar ink(d * draw.between(0.8, 1.6), d * draw.between(0.8, 1.2),
                         d * draw.between(0.8, 1.8));
    const cv::Point from(cvRound(at.x / mm), cvRound(at.y / mm));
    const int thick = draw.whole(1, 5);
    if (draw.chance(0.5)) {
      cv::putText(lesson.bgr, std::to_string(draw.whole(1, 99)) + (draw.chance(0.5) ? "A" : "x"),
                  from, cv::FONT_HERSHEY_SCRIPT_SIMPLEX, draw.between(0.8, 3), ink, thick,
                  cv::LINE_AA);
    } else {  // a line square across or askew, never along the fibres
      const double way = draw.between(0.35, 2.8), half = draw.between(20, 150);
      const cv::Point reach(cvRound(half * std::cos(way)), cvRound(half * std::sin(way)));
      cv::line(lesson.bgr, from - reach, from + reach, ink, thick, cv::LINE_AA);
    }
  }
  cv::Mat change, most;
  cv::absdiff(before, lesson.bgr, change);
  cv::Mat planes[3];
  cv::split(change, planes);
  most = cv::max(cv::max(planes[0], planes[1]), planes[2]);
  lesson.labels.setTo(0, most > 40);
}

// A shadow with one straight border, a patch of glare, or a band of light across.
void lightAndShade(Lesson& lesson, Draw& draw) {
  const double way = draw.between(0, CV_PI), c = std::cos(way), s = std::sin(way);
  const double at = draw.between(-100, 100), soft = draw.between(1, 40),
               wide = draw.chance(0.5) ? 1e6 : draw.between(20, 150);
  const auto light =
      static_cast<float>(draw.chance(0.7) ? draw.between(0.45, 0.9) : draw.between(1.1, 1.6));
  for (int y = 0; y < lesson.bgr.rows; ++y)
    for (int x = 0; x < lesson.bgr.cols; ++x) {
      const double d = c * (x - lesson.bgr.cols / 2.0) + s * (y - lesson.bgr.rows / 2.0) - at;
      const double in = std::min(d, wide - d) / soft;
      const float t = smooth01(static_cast<float>(std::clamp(in + 0.5, 0.0, 1.0)));
      shade(lesson.bgr(y, x), 1 + t * (light - 1));
    }
}

void specks(Lesson& lesson, Draw& draw) {
  const int count = draw.whole(5, 80);
  for (int i = 0; i < count; ++i) {
    const cv::Point p(draw.whole(0, lesson.bgr.cols - 1), draw.whole(0, lesson.bgr.rows - 1));
    shade(lesson.bgr(p), static_cast<float>(draw.between(0.5, 1.5)));
  }
}

}  // namespace

void addDecoys(Lesson& lesson, Draw& draw) {
  if (draw.chance(0.15)) layPaper(lesson, draw);
  while (draw.chance(0.2)) drawOn(lesson, draw);
  if (draw.chance(0.25)) lightAndShade(lesson, draw);
  if (draw.chance(0.2)) specks(lesson, draw);
}

void cutEdges(Lesson& lesson, Draw& draw) {
  if (!draw.chance(0.35)) return;
  const auto seed = static_cast<uint32_t>(draw.whole(1, 1 << 30));
  const bool end = draw.chance(0.3), far = draw.chance(0.5);
  const int length = end ? lesson.bgr.rows : lesson.bgr.cols,
            depth = end ? lesson.bgr.cols : lesson.bgr.rows;
  const double slope = draw.between(-0.05, 0.05),
               waver = draw.chance(0.3) ? draw.between(1, 8) : 0.4,
               inset = draw.between(8, 0.4 * depth), soft = draw.between(1, 12);
  const float light = static_cast<float>(draw.between(0.02, 0.9)),
              rough = static_cast<float>(draw.between(0.02, 0.4)),
              arris = static_cast<float>(draw.between(0.6, 1.3));
  const cv::Vec3f tone(static_cast<float>(draw.between(0.8, 1.2)), 1,
                       static_cast<float>(draw.between(0.8, 1.2)));
  for (int i = 0; i < length; ++i) {
    const double edge = inset + slope * i + waver * noise1(seed, i / 40.0);
    for (int j = 0; j < depth; ++j) {
      const int at = far ? depth - 1 - j : j;
      const cv::Point p = end ? cv::Point(at, i) : cv::Point(i, at);
      if (j > edge + 2) break;
      if (j > edge) {
        shade(lesson.bgr(p), arris);
        continue;
      }
      const float shadow = 1 - 0.6F * std::exp(-static_cast<float>((edge - j) / soft));
      const cv::Vec3f c =
          tone * (255 * light * shadow * (1 + rough * cloud2(seed + 1, p.x / 12.0, p.y / 12.0)));
      lesson.bgr(p) = {cv::saturate_cast<uchar>(c[0]), cv::saturate_cast<uchar>(c[1]),
                       cv::saturate_cast<uchar>(c[2])};
      lesson.labels(p) = kNotWood;
    }
  }
}

}  // namespace rackside::synthetic
