// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/start.h"

#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>

#include "vision/measure/projection.h"
#include "vision/measure/rigid_fit.h"
#include "vision/measure/solve.h"

namespace rackside::measure {
namespace {

constexpr size_t kRefined = 4;             // proposals of a photograph that are refined
constexpr double kNearlyAsGood = 15;       // of cost: exp(-15) as likely
constexpr double kCapSquared = 100 * 100;  // of a whitened residual while proposals are compared

// One photograph's points of one target: about its centre in mm, and on the ray at z = 1.
struct Glimpse {
  int piece = 0;
  double height = 0;
  std::vector<Point> points;
  std::vector<cv::Point2d> rays;
};

std::vector<cv::Point2d> raysOf(const std::vector<cv::Point2d>& px, const Lens& lens) {
  const cv::Matx33d camera(lens.focalPx, 0, lens.cx, 0, lens.focalPx, lens.cy, 0, 0, 1);
  std::vector<cv::Point2d> rays;
  cv::undistortPoints(px, rays, camera, cv::Vec4d(lens.k1, lens.k2, 0, 0));
  return rays;
}

std::vector<Glimpse> glimpsesOf(const Scene& scene, const Unknowns& u, int photo) {
  std::vector<Glimpse> glimpses;
  for (int piece = 0; piece < static_cast<int>(scene.pieces.size()); ++piece) {
    Glimpse g{piece, heightOf(scene, u, piece), {}, {}};
    std::vector<cv::Point2d> px;
    const double scale = scene.pieces[piece].target.printed ? u.shared[cardScale] : 1;
    for (const Observation& o : scene.seen)
      if (o.photo == photo && o.piece == piece) {
        g.points.push_back(scale * scene.pieces[piece].points[o.index]);
        px.push_back(o.px);
      }
    if (px.empty()) continue;
    g.rays = raysOf(px, scene.lensPriors[scene.lensOf[photo]]);
    glimpses.push_back(std::move(g));
  }
  return glimpses;
}

// Spread of the points across their own main direction, mm: near 0 for points on one line.
double thinnestSpread(const std::vector<Point>& points) {
  if (points.size() < 3) return 0;
  Point mean;
  for (const Point p : points) mean = mean + p;
  mean = (1.0 / static_cast<double>(points.size())) * mean;
  double xx = 0, xy = 0, yy = 0;
  for (const Point p : points) {
    const Point d = p - mean;
    xx += d.x * d.x, xy += d.x * d.y, yy += d.y * d.y;
  }
  const double half = (xx + yy) / 2;
  const double least = half - std::hypot((xx - yy) / 2, xy);
  return std::sqrt(std::max(0.0, least / static_cast<double>(points.size())));
}

bool fixesAPlane(const Glimpse& g) {
  return g.points.size() >= 4 && thinnestSpread(g.points) > 2;
}

// cameraFromPlane poses that this target alone proposes; its centre becomes the plane's origin.
std::vector<PoseBlock> proposalsOf(const Glimpse& g) {
  std::vector<cv::Point3d> object;
  for (const Point p : g.points) object.emplace_back(p.x, p.y, 0);
  std::vector<cv::Mat> turns, shifts;
  cv::solvePnPGeneric(object, g.rays, cv::Matx33d::eye(), cv::noArray(), turns, shifts, false,
                      cv::SOLVEPNP_IPPE);
  std::vector<PoseBlock> poses;
  for (size_t i = 0; i < turns.size(); ++i) {
    cv::Matx33d rotation;
    cv::Rodrigues(turns[i], rotation);
    const cv::Vec3d turn(turns[i]);
    const cv::Vec3d shift = cv::Vec3d(shifts[i]) - rotation * cv::Vec3d(0, 0, g.height);
    const cv::Vec3d centre = -(rotation.t() * shift);
    if (!cv::checkRange(cv::Mat(shift)) || centre[2] <= g.height) continue;
    poses.push_back({turn[0], turn[1], turn[2], shift[0], shift[1], shift[2]});
  }
  return poses;
}

std::optional<PlaceBlock> placeOnPlane(const Glimpse& g, const cv::Matx33d& rotation,
                                       const cv::Vec3d& shift) {
  std::vector<Point> onPlane;
  const cv::Vec3d centre = -(rotation.t() * shift);
  for (const cv::Point2d& ray : g.rays) {
    const cv::Vec3d along = rotation.t() * cv::Vec3d(ray.x, ray.y, 1);
    if (std::abs(along[2]) < 1e-9) return std::nullopt;
    const double t = (g.height - centre[2]) / along[2];
    if (t <= 0) return std::nullopt;
    onPlane.push_back({centre[0] + t * along[0], centre[1] + t * along[1]});
  }
  const Pose pose = rigidFit(g.points, onPlane);
  return PlaceBlock{pose.origin.x, pose.origin.y, pose.angleRad};
}

std::optional<PlaneView> viewFrom(const Scene& scene, const std::vector<Glimpse>& glimpses,
                                  const PoseBlock& camera) {
  PlaneView view{camera, {}, 0};
  view.places.resize(scene.pieces.size());
  cv::Matx33d rotation;
  cv::Rodrigues(cv::Vec3d(camera[0], camera[1], camera[2]), rotation);
  const cv::Vec3d shift(camera[3], camera[4], camera[5]);
  for (const Glimpse& g : glimpses) {
    view.places[g.piece] = placeOnPlane(g, rotation, shift);
    if (!view.places[g.piece]) return std::nullopt;
  }
  return view;
}

// The scene reduced to one photograph; what all share is held.
Scene sceneOfPhoto(const Scene& scene, int photo) {
  Scene one;
  one.sizes = {scene.sizes[photo]};
  one.lensOf = {0};
  one.lensPriors = {scene.lensPriors[scene.lensOf[photo]]};
  one.pieces = scene.pieces;
  one.sharedPrior = scene.sharedPrior;
  std::vector<int> count(scene.pieces.size(), 0);
  for (Observation o : scene.seen)
    if (o.photo == photo) {
      o.photo = 0;
      one.seen.push_back(o);
      ++count[o.piece];
    }
  one.gauge = static_cast<int>(std::max_element(count.begin(), count.end()) - count.begin());
  return one;
}

Unknowns unknownsFrom(const Scene& one, const PlaneView& view) {
  Unknowns u = priorUnknowns(one);
  u.cameras[0] = view.camera;
  for (size_t i = 0; i < view.places.size(); ++i)
    if (view.places[i]) u.places[i] = *view.places[i];
  return u;
}

double roughCost(const Scene& one, const PlaneView& view) {
  const std::vector<cv::Point2d> residuals = residualsPx(one, unknownsFrom(one, view));
  double cost = 0;
  for (size_t i = 0; i < residuals.size(); ++i) {
    const double s = one.seen[i].sigmaPx;
    cost += std::min(residuals[i].dot(residuals[i]) / (s * s), kCapSquared);
  }
  return cost;
}

bool refine(const Scene& one, PlaneView& view) {
  Unknowns u = unknownsFrom(one, view);
  const std::optional<double> cost = solve(one, u, {true, 1, 100, 1e-6});
  if (!cost) return false;
  view.camera = u.cameras[0];
  view.cost = *cost;
  for (size_t i = 0; i < view.places.size(); ++i)
    if (view.places[i]) view.places[i] = u.places[i];
  return true;
}

bool sameTilt(const PlaneView& a, const PlaneView& b) {
  cv::Matx33d ra, rb;
  cv::Rodrigues(cv::Vec3d(a.camera[0], a.camera[1], a.camera[2]), ra);
  cv::Rodrigues(cv::Vec3d(b.camera[0], b.camera[1], b.camera[2]), rb);
  return ra.col(2).dot(rb.col(2)) > std::cos(0.003);
}

}  // namespace

Result<std::vector<PlaneView>> viewsOf(const Scene& scene, int photo) {
  const Scene one = sceneOfPhoto(scene, photo);
  const std::vector<Glimpse> glimpses = glimpsesOf(scene, priorUnknowns(scene), photo);
  std::vector<PlaneView> views;
  for (const Glimpse& g : glimpses) {
    if (!fixesAPlane(g)) continue;
    for (const PoseBlock& camera : proposalsOf(g))
      if (auto view = viewFrom(scene, glimpses, camera)) {
        view->cost = roughCost(one, *view);
        views.push_back(*view);
      }
  }
  const auto cheaper = [](const PlaneView& a, const PlaneView& b) { return a.cost < b.cost; };
  std::stable_sort(views.begin(), views.end(), cheaper);
  if (views.size() > kRefined) views.resize(kRefined);
  std::erase_if(views, [&](PlaneView& v) { return !refine(one, v); });
  std::stable_sort(views.begin(), views.end(), cheaper);
  if (views.empty())
    return Error{"Photograph " + std::to_string(photo + 1) +
                 " shows no card well enough to see how the board lies: four corners that are not "
                 "on one line are the least. Take it again with a card whole in the picture."};
  std::vector<PlaneView> kept = {views.front()};
  for (const PlaneView& v : views)
    if (v.cost < views.front().cost + kNearlyAsGood && !sameTilt(v, views.front())) {
      kept.push_back(v);
      break;
    }
  return kept;
}

namespace {

struct Overlap {  // of a photograph with what is already laid out
  int photo = -1;
  size_t points = 0;
  std::vector<Point> here, laid;
};

Point placed(const PlaceBlock& place, Point p) {
  return apply(Pose{{place[placeX], place[placeY]}, place[placeTurn]}, p);
}

Overlap overlapOf(const Scene& scene, const PlaneView& view, int photo,
                  const std::vector<std::optional<PlaceBlock>>& laid) {
  Overlap o{photo, 0, {}, {}};
  for (size_t piece = 0; piece < laid.size(); ++piece) {
    if (!laid[piece] || !view.places[piece]) continue;
    for (const Point p : scene.pieces[piece].points) {
      o.here.push_back(placed(*view.places[piece], p));
      o.laid.push_back(placed(*laid[piece], p));
    }
    for (const Observation& seen : scene.seen)
      o.points += seen.photo == photo && seen.piece == static_cast<int>(piece);
  }
  return o;
}

// The camera of `view` once its plane is moved by laidFromHere.
PoseBlock moved(const PoseBlock& camera, const Pose& laidFromHere) {
  cv::Matx33d rotation, result;
  cv::Rodrigues(cv::Vec3d(camera[0], camera[1], camera[2]), rotation);
  const double c = std::cos(laidFromHere.angleRad), s = std::sin(laidFromHere.angleRad);
  const cv::Matx33d hereFromLaidTurn(c, s, 0, -s, c, 0, 0, 0, 1);
  result = rotation * hereFromLaidTurn;
  const cv::Vec3d shift = cv::Vec3d(camera[3], camera[4], camera[5]) -
                          result * cv::Vec3d(laidFromHere.origin.x, laidFromHere.origin.y, 0);
  cv::Vec3d turn;
  cv::Rodrigues(result, turn);
  return {turn[0], turn[1], turn[2], shift[0], shift[1], shift[2]};
}

void layOut(Unknowns& u, std::vector<std::optional<PlaceBlock>>& laid, const PlaneView& view,
            int photo, const Pose& laidFromHere) {
  u.cameras[photo] = moved(view.camera, laidFromHere);
  for (size_t piece = 0; piece < laid.size(); ++piece) {
    if (laid[piece] || !view.places[piece]) continue;
    const PlaceBlock& here = *view.places[piece];
    const Point at = apply(laidFromHere, Point{here[placeX], here[placeY]});
    laid[piece] = PlaceBlock{at.x, at.y, here[placeTurn] + laidFromHere.angleRad};
  }
}

std::string namesSeen(const Scene& scene, const PlaneView& view) {
  std::string names;
  for (size_t i = 0; i < view.places.size(); ++i)
    if (view.places[i]) names += (names.empty() ? "" : ", ") + scene.pieces[i].target.name;
  return names;
}

Error unlinked(const Scene& scene, const std::vector<PlaneView>& views,
               const std::vector<bool>& done) {
  std::string text;
  for (size_t i = 0; i < views.size(); ++i)
    if (!done[i]) {
      text = "Photograph " + std::to_string(i + 1) + " (" + namesSeen(scene, views[i]) +
             ") shares no card with the others";
      break;
    }
  return Error{text +
               ": take one more photograph that shows one of its cards together with a card "
               "of the others, or leave it out."};
}

}  // namespace

Result<Unknowns> chain(const Scene& scene, const std::vector<PlaneView>& viewOfPhoto) {
  Unknowns u = priorUnknowns(scene);
  std::vector<std::optional<PlaceBlock>> laid(scene.pieces.size());
  std::vector<bool> done(viewOfPhoto.size(), false);
  std::vector<int> ofGauge(viewOfPhoto.size(), 0);
  for (const Observation& o : scene.seen) ofGauge[o.photo] += o.piece == scene.gauge;
  const auto root = std::max_element(ofGauge.begin(), ofGauge.end()) - ofGauge.begin();
  const PlaceBlock& gauge = *viewOfPhoto[root].places[scene.gauge];
  const double turn = -gauge[placeTurn];  // brings the gauge target to the origin, unturned
  const Point origin = apply(Pose{{0, 0}, turn}, Point{gauge[placeX], gauge[placeY]});
  layOut(u, laid, viewOfPhoto[root], static_cast<int>(root), {-1 * origin, turn});
  done[root] = true;
  for (size_t n = 1; n < viewOfPhoto.size(); ++n) {
    Overlap best;
    for (size_t photo = 0; photo < viewOfPhoto.size(); ++photo) {
      if (done[photo]) continue;
      Overlap o = overlapOf(scene, viewOfPhoto[photo], static_cast<int>(photo), laid);
      if (o.points > best.points) best = std::move(o);
    }
    if (best.photo < 0) return unlinked(scene, viewOfPhoto, done);
    layOut(u, laid, viewOfPhoto[best.photo], best.photo, rigidFit(best.here, best.laid));
    done[best.photo] = true;
  }
  for (size_t i = 0; i < laid.size(); ++i) u.places[i] = *laid[i];
  return u;
}

}  // namespace rackside::measure
