// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/quick_scene.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/quick_texture.h"
#include "vision/cards/card_model.h"

namespace rackside::test {
namespace {

constexpr double kMaskPxPerMm = 4, kWoodPxPerMm = 2, kGroundPxPerMm = 1;

struct Prism {  // stands on the bench
  Polygon polygon;
  double topMm = 0;  // height of its upper face (z); the main board's is 0
  cv::Mat mask, wood;
  Rect box;
  double barkMm = 0;
  double level = 1;
  bool covers(double x, double y) const {
    const int px = int((x - box.x0) * kMaskPxPerMm), py = int((y - box.y0) * kMaskPxPerMm);
    return px >= 0 && py >= 0 && px < mask.cols && py < mask.rows && mask.at<uchar>(py, px);
  }
};

cv::Vec3f texel(const cv::Mat& t, double x, double y) {
  const auto fold = [](int i, int n) {
    i = std::abs(i) % (2 * n);
    return i < n ? i : 2 * n - 1 - i;
  };
  return t.at<cv::Vec3f>(fold(int(std::floor(y)), t.rows), fold(int(std::floor(x)), t.cols));
}

Polygon boardPolygon(const QuickSceneOptions& o, uint64_t seed, double length, double width) {
  Polygon p;
  const double step = 2;
  const auto edge = [&](double x, int side) {
    const double u = 2 * x / length, crook = o.crookMm * (1 - u * u);
    const double half = (width + o.taperMm * u) / 2;
    const double wave = o.wavyMm * (0.7 * smoothNoise(x / 190, side * 10, seed + 20) +
                                    0.3 * smoothNoise(x / 45, side * 10, seed + 21));
    const double rough = 1.6 * o.roughMm * smoothNoise(x / 3, side * 10, seed + 22);
    return crook + side * (half + wave + rough);
  };
  const auto slant = [&](double y) { return o.endSlant * y; };
  for (double x = -length / 2; x <= length / 2; x += step) {
    const double y = edge(x, -1);
    p.push_back({x + slant(y), y});
  }
  for (double x = length / 2; x >= -length / 2; x -= step) {
    const double y = edge(x, 1);
    p.push_back({x + slant(y), y});
  }
  return p;
}

Prism prism(Polygon polygon, double topMm, const QuickSceneOptions& o, uint64_t seed) {
  Prism out;
  out.box = bounds(polygon);
  out.topMm = topMm;
  out.mask = cv::Mat::zeros(int(out.box.height() * kMaskPxPerMm) + 2,
                            int(out.box.width() * kMaskPxPerMm) + 2, CV_8U);
  std::vector<cv::Point> points;
  for (const Point& p : polygon)
    points.emplace_back(cvRound((p.x - out.box.x0) * kMaskPxPerMm * 16),
                        cvRound((p.y - out.box.y0) * kMaskPxPerMm * 16));
  cv::fillPoly(out.mask, std::vector<std::vector<cv::Point>>{points}, 255, 8, 4);
  out.wood = woodTexture(
      {int(out.box.width() * kWoodPxPerMm) + 1, int(out.box.height() * kWoodPxPerMm) + 1},
      kWoodPxPerMm, o, seed);
  out.polygon = std::move(polygon);
  return out;
}

Polygon moved(const Polygon& p, double dx, double dy, double angle) {
  return rackside::apply(Pose{{dx, dy}, angle}, p);
}

std::vector<Prism> furnish(const QuickSceneOptions& o) {
  std::vector<Prism> all;
  all.push_back(prism(boardPolygon(o, o.seed, o.lengthMm, o.widthMm), 0, o, o.seed));
  all.front().barkMm = o.barkMm;
  for (int i = 0; i < o.neighbours; ++i) {
    const int side = i % 2 ? -1 : 1;
    QuickSceneOptions n = o;
    n.crookMm = side * 2;
    n.taperMm = 6;
    const double length = o.lengthMm * (0.8 + 0.15 * i), width = o.widthMm * (0.7 + 0.2 * i);
    const double y = side * (o.widthMm / 2 + width / 2 + o.neighbourGapMm + o.crookMm + o.wavyMm +
                             o.taperMm / 2);
    all.push_back(prism(moved(boardPolygon(n, o.seed + 31 + uint64_t(i), length, width),
                              60.0 * side, y, 0.004 * side),
                        (i % 3 - 1) * 4.0, o, o.seed + 41 + uint64_t(i)));
    all.back().level = 0.96 + 0.05 * i;
  }
  if (o.clutter)
    for (int i = 0; i < 6; ++i) {
      const auto r = [&](int k) { return smoothNoise(i + 0.5, k + 0.5, o.seed + 60) * 0.5 + 0.5; };
      const double length = 120 + 500 * r(1), width = 30 + 90 * r(2);
      const int side = i % 2 ? 1 : -1;
      QuickSceneOptions n = o;
      n.wavyMm = 0;
      n.crookMm = 0;
      const double y = side * (o.widthMm / 2 + 60 + 200 * r(4) + o.wavyMm + length / 2);
      all.push_back(prism(moved(boardPolygon(n, o.seed + 61 + uint64_t(i), length, width),
                                o.lengthMm * (r(3) - 0.5), y, 6 * r(5)),
                          -o.thicknessMm * r(6), o, o.seed + 71 + uint64_t(i)));
    }
  return all;
}

struct Placed {
  CardModel model;
  Pose pose;  // plane from card
  cv::Mat picture;
};

std::vector<Placed> placeCards(const QuickSceneOptions& o) {
  std::vector<Placed> cards;
  for (int i = 0; i < o.cards; ++i) {
    Placed c;
    c.model = cardModel(i + 1);
    const double fraction = o.cards == 1 ? 0.5 : double(i) / (o.cards - 1);
    const double x =
        (fraction - 0.5) * (o.lengthMm - c.model.lengthMm - 120) - c.model.lengthMm / 2;
    double y = -c.model.heightMm / 2 + (i % 2 ? 0.1 : -0.1) * o.widthMm;
    if (o.cardOverEdge && i == 1) y = o.widthMm / 2 + o.crookMm - c.model.heightMm * 0.6;
    if (o.cardsOnBench)
      y = (i % 2 ? 1 : -1) * (o.widthMm / 2 + 70 + o.wavyMm) - c.model.heightMm / 2;
    c.pose = {{x, y}, (i - 1) * 0.03};
    c.picture = drawCard(c.model, kMaskPxPerMm);
    cards.push_back(std::move(c));
  }
  return cards;
}

class Tracer {
 public:
  Tracer(const QuickSceneOptions& o, std::vector<Prism> prisms, std::vector<Placed> cards)
      : o_(o), prisms_(std::move(prisms)), cards_(std::move(cards)) {
    ground_ = groundTexture({1500, 1500}, kGroundPxPerMm, o);
    const double c = std::cos(o.lightElevationRad);
    light_ = {c * std::cos(o.lightAzimuthRad), c * std::sin(o.lightAzimuthRad),
              std::sin(o.lightElevationRad)};
  }

  cv::Vec3f shade(const cv::Vec3d& eye, const cv::Vec3d& ray) const {
    const double highest = 6, lowest = -o_.thicknessMm;
    const auto at = [&](double z) { return eye + ray * ((z - eye[2]) / ray[2]); };
    cv::Vec3f cardColour;
    const double cardZ = o_.cardsOnBench ? lowest + o_.cardStockMm : o_.cardStockMm;
    if (!o_.cardsOnBench && onCard(at(cardZ), cardColour))
      return cardColour * float(0.25 + 0.75 * lit(at(cardZ), 0));
    const int steps = 20;
    double above = highest;
    for (int i = 0; i <= steps; ++i) {
      const double z = highest + (lowest - highest) * i / steps;
      const cv::Vec3d p = at(z);
      for (const Prism& b : prisms_)
        if (b.topMm >= z - 1e-9 && b.covers(p[0], p[1])) return surface(b, at, above, z);
      // thin sheets between two steps: the tops
      for (const Prism& b : prisms_)
        if (b.topMm < above && b.topMm > z) {
          const cv::Vec3d t = at(b.topMm);
          if (b.covers(t[0], t[1])) return surface(b, at, b.topMm, b.topMm);
        }
      above = z;
    }
    const cv::Vec3d p = at(lowest);
    if (o_.cardsOnBench && onCard(at(cardZ), cardColour))
      return cardColour * float(0.25 + 0.75 * lit(p, lowest));
    return texel(ground_, p[0] * kGroundPxPerMm, p[1] * kGroundPxPerMm) *
           float(0.3 + 0.7 * lit(p, lowest));
  }

 private:
  bool onCard(const cv::Vec3d& p, cv::Vec3f& colour) const {
    for (const Placed& c : cards_) {
      const double dx = p[0] - c.pose.origin.x, dy = p[1] - c.pose.origin.y;
      const double s = std::sin(c.pose.angleRad), k = std::cos(c.pose.angleRad);
      const double x = k * dx + s * dy, y = -s * dx + k * dy;
      const int px = int(x * kMaskPxPerMm), py = c.picture.rows - 1 - int(y * kMaskPxPerMm);
      if (x < 0 || y < 0 || px >= c.picture.cols || py < 0) continue;
      const double v = c.picture.at<uchar>(py, px * c.picture.channels());
      colour = cv::Vec3f::all(float(v > 128 ? 0.78 : 0.04));
      return true;
    }
    return false;
  }

  template <class At>
  cv::Vec3f surface(const Prism& b, const At& at, double above, double z) const {
    const cv::Vec3d top = at(b.topMm);
    if (b.covers(top[0], top[1])) {
      const double shine = o_.glare * std::exp(-std::pow((top[0] - 300) / 350, 2));
      return texel(b.wood, (top[0] - b.box.x0) * kWoodPxPerMm, (top[1] - b.box.y0) * kWoodPxPerMm) *
                 float(b.level * (0.3 + 0.7 * lit(top, b.topMm + 0.01))) +
             cv::Vec3f::all(float(shine));
    }
    const double zWall = std::min((above + z) / 2, b.topMm);
    const cv::Vec3d p = at(zWall);
    const cv::Vec2d n = wallNormal(b, p);
    const double facing = std::max(0.0, n[0] * light_[0] + n[1] * light_[1]);
    cv::Vec3f c =
        texel(b.wood, (p[0] - b.box.x0) * kWoodPxPerMm, (zWall - b.topMm) * kWoodPxPerMm + 40);
    if (b.barkMm > 0) c = c * 0.35f + cv::Vec3f(0.02f, 0.03f, 0.035f);
    return c * float(b.level * (0.22 + 0.75 * facing));
  }

  cv::Vec2d wallNormal(const Prism& b, const cv::Vec3d& p) const {
    cv::Vec2d n(0, 0);
    for (int k = 0; k < 16; ++k) {
      const double a = k * CV_PI / 8;
      if (!b.covers(p[0] + 3 * std::cos(a), p[1] + 3 * std::sin(a)))
        n += cv::Vec2d(std::cos(a), std::sin(a));
    }
    const double l = cv::norm(n);
    return l > 0 ? n / l : n;
  }

  double lit(const cv::Vec3d& p, double z) const {  // share of the light that arrives
    int clear = 0;
    const int samples = 5;
    for (int s = 0; s < samples; ++s) {
      const double spread = (s - samples / 2) * o_.lightSoftness;
      const double lx = light_[0] - spread * light_[1], ly = light_[1] + spread * light_[0];
      bool blocked = false;
      for (double up = 0.5; up < o_.thicknessMm + 6 && !blocked; up += 2.5)
        for (const Prism& b : prisms_)
          if (z + up < b.topMm &&
              b.covers(p[0] + lx / light_[2] * up, p[1] + ly / light_[2] * up)) {
            blocked = true;
            break;
          }
      clear += !blocked;
    }
    return double(clear) / samples;
  }

  const QuickSceneOptions& o_;
  std::vector<Prism> prisms_;
  std::vector<Placed> cards_;
  cv::Mat ground_;
  cv::Vec3d light_;
};

cv::Mat develop(cv::Mat linear, const QuickSceneOptions& o) {
  if (o.blurPx > 0) cv::GaussianBlur(linear, linear, {}, o.blurPx);
  cv::pow(cv::max(linear, 0), 1 / 2.2, linear);
  linear *= 255;
  cv::Mat noise(linear.size(), CV_32FC3);
  cv::RNG rng(o.seed);
  rng.fill(noise, cv::RNG::NORMAL, 0, o.noise);
  linear += noise;
  cv::Mat bgr;
  linear.convertTo(bgr, CV_8UC3);
  std::vector<uchar> bytes;
  cv::imencode(".jpg", bgr, bytes, {cv::IMWRITE_JPEG_QUALITY, o.jpegQuality});
  return cv::imdecode(bytes, cv::IMREAD_COLOR | cv::IMREAD_IGNORE_ORIENTATION);
}

}  // namespace

QuickScene describeQuickScene(const QuickSceneOptions& o) {
  QuickScene scene;
  const double height = o.lengthMm / o.fill * o.focalPx / std::max(o.size.width, o.size.height);
  const double roll = o.rollRad + (o.size.height > o.size.width ? CV_PI / 2 : 0);
  scene.camera =
      lookDown(o.size, o.focalPx, o.shiftMm, height, o.tiltRad, o.azimuthRad, roll, o.k1);
  scene.outline = boardPolygon(o, o.seed, o.lengthMm, o.widthMm);
  for (const Placed& c : placeCards(o)) {
    const double l = c.model.lengthMm, h = c.model.heightMm;
    scene.cards.emplace_back(c.model.number, c.pose);
    scene.cardOutlines.push_back(rackside::apply(c.pose, Polygon{{0, 0}, {l, 0}, {l, h}, {0, h}}));
  }
  return scene;
}

QuickScene renderQuickScene(const QuickSceneOptions& o) {
  QuickScene scene = describeQuickScene(o);
  const Tracer tracer(o, furnish(o), placeCards(o));
  cv::Mat linear(o.size, CV_32FC3);
  cv::parallel_for_({0, o.size.height}, [&](const cv::Range& rows) {
    for (int y = rows.start; y < rows.end; ++y)
      for (int x = 0; x < o.size.width; ++x) {
        cv::Vec3f sum(0, 0, 0);
        for (int s = 0; s < 2; ++s)  // two samples on a diagonal; the blur makes one area of them
          sum +=
              tracer.shade(scene.camera.centreMm,
                           scene.camera.ray({x - 0.25 + 0.5 * s, y - 0.25 + 0.5 * ((s + y) % 2)}));
        linear.at<cv::Vec3f>(y, x) = sum * 0.5f;
      }
  });
  scene.bgr = develop(linear, o);
  return scene;
}

}  // namespace rackside::test
