// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/crayon/crayon.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/base/name_table.h"
#include "vision/wood/crayon/lines.h"
#include "vision/wood/crayon/pigment.h"
#include "vision/wood/crayon/scrawls.h"
#include "vision/wood/crayon/stroke_shape.h"
#include "vision/wood/propose/region_shape.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 4> kColours = {"white", "yellow", "red", "blue"};
constexpr std::array<std::string_view, 4> kKinds = {"ring", "cross", "line", "tick"};

constexpr double kReadMmPerPx = 1;  // strokes are 6 mm wide and more
constexpr double kCoverMm = 2;

cv::Mat disc(double radiusPx) {
  const int r = std::max(1, cvRound(radiusPx));
  return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * r + 1, 2 * r + 1});
}

}  // namespace

std::string_view name(CrayonColour colour) {
  return nameIn(kColours, colour);
}
std::optional<CrayonColour> crayonColourFromName(std::string_view name) {
  return valueIn<CrayonColour>(kColours, name);
}
std::string_view name(StrokeKind kind) {
  return nameIn(kKinds, kind);
}

CrayonReading readCrayon(const FaceToRead& face, CrayonColour colour) {
  const double scale = face.mmPerPx / kReadMmPerPx;
  const cv::Size size(std::max(1, cvRound(face.bgr.cols * scale)),
                      std::max(1, cvRound(face.bgr.rows * scale)));
  cv::Mat bgr, wood;
  cv::resize(face.bgr, bgr, size, 0, 0, scale < 1 ? cv::INTER_AREA : cv::INTER_LINEAR);
  cv::resize(face.wood, wood, size, 0, 0, cv::INTER_NEAREST);
  CrayonReading out;
  std::vector<Stroke> pieces;
  cv::Mat covered = cv::Mat::zeros(size, CV_8U);
  for (const Scrawl& scrawl : scrawlsOf(pigmentShare(bgr, wood, colour), wood, kReadMmPerPx)) {
    covered(scrawl.box) |= scrawl.mask;
    const auto piece = linePieceOf(scrawl);
    auto stroke = piece && isALine(*piece, kReadMmPerPx) ? std::nullopt : strokeOf(scrawl);
    if (stroke)
      out.strokes.push_back(std::move(*stroke));
    else if (piece)
      pieces.push_back(*piece);
  }
  for (CrayonStroke& line : linesOf(std::move(pieces), kReadMmPerPx))
    out.strokes.push_back(std::move(line));
  const double s = kReadMmPerPx / face.mmPerPx, shift = (s - 1) / 2;
  for (CrayonStroke& stroke : out.strokes)
    stroke.shape = carried(stroke.shape, {s, 0, shift, 0, s, shift});
  cv::dilate(covered, covered, disc(kCoverMm / kReadMmPerPx));
  cv::resize(covered, out.covered, face.bgr.size(), 0, 0, cv::INTER_NEAREST);
  return out;
}

}  // namespace rackside
