// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs of one board's face → the board, measured: the whole of the vision layer in one call.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/run_control.h"
#include "core/wood/board.h"
#include "vision/cards/plain_reference.h"
#include "vision/face/tie_point.h"
#include "vision/lens/lens.h"
#include "vision/measure/adjustment.h"
#include "vision/photo/photo.h"

namespace rackside {

// Where a plain reference's corners are in a photograph, image frame, in order round it.
struct ReferenceCorners {
  size_t photo = 0;  // index into the photographs
  std::array<cv::Point2d, 4> px;
};

struct ScanOptions {
  std::string name;
  std::string species;
  std::string place;          // where the board stands on the rack
  double thicknessMm = 0;     // 0: unknown
  std::string thicknessSaid;  // "8/4", where it was said so
  Face face = Face::A;
  FaceStage stage = FaceStage::greyRough;  // how far the face has been worked
  CardsOn cardsOn = CardsOn::board;
  std::optional<Lens> lens;  // empty: priors from EXIF
  double cardScale = 1;      // measured length of the print bar ÷ its nominal length
  bool cardScaleMeasured = false;
  double cardThicknessMm = 0;
  double cardThicknessSigmaMm = 0.2;
  // A bank card or a sheet of paper that lies where the cards lie (or instead of them), looked for
  // in every photograph but those whose corners are given.
  std::optional<PlainReference> reference;
  std::vector<ReferenceCorners> referenceCorners;
  std::vector<TapedDistance> taped;  // between cards, measured with a tape
  // How far both ends of the board stand up towards the camera from a straight line through its
  // middle (negative: the middle stands up), measured; 0: taken as flat.
  double bowMm = 0;
  double bowSigmaMm = 1;
  double finestMmPerPx = 0;      // 0: as fine as the photographs are
  const Board* faceA = nullptr;  // scanning face B: the board it belongs to
  // Face B, or a retake: places seen before and now, where the outline alone does not say how the
  // board was turned.
  std::vector<TiePoint> tiePoints;
  Status validate() const;
};

// Where the board's outline lies in a photograph: image frame, closed, in small steps.
struct OutlineInPhoto {
  size_t photo = 0;  // index into the photographs
  std::vector<cv::Point2d> px;
};

struct CardReport {
  int number = 0;    // 0: a plain reference
  std::string name;  // "card 3", "bank card"
  int corners = 0;
  double rmsPx = 0;
};

struct ScanResult {
  Board board;          // ids of the pictures set; files not yet written
  cv::Mat facePicture;  // CV_8UC3, one per scan; board.pictures.back() describes it
  std::vector<CardReport> cards;
  Lens lens;
  std::vector<std::string> advice;  // what limits the measurement and what to do
  std::vector<std::string> warnings;
  std::optional<int> tag;
  std::vector<OutlineInPhoto> outlines;  // in each photograph that was used
  // Face A: the tie points given, on the stored board and in this board's own frame.
  std::vector<std::pair<Point, Point>> ties;
};

// Fails with what to do when no card is found, a card is cut off, or the board runs out of the
// picture.
Result<ScanResult> scanFace(const std::vector<Photo>& photos, const ScanOptions& options,
                            RunControl& control);

}  // namespace rackside
