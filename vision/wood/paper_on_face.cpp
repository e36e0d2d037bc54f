// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/paper_on_face.h"

#include <opencv2/imgproc.hpp>

#include "vision/cards/card_finder.h"

namespace rackside {
namespace {

constexpr double kMarginMm = 3;  // shadow and curl of the paper's border

using Sheet = std::vector<cv::Point2f>;

Sheet sheetOf(const FoundCard& card) {
  return {card.borderPx.begin(), card.borderPx.end()};
}

Sheet sheetOf(const FoundTag& tag) {
  const TagModel model = tagModel(tag.number);
  std::vector<cv::Point2f> printed, seen;
  for (int i = 0; i < 4; ++i) {
    printed.emplace_back(float(model.code.corners[i].x), float(model.code.corners[i].y));
    seen.emplace_back(tag.cornersPx[i]);
  }
  const Sheet corners{{0, float(model.heightMm)},
                      {float(model.sizeMm), float(model.heightMm)},
                      {float(model.sizeMm), 0},
                      {0, 0}};
  Sheet out;
  cv::perspectiveTransform(corners, out, cv::getPerspectiveTransform(printed, seen));
  return out;
}

// The white between the ink: the brightest third of the sheet, less its brightest hundredth.
cv::Vec3d whiteOf(const cv::Mat3b& bgr, const cv::Mat1b& sheet) {
  cv::Vec3d white;
  std::array<std::vector<int>, 3> counts;
  for (auto& c : counts) c.assign(256, 0);
  int total = 0;
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x) {
      if (!sheet(y, x)) continue;
      for (int k = 0; k < 3; ++k) ++counts[k][bgr(y, x)[k]];
      ++total;
    }
  for (int k = 0; k < 3; ++k) {
    int above = 0, used = 0;
    double sum = 0;
    for (int v = 255; v >= 0 && above < total / 3; --v) {
      above += counts[k][v];
      if (above > total / 100) sum += double(v) * counts[k][v], used += counts[k][v];
    }
    white[k] = used > 0 ? sum / used : 0;
  }
  return white;
}

}  // namespace

PaperOnFace paperOnFace(const FaceRaster& raster) {
  PaperOnFace paper;
  paper.hidden = cv::Mat1b(raster.bgr.size(), uchar(0));
  cv::Mat grey;
  cv::cvtColor(raster.bgr, grey, cv::COLOR_BGR2GRAY);
  cv::flip(grey, grey, 0);  // codes are read upright
  const FoundMarkers found = findMarkers(grey);
  std::vector<Sheet> sheets;
  for (const FoundCard& card : found.cards) sheets.push_back(sheetOf(card));
  for (const FoundTag& tag : found.tags) sheets.push_back(sheetOf(tag));
  for (const Sheet& sheet : sheets) {
    std::vector<cv::Point> ring;
    cv::Point2d middle;
    for (const cv::Point2f p : sheet) {
      ring.emplace_back(cvRound(p.x), raster.bgr.rows - 1 - cvRound(p.y));
      middle += 0.25 * cv::Point2d(ring.back());
    }
    const cv::Rect box = cv::boundingRect(ring) & cv::Rect({0, 0}, raster.bgr.size());
    if (box.empty()) continue;
    cv::Mat1b mask(raster.bgr.size(), uchar(0));
    cv::fillConvexPoly(mask, ring, cv::Scalar(255));
    paper.whites.push_back({whiteOf(raster.bgr(box), mask(box)), middle});
    paper.hidden |= mask;
  }
  const int side = 2 * cvRound(kMarginMm / raster.mmPerPx) + 1;
  if (!sheets.empty()) cv::dilate(paper.hidden, paper.hidden, cv::Mat::ones(side, side, CV_8U));
  return paper;
}

}  // namespace rackside
