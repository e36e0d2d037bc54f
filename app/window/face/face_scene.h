// SPDX-License-Identifier: GPL-3.0-or-later
// All items over one face of one board, in the order they are painted.
#pragma once

#include <memory>
#include <vector>

#include "app/window/face/face_item.h"

namespace rackside {

struct FaceLayers {
  bool picture = true;
  bool outline = true;
  bool marks = true;
  bool pieces = true;
  bool cuts = true;
  bool operator==(const FaceLayers&) const = default;
};

class FaceScene {
 public:
  // `plan` is the one to show: the rack's own, or one that is being tried; none: null.
  void rebuild(const Rack& rack, const Plan* plan, const BoardId& board, Face face);
  void paint(QPainter& painter, const FaceCamera& camera, const FaceLayers& layers,
             const MarkId& mark, const PieceId& piece, const LengthStyle& lengths) const;
  // The topmost under the point; a small mark before a large one that holds it.
  std::optional<MarkId> markAt(Point board, double toleranceMm) const;
  std::optional<PieceId> pieceAt(Point board, double toleranceMm) const;
  // Of the mark or the piece, whichever is here.
  std::optional<Point> middleOf(const MarkId& mark, const PieceId& piece) const;
  std::vector<MarkId> marksInOrder() const;    // left to right
  std::vector<PieceId> piecesInOrder() const;  // left to right

 private:
  std::unique_ptr<OutlineItem> outline_;
  std::vector<std::unique_ptr<MarkItem>> marks_;
  std::vector<std::unique_ptr<PieceItem>> pieces_;
  std::vector<std::unique_ptr<CutItem>> cuts_;
};

}  // namespace rackside
