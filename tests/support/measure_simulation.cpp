// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/measure_simulation.h"

#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>

#include "vision/measure/rigid_fit.h"

namespace rackside::simulation {
namespace {

using Normal = std::normal_distribution<double>;

Lens priorOf(const Setup& s) {
  Lens lens;
  lens.focalPx = s.lens.focalPx;
  lens.cx = (s.size.width - 1) / 2.0;
  lens.cy = (s.size.height - 1) / 2.0;
  lens.size = s.size;
  const double sigma[5] = {s.lens.focalSigma * lens.focalPx, s.lens.centreSigmaPx,
                           s.lens.centreSigmaPx, s.lens.k1Sigma, 0};
  for (int i = 0; i < 5; ++i) lens.covariance[i * 6] = sigma[i] * sigma[i];
  lens.source = "simulated";
  return lens;
}

Lens trueLens(const Setup& s, std::mt19937_64& random) {
  Lens lens = priorOf(s);
  lens.focalPx *= (1 + s.focalBias) * (1 + s.truth.focalSigma * Normal()(random));
  lens.cx += s.truth.centreSigmaPx * Normal()(random);
  lens.cy += s.truth.centreSigmaPx * Normal()(random);
  lens.k1 += s.truth.k1Sigma * Normal()(random);
  return lens;
}

double bowHeight(const Setup& s, double endsMm, Point p) {
  const double t = (p.x - s.lengthMm / 2) / (s.lengthMm / 2);
  return endsMm * t * t;
}

cv::Point2d projectPoint(const Draw& d, size_t photo, cv::Point3d board) {
  const Lens& l = d.lenses[photo];
  cv::Vec3d turn;
  cv::Rodrigues(d.turns[photo], turn);
  std::vector<cv::Point2d> px;
  cv::projectPoints(std::vector<cv::Point3d>{board}, turn, d.shifts[photo],
                    cv::Matx33d(l.focalPx, 0, l.cx, 0, l.focalPx, l.cy, 0, 0, 1),
                    cv::Vec4d(l.k1, l.k2, 0, 0), px);
  return px[0];
}

void aim(const Camera& camera, Draw& d) {
  // Backwards along the optical axis, from the aim to the camera.
  const cv::Vec3d back(std::sin(camera.tiltRad) * std::cos(camera.azimuthRad),
                       std::sin(camera.tiltRad) * std::sin(camera.azimuthRad),
                       std::cos(camera.tiltRad));
  const cv::Vec3d forward = -back;
  cv::Vec3d right(1, 0, 0);
  right -= right.dot(forward) * forward;
  right /= cv::norm(right);
  const cv::Vec3d down = forward.cross(right);
  const double c = std::cos(camera.rollRad), s = std::sin(camera.rollRad);
  const cv::Vec3d x = c * right + s * down, y = -s * right + c * down;
  const cv::Matx33d turn(x[0], x[1], x[2], y[0], y[1], y[2], forward[0], forward[1], forward[2]);
  const cv::Vec3d centre = cv::Vec3d(camera.aim.x, camera.aim.y, 0) + camera.distanceMm * back;
  d.turns.push_back(turn);
  d.shifts.push_back(-(turn * centre));
}

// What is drawn once for all photographs: the true heights, the print's scale, each stretch.
struct TrueTargets {
  double boardThickness = 0, cardThickness = 0, scale = 1;
  struct Own {
    double x = 1, y = 1, thickness = 0;
  };
  std::vector<Own> own;
};

TrueTargets drawTargets(const Setup& s, std::mt19937_64& random) {
  const AdjustmentOptions& o = s.options;
  TrueTargets t{o.boardThicknessMm, o.cardThicknessMm, o.cardScale, {}};
  if (s.drawThickness) {
    t.boardThickness += o.boardThicknessSigmaMm * Normal()(random);
    t.cardThickness += o.cardThicknessSigmaMm * Normal()(random);
  }
  if (s.drawScale) t.scale *= 1 + o.cardScaleSigma * Normal()(random);
  for (const PlacedTarget& p : s.targets) {
    const Target& target = p.target;
    TrueTargets::Own own{1 + target.stretchSigmaX * Normal()(random),
                         1 + target.stretchSigmaY * Normal()(random), t.cardThickness};
    if (target.thicknessMm)
      own.thickness = *target.thicknessMm + target.thicknessSigmaMm * Normal()(random);
    t.own.push_back(own);
  }
  return t;
}

cv::Point3d targetPoint(const Setup& s, const Draw& d, const TrueTargets& t, size_t i, Point p) {
  const PlacedTarget& placed = s.targets[i];
  const Point q = p - placed.target.centre;
  const double scale = placed.target.printed ? t.scale : 1;
  const Point at = apply(Pose{placed.at, placed.turnRad},
                         Point{scale * t.own[i].x * q.x, scale * t.own[i].y * q.y});
  const bool bench = placed.target.on.value_or(s.options.cardsOn) == CardsOn::bench;
  const double under = bench ? -t.boardThickness : bowHeight(s, d.bowEndsMm, at);
  return {at.x, at.y, under + t.own[i].thickness};
}

bool insidePicture(const Setup& s, cv::Point2d px, double margin) {
  return px.x > margin && px.y > margin && px.x < s.size.width - 1 - margin &&
         px.y < s.size.height - 1 - margin;
}

SeenTarget see(const Setup& s, const Draw& d, const TrueTargets& t, size_t photo, size_t i,
               std::mt19937_64& random) {
  SeenTarget seen{s.targets[i].target, {}};
  std::uniform_real_distribution<double> share(0, 1), far(5, 20), angle(0, 2 * CV_PI);
  for (size_t k = 0; k < seen.target.points.size(); ++k) {
    cv::Point2d px = projectPoint(d, photo, targetPoint(s, d, t, i, seen.target.points[k]));
    if (!insidePicture(s, px, 2)) continue;
    px += cv::Point2d(s.sigmaPx * Normal()(random), s.sigmaPx * Normal()(random));
    if (share(random) < s.outlierShare) {
      const double a = angle(random), r = far(random);
      px += cv::Point2d(r * std::cos(a), r * std::sin(a));
    }
    seen.points.push_back({static_cast<int>(k), px, s.toldSigmaPx});
  }
  return seen;
}

// The photographer steps back until the board and its references are in the true camera's picture.
double framingDistance(const Setup& s, Camera camera, const Lens& lens) {
  for (camera.distanceMm = 0.5 * s.lengthMm;; camera.distanceMm *= 1.005) {
    Draw d;
    aim(camera, d);
    d.lenses.push_back(lens);
    std::vector<Point> shown = {{0, 0}, {s.lengthMm, 0}, {s.lengthMm, s.widthMm}, {0, s.widthMm}};
    for (const PlacedTarget& t : s.targets)
      for (const Point p : t.target.points)
        shown.push_back(apply(Pose{t.at, t.turnRad}, p - t.target.centre));
    if (std::all_of(shown.begin(), shown.end(), [&](Point p) {
          return insidePicture(s, projectPoint(d, 0, {p.x, p.y, 0}), 24);
        }))
      return camera.distanceMm;
  }
}

}  // namespace

Draw draw(const Setup& s, std::mt19937_64& random) {
  Draw d;
  const Lens lens = trueLens(s, random);
  if (s.options.bow) d.bowEndsMm = s.options.bow->endsMm;
  if (s.drawBow && s.options.bow) d.bowEndsMm += s.options.bow->sigmaMm * Normal()(random);
  const TrueTargets t = drawTargets(s, random);
  for (size_t photo = 0; photo < s.cameras.size(); ++photo) {
    Camera camera = s.cameras[photo];
    if (camera.distanceMm == 0) camera.distanceMm = framingDistance(s, camera, lens);
    aim(camera, d);
    d.lenses.push_back(lens);
    Sight sight{s.size, {}, {}, priorOf(s), 0};
    for (size_t i = 0; i < s.targets.size(); ++i) {
      SeenTarget seen = see(s, d, t, photo, i, random);
      // A target cut by the border is left out, as the finder does.
      if (seen.points.size() == seen.target.points.size()) sight.others.push_back(std::move(seen));
    }
    d.sights.push_back(std::move(sight));
  }
  return d;
}

cv::Point2d truePx(const Setup& s, const Draw& d, size_t photo, Point board) {
  return projectPoint(d, photo, {board.x, board.y, bowHeight(s, d.bowEndsMm, board)});
}

namespace {

struct Reading {
  Point plane;
  double sigmaMm = 0;  // of the edge noise
};

// A face point read off all photographs that show it: the mean, each weighted by how finely it
// shows the point and fading out towards its border, as a blended face picture would have it.
Reading read(const Setup& s, const Draw& d, const Adjustment& adjustment, Point board,
             double edgeSigmaPx, std::mt19937_64& random) {
  Point sum;
  double weights = 0, squares = 0;
  for (size_t photo = 0; photo < d.sights.size(); ++photo) {
    cv::Point2d px = truePx(s, d, photo, board);
    if (!insidePicture(s, px, 1)) continue;
    const cv::Point2d step = truePx(s, d, photo, {board.x + 1, board.y}) - px;
    const double pxPerMm = cv::norm(step);
    const double border = std::min({px.x, px.y, s.size.width - 1 - px.x, s.size.height - 1 - px.y});
    px += cv::Point2d(edgeSigmaPx * Normal()(random), edgeSigmaPx * Normal()(random));
    const auto plane = adjustment.planeFromImage(photo, px);
    if (!plane) continue;
    const double w = std::min(1.0, border / (0.1 * s.size.width)) * pxPerMm * pxPerMm;
    sum = sum + w * *plane;
    weights += w;
    squares += w * w * edgeSigmaPx * edgeSigmaPx / (pxPerMm * pxPerMm);
  }
  if (weights <= 0) throw std::logic_error("simulation: a board point is in no photograph");
  return {(1 / weights) * sum, std::sqrt(squares) / weights};
}

double displacement(const std::array<double, 10>& c, Point p) {
  const double u = p.x / 1000, v = p.y / 1000;
  return c[0] + c[1] * u + c[2] * v + c[3] * u * u + c[4] * u * v + c[5] * v * v +
         c[6] * u * u * u + c[7] * u * u * v + c[8] * u * v * v + c[9] * v * v * v;
}

}  // namespace

double modeSigma(const std::vector<PlaneMode>& modes, PlaneMode::Cause cause, Point a, Point b) {
  const Point along = (1 / norm(b - a)) * (b - a);
  double variance = 0;
  for (const PlaneMode& m : modes) {
    if (m.cause != cause) continue;
    const Point d{displacement(m.dx, b) - displacement(m.dx, a),
                  displacement(m.dy, b) - displacement(m.dy, a)};
    variance += dot(d, along) * dot(d, along);
  }
  return std::sqrt(variance);
}

Lay layOf(const Setup& s, const Draw& d, const Adjustment& adjustment) {
  std::mt19937_64 none;
  const std::vector<Point> board = {
      {0, 0}, {s.lengthMm, 0}, {s.lengthMm, s.widthMm}, {0, s.widthMm}};
  Lay lay;
  for (const Point p : board) lay.region.push_back(read(s, d, adjustment, p, 0, none).plane);
  lay.boardFromPlane = measure::rigidFit(lay.region, board);
  return lay;
}

Outcome measure(const Setup& s, const Draw& d, const Adjustment& adjustment, double edgeSigmaPx,
                std::mt19937_64& random) {
  const Lay lay = layOf(s, d, adjustment);
  const auto modes = adjustment.planeModes(lay.region, lay.boardFromPlane);
  const auto distance = [&](Point a, Point b) {
    const Reading ra = read(s, d, adjustment, a, edgeSigmaPx, random);
    const Reading rb = read(s, d, adjustment, b, edgeSigmaPx, random);
    const double plane = modeSigma(modes, PlaneMode::Cause::adjustment, a, b);
    const double scale = modeSigma(modes, PlaneMode::Cause::cardScale, a, b);
    const double edge = std::hypot(ra.sigmaMm, rb.sigmaMm);
    return Error95{norm(ra.plane - rb.plane) - norm(a - b), 1.96 * std::hypot(plane, edge),
                   1.96 * std::sqrt(plane * plane + edge * edge + scale * scale)};
  };
  const double middle = s.widthMm / 2, end = s.lengthMm - 60;
  return {distance({0, middle}, {s.lengthMm, middle}),
          distance({s.lengthMm / 2, 0}, {s.lengthMm / 2, s.widthMm}),
          distance({end, 0}, {end, s.widthMm})};
}

}  // namespace rackside::simulation
