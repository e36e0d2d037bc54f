// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/propose_score.h"

#include <cstdio>
#include <numeric>
#include <opencv2/imgproc.hpp>

namespace rackside::test {
namespace {

constexpr double kNearPx = 5;  // a crack is found where a proposed line is this near
constexpr int kCrackLabel = 4;

struct Painted {
  cv::Rect box;
  cv::Mat mask;
};

Painted paint(const MarkShape& shape, cv::Size size) {
  cv::Mat all = cv::Mat::zeros(size, CV_8U);
  for (const Polygon& p : polygonsOf(shape)) {
    std::vector<cv::Point> points;
    for (const Point q : p) points.emplace_back(cvRound(q.x * 16), cvRound(q.y * 16));
    cv::fillPoly(all, std::vector<std::vector<cv::Point>>{points}, 255, cv::LINE_8, 4);
  }
  const cv::Rect box = cv::boundingRect(all);
  return {box, box.empty() ? cv::Mat() : all(box).clone()};
}

std::vector<cv::Point2d> alongLine(const std::vector<Point>& line) {
  std::vector<cv::Point2d> out;
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const int steps = std::max(1, cvRound(norm(line[i + 1] - line[i])));
    for (int s = 0; s < steps; ++s) {
      const Point p = line[i] + (double(s) / steps) * (line[i + 1] - line[i]);
      out.emplace_back(p.x, p.y);
    }
  }
  return out;
}

// The labelled crack's own middle line: its skeleton along the long axis, a point a pixel.
std::vector<cv::Point2d> middleLine(const LabelRegion& label) {
  Region r;
  r.box = label.box, r.mask = label.mask, r.areaPx = label.areaPx;
  const MarkShape line = shapeOf(r, RegionKind::crack);
  return alongLine(std::get<Stroke>(line).points);
}

double shareNear(const std::vector<cv::Point2d>& points, const cv::Mat& distance, double nearPx) {
  if (points.empty()) return 0;
  double near = 0;
  for (const cv::Point2d p : points) {
    const int x = std::clamp(cvRound(p.x), 0, distance.cols - 1),
              y = std::clamp(cvRound(p.y), 0, distance.rows - 1);
    near += distance.at<float>(y, x) <= nearPx;
  }
  return near / double(points.size());
}

// Bark and worm holes are not among the labels: what is proposed as one counts as a knot or hole.
bool isKnotOrHole(RegionKind k) {
  return familyOf(k) == RegionFamily::round && k != RegionKind::none;
}

// The masks' numbers are the kinds' own, but for 10, an overgrown knot.
RegionKind kindOfLabel(int label) {
  if (label == 10) return RegionKind::liveKnot;
  return label >= 0 && label < 10 ? static_cast<RegionKind>(label) : RegionKind::none;
}

// IoU ≥ 0.3, or the middle lies in it and the area is within a factor of 3.
bool countsFor(const Painted& p, const LabelRegion& label) {
  const cv::Rect both = p.box & label.box;
  const double own = cv::countNonZero(p.mask);
  if (own < 1) return false;
  const double shared =
      both.empty()
          ? 0
          : cv::countNonZero(p.mask(both - p.box.tl()) & label.mask(both - label.box.tl()));
  if (shared / (own + label.areaPx - shared) >= 0.3) return true;
  const cv::Moments m = cv::moments(p.mask, true);
  const cv::Point middle(p.box.x + cvRound(m.m10 / m.m00), p.box.y + cvRound(m.m01 / m.m00));
  return label.box.contains(middle) && label.mask.at<uint8_t>(middle - label.box.tl()) &&
         own < 3 * label.areaPx && label.areaPx < 3 * own;
}

cv::Mat distanceTo(const cv::Mat& mask) {
  cv::Mat distance;
  if (cv::countNonZero(mask) == 0) return cv::Mat(mask.size(), CV_32F, cv::Scalar(1e6));
  cv::distanceTransform(~mask, distance, cv::DIST_L2, 5);
  return distance;
}

cv::Mat drawnLines(const std::vector<ProposedMark>& proposed, cv::Size size) {
  cv::Mat lines = cv::Mat::zeros(size, CV_8U);
  for (const ProposedMark& p : proposed)
    if (const auto* s = std::get_if<Stroke>(&p.shape))
      for (const cv::Point2d q : alongLine(s->points))
        cv::circle(lines, {cvRound(q.x), cvRound(q.y)}, 0, 255);
  return lines;
}

}  // namespace

int ProposeTally::falseOnes() const {
  return std::accumulate(proposed.begin(), proposed.end(), 0) -
         std::accumulate(right.begin(), right.end(), 0);
}

void ProposeTally::add(const ProposeTally& o) {
  pictures += o.pictures, cleanPictures += o.cleanPictures, falseOnClean += o.falseOnClean;
  told.insert(told.end(), o.told.begin(), o.told.end());
  crackPx += o.crackPx, crackFoundPx += o.crackFoundPx;
  for (size_t k = 0; k < labelled.size(); ++k) {
    labelled[k] += o.labelled[k], found[k] += o.found[k], foundAsItself[k] += o.foundAsItself[k];
    proposed[k] += o.proposed[k], right[k] += o.right[k];
  }
}

ProposeTally scoreProposals(const std::vector<ProposedMark>& proposed,
                            const LabelledWood& picture) {
  ProposeTally t;
  const cv::Size size = picture.labels.size();
  const std::vector<LabelRegion> labels = labelRegions(picture.labels);
  t.pictures = 1;
  t.cleanPictures = labels.empty() ? 1 : 0;
  const cv::Mat toCracks = distanceTo(picture.labels == kCrackLabel),
                toLines = distanceTo(drawnLines(proposed, size));
  std::vector<uint8_t> found(labels.size()), asItself(labels.size());
  for (const ProposedMark& p : proposed) {
    const Painted painted = paint(p.shape, size);
    const auto* line = std::get_if<Stroke>(&p.shape);
    bool right = line && shareNear(alongLine(line->points), toCracks, kNearPx) >= 0.5;
    for (size_t i = 0; i < labels.size(); ++i) {
      if (painted.box.empty() || !countsFor(painted, labels[i])) continue;
      const RegionKind kind = kindOfLabel(labels[i].label);
      right = true;
      found[i] |= p.kind == kind || (isKnotOrHole(p.kind) && isKnotOrHole(kind));
      asItself[i] |= p.kind == kind;
    }
    ++t.proposed[size_t(p.kind)];
    t.right[size_t(p.kind)] += right;
    t.told.push_back({p.confidence, right});
    if (!right && labels.empty()) ++t.falseOnClean;
  }
  for (size_t i = 0; i < labels.size(); ++i) {
    const auto k = size_t(kindOfLabel(labels[i].label));
    ++t.labelled[k];
    if (labels[i].label == kCrackLabel) {
      const auto points = middleLine(labels[i]);
      const double share = shareNear(points, toLines, kNearPx);
      t.crackPx += double(points.size());
      t.crackFoundPx += share * double(points.size());
      found[i] = asItself[i] = share >= 0.5;
    }
    t.found[k] += found[i];
    t.foundAsItself[k] += asItself[i];
  }
  return t;
}

void printProposeTally(const ProposeTally& t) {
  static constexpr const char* names[] = {"",      "live knot", "dead knot",   "knot with check",
                                          "crack", "gum",       "pith",        "streak",
                                          "hole",  "stain",     "bark pocket", "worm hole"};
  std::printf("%-16s %9s %8s %10s %9s %10s\n", "kind", "labelled", "recall", "as itself",
              "proposed", "precision");
  const auto share = [](double part, double whole) { return whole > 0 ? 100 * part / whole : 0.0; };
  for (size_t k = 1; k < t.labelled.size(); ++k)
    std::printf("%-16s %9d %7.1f%% %9.1f%% %9d %9.1f%%\n", names[k], t.labelled[k],
                share(t.found[k], t.labelled[k]), share(t.foundAsItself[k], t.labelled[k]),
                t.proposed[k], share(t.right[k], t.proposed[k]));
  int knotsFound = 0, knotsAsThemselves = 0;
  for (size_t k = 1; k <= 3; ++k) knotsFound += t.found[k], knotsAsThemselves += t.foundAsItself[k];
  const int knots = t.labelled[1] + t.labelled[2] + t.labelled[8];
  std::printf("live and dead knots and holes found: %.1f %% of %d\n",
              share(t.found[1] + t.found[2] + t.found[8], knots), knots);
  std::printf("kind right among found knots (sound, loose, with check): %.1f %% of %d\n",
              share(knotsAsThemselves, knotsFound), knotsFound);
  std::printf("length of cracks found within 5 px: %.1f %% of %.0f px\n",
              share(t.crackFoundPx, t.crackPx), t.crackPx);
  std::printf("false proposals: %.3f a picture (%d pictures), %.3f a clean picture (%d)\n",
              double(t.falseOnes()) / std::max(1, t.pictures), t.pictures,
              double(t.falseOnClean) / std::max(1, t.cleanPictures), t.cleanPictures);
}

void printReliability(const ProposeTally& t) {
  std::printf("%-12s %9s %9s %7s\n", "said", "proposed", "mean said", "right");
  for (int tenth = 0; tenth < 10; ++tenth) {
    int count = 0, right = 0;
    double said = 0;
    for (const auto& [confidence, isRight] : t.told) {
      if (std::min(9, int(10 * confidence)) != tenth) continue;
      ++count, right += isRight, said += confidence;
    }
    if (count > 0)
      std::printf("%3d to %3d %% %9d %8.1f%% %6.1f%%\n", 10 * tenth, 10 * tenth + 10, count,
                  100 * said / count, 100.0 * right / count);
  }
}

}  // namespace rackside::test
