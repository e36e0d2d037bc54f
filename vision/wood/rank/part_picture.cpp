// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/part_picture.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/wood/figure_cache.h"
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

Result<cv::Mat3b> partPicture(const Board& board, const Placement& place, const Part& part,
                              const std::filesystem::path& rackFolder, double mmPerPx,
                              RunControl& control) {
  const auto raster = readFaceRaster(board, place.face, rackFolder, kFigureMmPerPx);
  if (!raster) return raster.error();
  const auto maps = figureOf(board, place.face, rackFolder, defaultCacheFolder(), control);
  if (!maps) return maps.error();
  return cutOut(*raster, asPlaned(*raster, *maps), place, part, mmPerPx);
}

Result<std::vector<StripPictures>> stripPictures(const std::vector<Board>& boards,
                                                 const Panel& panel,
                                                 const std::filesystem::path& rackFolder,
                                                 double mmPerPx, RunControl& control) {
  std::vector<StripPictures> pictures;
  for (const PanelStrip& s : panel.strips) {
    const auto board = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& b) { return b.id == s.place.board; });
    if (board == boards.end()) return Error{"A board of the panel is no longer in the rack."};
    const auto look = [&](const Placement& place) {
      return partPicture(*board, place, panel.strip, rackFolder, mmPerPx, control);
    };
    auto up = look(s.place);
    if (!up) return up.error();
    StripPictures& both = pictures.emplace_back();
    both.up = std::move(up).value();
    if (!s.other) continue;
    auto other = look(s.other->place);
    if (!other) return other.error();
    both.other = std::move(other).value();
  }
  return pictures;
}

cv::Mat3b laidPicture(const std::vector<StripPictures>& strips, const LaidStrip& laid) {
  const StripPictures& both = strips[size_t(laid.strip)];
  cv::Mat3b row = (laid.over ? both.other : both.up).clone();
  if (laid.turned) cv::rotate(row, row, cv::ROTATE_180);
  return row;
}

cv::Mat3b panelPicture(const std::vector<StripPictures>& strips, const PanelOrder& order) {
  std::vector<cv::Mat> rows;
  rows.reserve(order.strips.size());
  for (auto s = order.strips.rbegin(); s != order.strips.rend(); ++s)
    rows.push_back(laidPicture(strips, *s));
  cv::Mat out;
  cv::vconcat(rows, out);
  return out;
}

}  // namespace rackside
