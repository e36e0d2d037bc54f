// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/card_scene.h"

#include <cmath>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

namespace rackside::test {
namespace {

constexpr int kSamples = 4;  // a pixel and direction
constexpr double kCardPxPerMm = 8;

cv::Matx33d cardRaster(const PlacedCard& placed, cv::Mat& drawn) {
  double height = 0;
  if (placed.tag) {
    const TagModel tag = tagModel(placed.number);
    drawn = drawTag(tag, kCardPxPerMm);
    height = tag.heightMm;
  } else {
    const CardModel card = cardModel(placed.number);
    drawn = drawCard(card, kCardPxPerMm);
    height = card.heightMm;
  }
  // Pixel (c, r) of the drawing has its centre at ((c + ½) / s, height − (r + ½) / s) mm.
  const double s = 1 / kCardPxPerMm;
  return {s, 0, 0.5 * s, 0, -s, height - 0.5 * s, 0, 0, 1};
}

cv::Matx33d matrixOf(const Pose& pose) {
  const double c = std::cos(pose.angleRad), s = std::sin(pose.angleRad);
  return {c, -s, pose.origin.x, s, c, pose.origin.y, 0, 0, 1};
}

cv::Rect boxOf(const cv::Matx33d& h, cv::Size drawn, cv::Size picture) {
  std::vector<cv::Point2f> corners;
  for (const auto& [x, y] :
       {std::pair{0, 0}, {drawn.width, 0}, {drawn.width, drawn.height}, {0, drawn.height}}) {
    const cv::Vec3d p = h * cv::Vec3d(x - 0.5, y - 0.5, 1);
    corners.emplace_back(float(p[0] / p[2]), float(p[1] / p[2]));
  }
  cv::Rect box = cv::boundingRect(corners);
  box = cv::Rect(box.x - 2, box.y - 2, box.width + 4, box.height + 4);
  return box & cv::Rect({0, 0}, picture);
}

void paintOne(cv::Mat& picture, const cv::Matx33d& imageFromPlane, const PlacedCard& placed,
              const Spoil& spoil) {
  cv::Mat drawn;
  const cv::Matx33d cardFromDrawn = cardRaster(placed, drawn);
  const cv::Matx33d imageFromDrawn =
      imageFromPlane * matrixOf(placed.planeFromCard) * cardFromDrawn;
  const cv::Rect box = boxOf(imageFromDrawn, drawn.size(), picture.size());
  if (box.empty()) return;
  // Sample k of a pixel lies at (k + ½) / kSamples − ½ from its centre.
  const double n = kSamples;
  const cv::Matx33d fineFromImage(n, 0, n * (0.5 - box.x) - 0.5, 0, n, n * (0.5 - box.y) - 0.5, 0,
                                  0, 1);
  const cv::Size fineSize(box.width * kSamples, box.height * kSamples);
  const cv::Matx33d fineFromDrawn = fineFromImage * imageFromDrawn;
  cv::Mat fine, cover, mean, share;
  cv::warpPerspective(drawn, fine, fineFromDrawn, fineSize, cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::warpPerspective(cv::Mat(drawn.size(), CV_8U, cv::Scalar(255)), cover, fineFromDrawn, fineSize,
                      cv::INTER_NEAREST, cv::BORDER_CONSTANT, cv::Scalar(0));
  cv::resize(fine, mean, box.size(), 0, 0, cv::INTER_AREA);
  cv::resize(cover, share, box.size(), 0, 0, cv::INTER_AREA);
  cv::Mat part = picture(box);
  for (int r = 0; r < part.rows; ++r)
    for (int c = 0; c < part.cols; ++c) {
      const double ink = spoil.black + (spoil.white - spoil.black) * mean.at<uchar>(r, c) / 255.0;
      const double a = share.at<uchar>(r, c) / 255.0;
      uchar& pixel = part.at<uchar>(r, c);
      pixel = cv::saturate_cast<uchar>((1 - a) * pixel + a * ink);
    }
}

// Streaks along x: noise stretched over many scales.
cv::Mat streaks(cv::Size size, double alongPx, double acrossPx, std::mt19937& random) {
  cv::Mat small(std::max(2, int(size.height / acrossPx)), std::max(2, int(size.width / alongPx)),
                CV_32F);
  cv::RNG rng(random());
  rng.fill(small, cv::RNG::NORMAL, 0, 1);
  cv::Mat large;
  cv::resize(small, large, size, 0, 0, cv::INTER_CUBIC);
  return large;
}

cv::Mat woodPicture(cv::Size size, std::mt19937& random) {
  cv::Mat wood(size, CV_32F, cv::Scalar(120));
  wood += 25 * streaks(size, 600, 40, random) + 14 * streaks(size, 200, 6, random) +
          8 * streaks(size, 50, 2, random);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 4; ++i) {  // knots
    const cv::Point at(int(unit(random) * size.width), int(unit(random) * size.height));
    for (int ring = 8; ring > 0; --ring)
      cv::ellipse(wood, at, {ring * 6, ring * 4}, 20, 0, 360, cv::Scalar(ring % 2 ? 50 : 85), 3);
  }
  return wood;
}

cv::Mat floorPicture(cv::Size size, std::mt19937& random) {
  cv::Mat floor(size, CV_32F, cv::Scalar(130));
  floor += 12 * streaks(size, 90, 90, random) + 10 * streaks(size, 3, 3, random);
  std::uniform_int_distribution<int> tile(30, 140);
  const int pitch = tile(random);
  for (int y = 0; y < size.height; y += pitch)
    cv::line(floor, {0, y}, {size.width, y + pitch / 3}, cv::Scalar(60), 3);
  for (int x = 0; x < size.width; x += pitch)
    cv::line(floor, {x, 0}, {x - pitch / 3, size.height}, cv::Scalar(60), 3);
  return floor;
}

cv::Mat textPicture(cv::Size size, std::mt19937& random) {
  cv::Mat page(size, CV_32F, cv::Scalar(220));
  std::uniform_int_distribution<int> letter('!', '~'), length(4, 30);
  std::uniform_real_distribution<double> scale(0.4, 2.5);
  for (int y = 20; y < size.height; y += 30) {
    std::string line;
    for (int i = length(random); i > 0; --i) line += char(letter(random));
    cv::putText(page, line, {int(random() % 60), y}, cv::FONT_HERSHEY_DUPLEX, scale(random),
                cv::Scalar(20), 2, cv::LINE_AA);
  }
  std::uniform_int_distribution<int> side(8, 60);
  for (int i = 0; i < 40; ++i) {  // dark boxes and chequers, the likeliest to be taken for codes
    const cv::Point at(int(random() % unsigned(size.width)), int(random() % unsigned(size.height)));
    const int s = side(random);
    cv::rectangle(page, {at.x - 6, at.y - 6, s + 12, s + 12}, cv::Scalar(220), cv::FILLED);
    cv::rectangle(page, {at.x, at.y, s, s}, cv::Scalar(20), cv::FILLED);
    for (int k = 0; k < 8; ++k)
      cv::rectangle(page,
                    {at.x + s / 6 * (1 + int(random() % 4)), at.y + s / 6 * (1 + int(random() % 4)),
                     s / 6, s / 6},
                    cv::Scalar(220), cv::FILLED);
  }
  return page;
}

}  // namespace

cv::Matx33d PlaneCamera::imageFromPlane() const {
  // Axes of the camera seen from the plane: it looks down, x right; tilt turns it about an axis in
  // the plane, roll about its own axis.
  const cv::Matx33d down(1, 0, 0, 0, -1, 0, 0, 0, -1);
  const double ax = -std::sin(tiltTowardsRad), ay = std::cos(tiltTowardsRad);
  cv::Matx33d tilt;
  cv::Rodrigues(cv::Vec3d(ax * tiltRad, ay * tiltRad, 0), tilt);
  cv::Matx33d roll;
  cv::Rodrigues(cv::Vec3d(0, 0, rollRad), roll);
  const cv::Matx33d cameraFromPlane = roll * down * tilt;
  const cv::Vec3d at(target.x, target.y, 0);
  const cv::Vec3d shift = cv::Vec3d(0, 0, distanceMm) - cameraFromPlane * at;
  const cv::Matx33d k(focalPx, 0, (size.width - 1) / 2.0, 0, focalPx, (size.height - 1) / 2.0, 0, 0,
                      1);
  const cv::Matx33d& r = cameraFromPlane;
  return k * cv::Matx33d(r(0, 0), r(0, 1), shift[0], r(1, 0), r(1, 1), shift[1], r(2, 0), r(2, 1),
                         shift[2]);
}

cv::Mat groundPicture(Ground ground, cv::Size size, std::mt19937& random) {
  cv::Mat picture;
  switch (ground) {
    case Ground::wood:
      picture = woodPicture(size, random);
      break;
    case Ground::floor:
      picture = floorPicture(size, random);
      break;
    case Ground::text:
      picture = textPicture(size, random);
      break;
    case Ground::noise:
      picture = cv::Mat(size, CV_32F, cv::Scalar(128)) + 25 * streaks(size, 1, 1, random) +
                30 * streaks(size, 4, 4, random);
      break;
    case Ground::plain:
      picture = cv::Mat(size, CV_32F, cv::Scalar(140));
      break;
  }
  cv::Mat grey;
  picture.convertTo(grey, CV_8U);
  return grey;
}

void paintCards(cv::Mat& picture, const cv::Matx33d& imageFromPlane,
                const std::vector<PlacedCard>& cards, const Spoil& spoil) {
  for (const PlacedCard& card : cards) paintOne(picture, imageFromPlane, card, spoil);
}

void spoilPicture(cv::Mat& picture, const Spoil& spoil, std::mt19937& random) {
  cv::Mat light;
  picture.convertTo(light, CV_32F);
  for (int r = 0; r < light.rows; ++r) {
    float* row = light.ptr<float>(r);
    for (int c = 0; c < light.cols; ++c)
      row[c] *= float(1 - spoil.falloff * 0.5 * (double(r) / light.rows + double(c) / light.cols));
  }
  if (spoil.blurPx > 0) cv::GaussianBlur(light, light, {}, spoil.blurPx);
  cv::Mat noise(light.size(), CV_32F);
  cv::RNG rng(random());
  rng.fill(noise, cv::RNG::NORMAL, 0, spoil.noise);
  light += noise;
  light.convertTo(picture, CV_8U);
}

}  // namespace rackside::test
