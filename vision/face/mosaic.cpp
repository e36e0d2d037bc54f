// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/mosaic.h"

#include <algorithm>
#include <numeric>
#include <opencv2/imgproc.hpp>

#include "vision/face/seam.h"

namespace rackside {
namespace {

constexpr double kPlanMmPerPx = 2;   // seams and exposures are planned on a coarse picture
constexpr double kExposureMm = 120;  // over which one photograph's light passes into the next
constexpr int kTilePx = 512;

struct Sheet {  // one photograph on the coarse raster
  size_t photo = 0;
  cv::Mat bgr, valid;       // CV_32FC3, CV_8U
  double from = 0, to = 0;  // columns it covers
};

struct MosaicPlan {
  PlaneRaster raster;
  std::vector<Sheet> sheets;        // along the raster
  std::vector<cv::Mat> masks;       // CV_32F, which share of each place a sheet gives
  std::vector<cv::Mat> correction;  // CV_32FC3, added to its colours
};

PlaneRaster coarser(const PlaneRaster& fine, double factor) {
  PlaneRaster out;
  out.size = {int(std::ceil(fine.size.width / factor)), int(std::ceil(fine.size.height / factor))};
  out.planeFromPixel = fine.planeFromPixel;
  for (int r = 0; r < 2; ++r) {
    out.planeFromPixel(r, 0) *= factor;
    out.planeFromPixel(r, 1) *= factor;
    out.planeFromPixel(r, 2) +=
        (factor - 1) / 2 * (fine.planeFromPixel(r, 0) + fine.planeFromPixel(r, 1));
  }
  return out;
}

std::vector<Sheet> sheetsAlong(FaceViews& views, const PlaneRaster& raster) {
  std::vector<Sheet> sheets;
  for (size_t p = 0; p < views.photos.size(); ++p) {
    Warped w = warp(views.photos[p], ImageGrid(*views.adjustment, p, raster), raster.size,
                    cv::INTER_LINEAR);
    cv::Mat columns;  // a column counts when the photograph shows most of it
    cv::reduce(w.valid, columns, 0, cv::REDUCE_AVG, CV_32F);
    Sheet s{p, {}, w.valid, 1e9, -1};
    for (int x = 0; x < columns.cols; ++x)
      if (columns.at<float>(0, x) > 250) s.from = std::min(s.from, double(x)), s.to = x;
    if (s.to < s.from) continue;
    w.bgr.convertTo(s.bgr, CV_32FC3);
    sheets.push_back(std::move(s));
  }
  std::sort(sheets.begin(), sheets.end(),
            [](const Sheet& a, const Sheet& b) { return a.from + a.to < b.from + b.to; });
  return sheets;
}

// Leaves out sheets whose neighbours on both sides already meet over them.
void dropNeedless(std::vector<Sheet>& sheets) {
  for (size_t i = 1; i + 1 < sheets.size();) {
    const double overlap = sheets[i - 1].to - sheets[i + 1].from;
    const double needed = 300 / kPlanMmPerPx;
    if (overlap > needed && sheets[i].to - sheets[i].from < overlap)
      sheets.erase(sheets.begin() + std::ptrdiff_t(i));
    else
      ++i;
  }
}

// Labels: sheet i up to the seam with sheet i + 1.
std::vector<cv::Mat> masksOf(const std::vector<Sheet>& sheets, cv::Size size) {
  cv::Mat label = cv::Mat::zeros(size, CV_8U);
  for (size_t i = 1; i < sheets.size(); ++i) {
    const Sheet &a = sheets[i - 1], &b = sheets[i];
    const std::vector<int> seam = seamBetween(a.bgr, a.valid, b.bgr, b.valid);
    for (int y = 0; y < size.height; ++y)
      label.row(y).colRange(seam[size_t(y)], size.width).setTo(double(i));
    for (int y = 0; y < size.height; ++y)  // where the chosen one does not reach
      for (int x = 0; x < size.width; ++x) {
        uchar& l = label.at<uchar>(y, x);
        if (l == i && !b.valid.at<uchar>(y, x) && a.valid.at<uchar>(y, x)) l = uchar(i - 1);
        if (l == i - 1 && !a.valid.at<uchar>(y, x) && b.valid.at<uchar>(y, x)) l = uchar(i);
      }
  }
  std::vector<cv::Mat> masks;
  for (size_t i = 0; i < sheets.size(); ++i) {
    cv::Mat mask = label == double(i);
    mask.convertTo(mask, CV_32F, 1 / 255.0);
    masks.push_back(mask);
  }
  return masks;
}

cv::Mat smoothOver(const cv::Mat& picture, const cv::Mat& weight, double sigma) {
  cv::Mat w3, top, bottom;
  cv::merge(std::vector<cv::Mat>{weight, weight, weight}, w3);
  cv::GaussianBlur(picture.mul(w3), top, {}, sigma);
  cv::GaussianBlur(w3, bottom, {}, sigma);
  return top / (bottom + cv::Scalar::all(1e-4));
}

// What to add to each sheet so that its light passes gently into its neighbours': the difference
// between its own smooth part and the smooth part of the whole.
std::vector<cv::Mat> corrections(const std::vector<Sheet>& sheets,
                                 const std::vector<cv::Mat>& masks) {
  const double sigma = kExposureMm / kPlanMmPerPx / 2;
  std::vector<cv::Mat> smooth, weights, out;
  cv::Mat sum = cv::Mat::zeros(masks[0].size(), CV_32FC3), total = sum.clone();
  for (size_t i = 0; i < sheets.size(); ++i) {
    cv::Mat valid, w, w3;
    sheets[i].valid.convertTo(valid, CV_32F, 1 / 255.0);
    smooth.push_back(smoothOver(sheets[i].bgr, valid, sigma / 2));
    cv::GaussianBlur(masks[i], w, {}, sigma);
    w = w.mul(valid) + 1e-4 * valid;
    cv::merge(std::vector<cv::Mat>{w, w, w}, w3);
    sum += smooth.back().mul(w3);
    total += w3;
  }
  sum /= total + cv::Scalar::all(1e-6);
  for (size_t i = 0; i < sheets.size(); ++i) out.push_back(sum - smooth[i]);
  return out;
}

// Brings the sheets to one exposure, the middle one's, by the ratio over their overlaps.
void matchExposures(std::vector<Sheet>& sheets) {
  std::vector<cv::Scalar> gain(sheets.size(), cv::Scalar(1, 1, 1));
  const size_t reference = sheets.size() / 2;
  const auto match = [&](size_t from, size_t to) {
    const cv::Mat both = sheets[from].valid & sheets[to].valid;
    if (cv::countNonZero(both) < 400) return;
    const cv::Scalar a = cv::mean(sheets[from].bgr, both), b = cv::mean(sheets[to].bgr, both);
    for (int c = 0; c < 3; ++c) gain[to][c] = gain[from][c] * std::clamp(a[c] / b[c], 0.4, 2.5);
  };
  for (size_t i = reference; i + 1 < sheets.size(); ++i) match(i, i + 1);
  for (size_t i = reference; i > 0; --i) match(i, i - 1);
  for (size_t i = 0; i < sheets.size(); ++i) cv::multiply(sheets[i].bgr, gain[i], sheets[i].bgr);
}

// The gains are part of the correction at fine scale: gain · c + k is linear, so both are kept.
struct Tone {
  cv::Scalar gain;
};

MosaicPlan planMosaic(FaceViews& views, const PlaneRaster& fine, std::vector<Tone>& tones) {
  MosaicPlan plan;
  plan.raster = coarser(fine, std::max(1.0, kPlanMmPerPx / fine.mmPerPx()));
  plan.sheets = sheetsAlong(views, plan.raster);
  dropNeedless(plan.sheets);
  std::vector<cv::Scalar> before;
  for (const Sheet& s : plan.sheets) before.push_back(cv::mean(s.bgr, s.valid));
  matchExposures(plan.sheets);
  for (size_t i = 0; i < plan.sheets.size(); ++i) {
    const cv::Scalar now = cv::mean(plan.sheets[i].bgr, plan.sheets[i].valid);
    tones.push_back(
        {cv::Scalar(now[0] / before[i][0], now[1] / before[i][1], now[2] / before[i][2])});
  }
  plan.masks = masksOf(plan.sheets, plan.raster.size);
  plan.correction = corrections(plan.sheets, plan.masks);
  return plan;
}

// A part of a coarse picture at the fine raster's pixels.
cv::Mat enlarged(const cv::Mat& coarse, const cv::Rect& tile, double factor) {
  const cv::Matx23d coarseFromTile(1 / factor, 0, (tile.x + 0.5) / factor - 0.5, 0, 1 / factor,
                                   (tile.y + 0.5) / factor - 0.5);
  cv::Mat out;
  cv::warpAffine(coarse, out, coarseFromTile, tile.size(), cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                 cv::BORDER_REPLICATE);
  return out;
}

void drawTile(const FaceViews& views, const MosaicPlan& plan, const std::vector<Tone>& tones,
              const std::vector<ImageGrid>& grids, double factor, const cv::Rect& tile,
              cv::Mat out) {
  cv::Mat sum = cv::Mat::zeros(tile.size(), CV_32FC3), bgr(tile.size(), CV_8UC3),
          valid(tile.size(), CV_8U);
  for (size_t i = 0; i < plan.sheets.size(); ++i) {
    const cv::Mat mask = enlarged(plan.masks[i], tile, factor);
    if (cv::countNonZero(mask) == 0) continue;
    warpTile(views.photos[plan.sheets[i].photo], grids[i], tile, cv::INTER_CUBIC, bgr, valid);
    cv::Mat colour, mask3;
    bgr.convertTo(colour, CV_32FC3);
    cv::multiply(colour, tones[i].gain, colour);
    colour += enlarged(plan.correction[i], tile, factor);
    cv::merge(std::vector<cv::Mat>{mask, mask, mask}, mask3);
    sum += colour.mul(mask3);
  }
  sum.convertTo(out, CV_8UC3);
}

}  // namespace

cv::Mat mosaic(FaceViews& views, const PlaneRaster& raster) {
  std::vector<Tone> tones;
  const MosaicPlan plan = planMosaic(views, raster, tones);
  const double factor = plan.raster.mmPerPx() / raster.mmPerPx();
  cv::Mat out(raster.size, CV_8UC3, cv::Scalar(0, 0, 0));
  if (plan.sheets.empty()) return out;
  std::vector<ImageGrid> grids;
  for (const Sheet& s : plan.sheets) {
    grids.emplace_back(*views.adjustment, s.photo, raster);
    views.photos[s.photo].prepare(4);
  }
  const int across = (raster.size.width + kTilePx - 1) / kTilePx;
  const int down = (raster.size.height + kTilePx - 1) / kTilePx;
  cv::parallel_for_({0, across * down}, [&](const cv::Range& tiles) {
    for (int t = tiles.start; t < tiles.end; ++t) {
      const cv::Rect tile = cv::Rect(t % across * kTilePx, t / across * kTilePx, kTilePx, kTilePx) &
                            cv::Rect({}, raster.size);
      drawTile(views, plan, tones, grids, factor, tile, out(tile));
    }
  });
  return out;
}

}  // namespace rackside
