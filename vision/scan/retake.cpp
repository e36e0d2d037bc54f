// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/retake.h"

#include "core/geometry/polygon.h"
#include "core/wood/measure.h"
#include "vision/face/face_picture.h"
#include "vision/face/register_face.h"
#include "vision/scan/way_round.h"

namespace rackside {
namespace {

constexpr double kCompareMmPerPx = 1;

Point through(const cv::Matx23d& m, Point p) {
  return {m(0, 0) * p.x + m(0, 1) * p.y + m(0, 2), m(1, 0) * p.x + m(1, 1) * p.y + m(1, 2)};
}

// The inverse of a motion without stretch.
cv::Matx23d inverted(const cv::Matx23d& m) {
  const double det = m(0, 0) * m(1, 1) - m(0, 1) * m(1, 0);
  cv::Matx23d out(m(1, 1) / det, -m(0, 1) / det, 0, -m(1, 0) / det, m(0, 0) / det, 0);
  const Point o = through(out, {m(0, 2), m(1, 2)});
  out(0, 2) = -o.x;
  out(1, 2) = -o.y;
  return out;
}

std::array<double, 6> after(const cv::Matx23d& outer, const std::array<double, 6>& inner) {
  std::array<double, 6> out{};
  for (size_t r = 0; r < 2; ++r)
    for (size_t c = 0; c < 3; ++c)
      out[3 * r + c] = outer(int(r), 0) * inner[c] + outer(int(r), 1) * inner[3 + c] +
                       (c == 2 ? outer(int(r), 2) : 0);
  return out;
}

// The stored face in the new picture, which lies on the board as `fit` says.
FaceRaster laidOut(const Board& stored, const ScanResult& scan, const FaceFit& fit) {
  return layOutFace(
      scan.facePicture,
      after(inverted(fit.planeFromBoard), scan.board.pictures.back().boardFromPicture),
      stored.outline.polygon(), kCompareMmPerPx);
}

// Empty where there is no stored picture, or the wood does not tell.
std::optional<WayRound> wayByTheWood(const Board& stored, const std::filesystem::path& rackFolder,
                                     const FoundOutline& found, const ScanResult& scan) {
  const auto before = readFaceRaster(stored, Face::A, rackFolder, kCompareMmPerPx);
  const auto same = registerRetake(stored.outline, found, {}, WayRound::same);
  const auto turned = registerRetake(stored.outline, found, {}, WayRound::turned);
  if (!before || !same || !turned) return std::nullopt;
  const auto way =
      turnedEndForEnd(*before, laidOut(stored, scan, *same), laidOut(stored, scan, *turned));
  if (!way) return std::nullopt;
  return *way ? WayRound::turned : WayRound::same;
}

Result<FaceFit> fitOf(const Board& stored, const std::filesystem::path& rackFolder,
                      const ScanResult& scan) {
  FoundOutline found;
  found.vertices = scan.board.outline.vertices;
  auto fit = registerRetake(stored.outline, found, scan.ties);
  if (fit || !scan.ties.empty()) return fit;
  const auto way = wayByTheWood(stored, rackFolder, found, scan);
  return way ? registerRetake(stored.outline, found, {}, way) : fit;
}

}  // namespace

Status layRetakeOn(const Board& stored, const std::filesystem::path& rackFolder, ScanResult& scan) {
  const auto fit = fitOf(stored, rackFolder, scan);
  if (!fit) return fit.error();
  const cv::Matx23d storedFromNew = inverted(fit->planeFromBoard);
  Board board = stored;
  board.outline = scan.board.outline;
  for (OutlineVertex& v : board.outline.vertices) v.at = through(storedFromNew, v.at);
  board.lengthMm = lengthOf(board.outline);
  board.widthsMm = widthsEvery(board.outline, 100);
  if (scan.board.thicknessMm > 0) board.thicknessMm = scan.board.thicknessMm;
  if (!scan.board.species.empty()) board.species = scan.board.species;
  if (!board.tag) board.tag = scan.tag;
  Picture picture = scan.board.pictures.back();
  picture.boardFromPicture = after(storedFromNew, picture.boardFromPicture);
  board.pictures.push_back(picture);
  scan.board = std::move(board);
  scan.warnings.push_back(
      "This board was in the rack already: the new outline and picture were laid "
      "on the stored ones; its marks stay where they were.");
  return success();
}

}  // namespace rackside
