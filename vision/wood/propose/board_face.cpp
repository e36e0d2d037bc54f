// SPDX-License-Identifier: GPL-3.0-or-later
// A board's face as a picture with the place of its wood.
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "core/wood/usable_wood.h"
#include "vision/cards/card_finder.h"
#include "vision/wood/propose/propose_board.h"

namespace rackside {
namespace {

constexpr double kInsetMm = 1;       // the arris itself is dark or bright
constexpr double kCardMarginMm = 4;  // a card's own shadow

cv::Matx23d matrixOf(const std::array<double, 6>& m) {
  return {m[0], m[1], m[2], m[3], m[4], m[5]};
}

void fill(cv::Mat& mask, const Polygons& shapes, const cv::Matx23d& pictureFromBoard, int value) {
  std::vector<std::vector<cv::Point>> all;
  for (const Polygon& shape : shapes) {
    std::vector<cv::Point> corners;
    corners.reserve(shape.size());
    for (const Point p : shape) {
      const cv::Vec2d q = pictureFromBoard * cv::Vec3d(p.x, p.y, 1);
      corners.emplace_back(cvRound(q[0]), cvRound(q[1]));
    }
    all.push_back(std::move(corners));
  }
  if (!all.empty()) cv::fillPoly(mask, all, value);
}

template <class Corners>
void blackOut(cv::Mat& wood, const Corners& corners, int marginPx) {
  std::vector<cv::Point> quad;
  quad.reserve(std::size(corners));
  for (const cv::Point2d& p : corners) quad.emplace_back(cvRound(p.x), cvRound(p.y));
  if (quad.empty()) return;
  cv::fillConvexPoly(wood, quad, 0);
  cv::polylines(wood, quad, true, 0, 2 * marginPx + 1);
}

// Printed cards and tags that lay on the board. The picture of face B is the mirror image of what
// the camera saw, and a code reads one way only.
void leaveOutCards(FaceToRead& face, bool mirrored) {
  cv::Mat grey;
  cv::cvtColor(face.bgr, grey, cv::COLOR_BGR2GRAY);
  if (mirrored) cv::flip(grey, grey, 1);
  const auto place = [&](cv::Point2d p) {
    return mirrored ? cv::Point2d(grey.cols - 1 - p.x, p.y) : p;
  };
  FoundMarkers markers = findMarkers(grey);
  const int margin = cvRound(kCardMarginMm / face.mmPerPx);
  for (FoundCard& card : markers.cards) {
    for (cv::Point2d& p : card.borderPx) p = place(p);
    blackOut(face.wood, card.borderPx, margin);
  }
  for (FoundTag& tag : markers.tags) {
    // The paper of a tag reaches about half its code farther on each side.
    const double side = cv::norm(tag.cornersPx[0] - tag.cornersPx[1]);
    for (cv::Point2d& p : tag.cornersPx) p = place(p);
    blackOut(face.wood, tag.cornersPx, cvRound(side / 2));
  }
}

}  // namespace

Result<BoardFace> boardFace(const Board& board, Face side,
                            const std::filesystem::path& boardFolder) {
  const std::string where = "face " + std::string(name(side)) + " of board " + board.name;
  const Picture* picture = board.newestPicture(side);
  if (!picture) return Error{"There is no picture of " + where + ": scan it first."};
  if (board.outline.vertices.size() < 3)
    return Error{"Board " + board.name + " has no outline: scan it first, or draw one."};
  BoardFace out;
  out.boardFromPicture = picture->boardFromPicture;
  out.face.bgr = cv::imread((boardFolder / picture->file).string(), cv::IMREAD_COLOR);
  if (out.face.bgr.empty())
    return Error{"The picture of " + where + " cannot be read: " + picture->file +
                 ". Put it back, or scan the board again."};
  out.face.mmPerPx = picture->mmPerPx;
  out.face.wood = cv::Mat::zeros(out.face.bgr.size(), CV_8U);
  cv::Matx23d pictureFromBoard;
  cv::invertAffineTransform(matrixOf(picture->boardFromPicture), pictureFromBoard);
  fill(out.face.wood, offset(usableWood(board.outline), -kInsetMm), pictureFromBoard, 255);
  leaveOutCards(out.face, side == Face::B);
  return out;
}

}  // namespace rackside
