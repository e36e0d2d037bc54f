// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/part_picture.h"

#include <opencv2/imgproc.hpp>

#include "vision/wood/paper_on_face.h"

namespace rackside {
namespace {

constexpr double kWhite = 238;  // of paper in the pictures

}  // namespace

cv::Mat3b asPlaned(const FaceRaster& raster, const FigureMaps& maps) {
  const cv::Mat1f tone = evenedTone(raster, maps.light);
  cv::Mat1f off(tone.size(), 0.F);
  if (maps.saw.sure()) {
    cv::Mat1b wood = raster.wood.clone();
    wood.setTo(0, paperOnFace(raster).hidden);
    off = sawMarkTone(tone, wood, raster.mmPerPx, maps.saw);
  }
  const int rows = tone.rows, cols = tone.cols;
  const double middle = maps.light.coefficient[0];
  // Known white is brought to one white, so that boards stand side by side in one light.
  const auto& white = maps.colour.white;
  cv::Vec3f oneLight(1, 1, 1);
  for (int k = 0; k < 3; ++k)
    if (maps.colour.lightKnown()) oneLight[k] = float(kWhite / white[size_t(k)]);
  cv::Mat1f gain(tone.size());
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < cols; ++x) {
      const double u = 2 * (x + 0.5) / cols - 1, v = 2 * (y + 0.5) / rows - 1;
      gain(y, x) = float(middle - maps.light.at(u, v)) - off(y, x);
    }
  cv::exp(gain, gain);
  cv::Mat3b out(raster.bgr.size());
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < cols; ++x)
      for (int k = 0; k < 3; ++k)
        out(y, x)[k] =
            cv::saturate_cast<uchar>(gain(y, x) * oneLight[k] * float(raster.bgr(y, x)[k]));
  return out;
}

cv::Mat3b cutOut(const FaceRaster& raster, const cv::Mat3b& bgr, const Placement& place,
                 const Part& part, double mmPerPx) {
  const cv::Size size(std::max(1, cvRound(part.lengthMm / mmPerPx)),
                      std::max(1, cvRound(part.widthMm / mmPerPx)));
  const bool below = place.face == Face::B;  // seen from below, y runs down the picture
  const auto rasterAt = [&](double column, double row) {
    const double x = (column + 0.5) * mmPerPx;
    const double y = below ? (row + 0.5) * mmPerPx : part.widthMm - (row + 0.5) * mmPerPx;
    const Point p = rackside::apply(place.boardFromPart, {x, y});
    return cv::Point2d((p.x - raster.origin.x) / raster.mmPerPx,
                       (p.y - raster.origin.y) / raster.mmPerPx);
  };
  const cv::Point2d o = rasterAt(0, 0), a = rasterAt(1, 0) - o, b = rasterAt(0, 1) - o;
  const cv::Matx23d map(a.x, b.x, o.x, a.y, b.y, o.y);
  cv::Mat source = bgr, out;
  const double shrink = mmPerPx / raster.mmPerPx;
  if (shrink > 1.5) cv::blur(source, source, {cvRound(shrink), cvRound(shrink)});
  cv::warpAffine(source, out, map, size, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                 cv::BORDER_REPLICATE);
  if (!part.outline) return out;
  std::vector<cv::Point> ring;
  for (const Point p : *part.outline)
    ring.emplace_back(cvRound(p.x / mmPerPx), cvRound((part.widthMm - p.y) / mmPerPx));
  cv::Mat1b inside(size, uchar(0));
  cv::fillPoly(inside, std::vector{ring}, cv::Scalar(255));
  out.setTo(cv::Scalar::all(255), inside == 0);
  return out;
}

cv::Mat3b panelPicture(const std::vector<cv::Mat3b>& cuts, const PanelOrder& order) {
  std::vector<cv::Mat> rows;
  for (auto s = order.strips.rbegin(); s != order.strips.rend(); ++s) {
    cv::Mat row = cuts[size_t(s->strip)].clone();
    if (s->turned) cv::rotate(row, row, cv::ROTATE_180);
    rows.push_back(row);
  }
  cv::Mat out;
  cv::vconcat(rows, out);
  return out;
}

}  // namespace rackside
