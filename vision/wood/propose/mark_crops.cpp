// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/mark_crops.h"

#include <fstream>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <set>

#include "core/geometry/polygon.h"
#include "vision/wood/propose/propose_board.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

constexpr int kAlongPx = 112, kAcrossPx = 304;  // as the photographs of the open set
constexpr int kNoLesson = -1;

// A label is the kind's number, but that the open photographs keep 10 for an overgrown knot
// (training/lessons.py reads both).
constexpr int kBarkPocketLabel = 11, kWormHoleLabel = 12;

// The label that the training reads; kNoLesson for what the network does not look for.
int lessonOf(const Mark& m) {
  switch (m.kind) {
    case MarkKind::knot:
      if (m.note == kCheckedKnotNote) return int(RegionKind::crackedKnot);
      return int(m.soundness == Soundness::loose ? RegionKind::deadKnot : RegionKind::liveKnot);
    case MarkKind::check:
    case MarkKind::split:
      return int(RegionKind::crack);
    case MarkKind::gum:
      return int(RegionKind::gum);
    case MarkKind::pith:
      return int(RegionKind::pith);
    case MarkKind::holeToFill:
      return int(RegionKind::hole);
    case MarkKind::stain:
      return int(m.note == kStreakNote ? RegionKind::streak : RegionKind::stain);
    case MarkKind::barkPocket:
      return kBarkPocketLabel;
    case MarkKind::wormHoles:
      return kWormHoleLabel;
    default:
      return kNoLesson;
  }
}

// A face at the network's sampling, and what is marked on it.
struct LessonSheet {
  cv::Mat bgr, labels, unsettled;
  std::array<double, 6> pixelFromBoard{};
};

void fill(cv::Mat& picture, const MarkShape& shape, const std::array<double, 6>& toPixels,
          int value) {
  for (const Polygon& p : polygonsOf(carried(shape, toPixels))) {
    std::vector<cv::Point> corners;
    corners.reserve(p.size());
    for (const Point q : p) corners.emplace_back(cvRound(16 * q.x), cvRound(16 * q.y));
    cv::fillPoly(picture, std::vector<std::vector<cv::Point>>{corners}, value, cv::LINE_8, 4);
  }
}

LessonSheet sheetOf(const BoardFace& face, const Board& board, Face side) {
  LessonSheet s;
  const double scale = face.face.mmPerPx / kProposeMmPerPx;
  cv::resize(face.face.bgr, s.bgr, {}, scale, scale, scale < 1 ? cv::INTER_AREA : cv::INTER_CUBIC);
  s.labels = cv::Mat::zeros(s.bgr.size(), CV_8U);
  s.unsettled = s.labels.clone();
  const auto& m = face.boardFromPicture;
  cv::Matx23d inverse;
  cv::invertAffineTransform(cv::Matx23d(m[0], m[1], m[2], m[3], m[4], m[5]), inverse);
  for (int i = 0; i < 6; ++i) s.pixelFromBoard[size_t(i)] = scale * inverse.val[i];
  for (const Mark& mark : board.marks) {
    const int lesson = lessonOf(mark);
    if (!mark.on(side) || lesson == kNoLesson) continue;
    fill(mark.confirmed ? s.labels : s.unsettled, *mark.on(side), s.pixelFromBoard,
         mark.confirmed ? lesson : 255);
  }
  return s;
}

std::string labelsIn(const cv::Mat& mask) {
  std::set<int> seen;
  for (int y = 0; y < mask.rows; ++y)
    for (int x = 0; x < mask.cols; ++x)
      if (mask.at<uint8_t>(y, x)) seen.insert(mask.at<uint8_t>(y, x));
  std::string out;
  for (const int label : seen) out += (out.empty() ? "" : " ") + std::to_string(label);
  return out;
}

// Returns whether there was something to write; fails when it cannot be written.
Result<bool> writeCrop(const LessonSheet& sheet, const Mark& mark, Face side, const fs::path& into,
                       std::ofstream& index) {
  if (lessonOf(mark) == kNoLesson || !mark.on(side)) return false;
  const Polygons shape = polygonsOf(carried(*mark.on(side), sheet.pixelFromBoard));
  if (shape.empty()) return false;
  const Rect b = bounds(shape.front());
  const cv::Rect window(cvRound((b.x0 + b.x1) / 2) - kAlongPx / 2,
                        cvRound((b.y0 + b.y1) / 2) - kAcrossPx / 2, kAlongPx, kAcrossPx);
  const cv::Rect kept = window & cv::Rect({0, 0}, sheet.bgr.size());
  if (kept.width < kAlongPx / 2 || cv::countNonZero(sheet.unsettled(kept)) > 0) return false;
  const std::string stem = mark.id.text + "-" + std::string(name(side));
  const cv::Mat picture = sheet.bgr(kept).t(), mask = sheet.labels(kept).t();
  if (!cv::imwrite((into / "images" / (stem + ".jpg")).string(), picture,
                   {cv::IMWRITE_JPEG_QUALITY, 95}) ||
      !cv::imwrite((into / "masks" / (stem + "_l.png")).string(), mask))
    return Error{"Crops cannot be written in " + into.string() + ": name another folder."};
  index << stem << ".jpg," << stem << "_l.png," << labelsIn(mask) << '\n';
  return true;
}

}  // namespace

Result<int> writeMarkCrops(const Board& board, const fs::path& boardFolder, const fs::path& into) {
  std::error_code fault;
  fs::create_directories(into / "images", fault);
  fs::create_directories(into / "masks", fault);
  const bool fresh = !fs::exists(into / "index.csv");
  std::ofstream index(into / "index.csv", std::ios::app);
  if (fault || !index)
    return Error{"Crops cannot be written in " + into.string() + ": name another folder."};
  if (fresh) index << "image,mask,labels\n";
  int count = 0;
  for (const Face side : {Face::A, Face::B}) {
    if (!board.newestPicture(side)) continue;
    auto face = boardFace(board, side, boardFolder);
    if (!face) return face.error();
    const LessonSheet sheet = sheetOf(*face, board, side);
    for (const std::vector<Mark>* marks : {&board.marks, &board.refused})
      for (const Mark& mark : *marks) {
        if (marks == &board.marks && !mark.confirmed) continue;
        auto written = writeCrop(sheet, mark, side, into, index);
        if (!written) return written.error();
        count += written.value() ? 1 : 0;
      }
  }
  return count;
}

}  // namespace rackside
