// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/photo_advice.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr double kGlareShare = 0.004;  // of the face blown out
constexpr double kDarkMean = 35;       // of 255
constexpr double kObliqueRad = 0.66;   // 38°: beyond it edges and codes blur away
constexpr double kCoarseMmPerPx = 1.1;
constexpr double kBlurPx = 2.2;  // one standard deviation

Point middleOf(const Polygon& p) {
  const Rect box = bounds(p);
  return {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

// Blur of a photograph, px: how wide the steepest step about a card's saddle is against its height.
double blurAt(const cv::Mat& bgr, cv::Point2d at) {
  const int r = 12;
  const cv::Rect box =
      cv::Rect(int(at.x) - r, int(at.y) - r, 2 * r + 1, 2 * r + 1) & cv::Rect({}, bgr.size());
  if (box.area() < 400) return 0;
  cv::Mat grey, gx, gy;
  cv::cvtColor(bgr(box), grey, cv::COLOR_BGR2GRAY);
  grey.convertTo(grey, CV_32F);
  cv::Sobel(grey, gx, CV_32F, 1, 0, 3, 1.0 / 8);
  cv::Sobel(grey, gy, CV_32F, 0, 1, 3, 1.0 / 8);
  cv::Mat magnitude;
  cv::magnitude(gx, gy, magnitude);
  double low, high, steepest;
  cv::minMaxLoc(grey, &low, &high);
  cv::minMaxLoc(magnitude, nullptr, &steepest);
  // A step of height h blurred by sigma is at its steepest h / (sigma √(2π)).
  return steepest > 1 ? (high - low) / (steepest * 2.507) : 0;
}

double blurOf(const cv::Mat& bgr, const FoundMarkers& markers) {
  std::vector<double> all;
  for (const FoundCard& card : markers.cards)
    for (size_t i = 0; i < card.saddles.size(); i += 3)
      if (const double b = blurAt(bgr, card.saddles[i].px); b > 0) all.push_back(b);
  if (all.empty()) return 0;
  std::nth_element(all.begin(), all.begin() + std::ptrdiff_t(all.size() / 2), all.end());
  return all[all.size() / 2];
}

std::string rounded(double value, int decimals) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

// Of the bare wood, cards left out.
void aboutLight(const FaceViews& views, const Polygon& outline, std::vector<std::string>& out) {
  const cv::Mat& bgr = views.photos.front().level(0);
  const std::vector<Polygon> cards = cardShadows(views, 0);
  const Rect box = bounds(outline);
  double all = 0, blown = 0, light = 0;
  const double step = std::max(6.0, std::max(box.width(), box.height()) / 300);
  for (double x = box.x0; x < box.x1; x += step)
    for (double y = box.y0; y < box.y1; y += step) {
      if (!contains(outline, {x, y})) continue;
      if (std::any_of(cards.begin(), cards.end(), [&](const Polygon& c) {
            return contains(c, {x, y});
          }))
        continue;
      const cv::Point px = views.adjustment->imageFromPlane(0, {x, y});
      if (!cv::Rect({}, bgr.size()).contains(px)) continue;
      const cv::Vec3b c = bgr.at<cv::Vec3b>(px);
      all += 1;
      blown += std::min({c[0], c[1], c[2]}) > 248;
      light += (c[0] + c[1] + c[2]) / 3.0;
    }
  if (all < 50) return;
  if (blown / all > kGlareShare)
    out.push_back("Glare: " + rounded(100 * blown / all, 1) +
                  " % of the face is blown out. Turn the light or the camera so that it does not "
                  "mirror, and switch the flash off.");
  if (light / all < kDarkMean)
    out.push_back("The face is very dark; marks will be hard to see. Use more light.");
}

}  // namespace

std::vector<std::string> photoWarnings(const FaceViews& views, const Polygon& outlinePlane,
                                       double mmPerPx, const std::vector<FoundMarkers>& markers) {
  std::vector<std::string> out;
  const std::string which = views.photos.size() > 1 ? " of a photograph" : "";
  const Point middle = middleOf(outlinePlane);
  for (size_t p = 0; p < views.photos.size(); ++p) {
    const double blur = blurOf(views.photos[p].level(0), markers[p]);
    if (blur > kBlurPx)
      out.push_back("Blur" + which + ": edges are " + rounded(2.35 * blur, 1) +
                    " pixels wide. Hold still, tap to focus on the board, or use more light.");
    const cv::Point3d eye = views.adjustment->cameraCentre(p);
    const double tilt = std::atan2(std::hypot(eye.x - middle.x, eye.y - middle.y), eye.z);
    if (views.photos.size() == 1 && tilt > kObliqueRad)
      out.push_back("The camera looks at the board " + rounded(tilt * 57.2958, 0) +
                    "° off the square. Stand more directly over it.");
  }
  aboutLight(views, outlinePlane, out);
  if (mmPerPx > kCoarseMmPerPx)
    out.push_back("One pixel covers " + rounded(mmPerPx, 1) +
                  " mm of the board. Come closer, or take several overlapping photographs.");
  return out;
}

}  // namespace rackside
