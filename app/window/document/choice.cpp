// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/choice.h"

namespace rackside {

void Choice::setBoard(const BoardId& board) {
  if (board == board_) return;
  board_ = board;
  mark_ = {};
  piece_ = {};
  emit boardChosen();
  emit thingChosen();
}

void Choice::setFace(Face face) {
  if (face == face_) return;
  face_ = face;
  emit faceChanged();
}

void Choice::setMark(const MarkId& mark) {
  if (mark == mark_ && piece_.empty()) return;
  mark_ = mark;
  piece_ = {};
  emit thingChosen();
}

void Choice::setPiece(const PieceId& piece) {
  if (piece == piece_ && mark_.empty()) return;
  piece_ = piece;
  mark_ = {};
  emit thingChosen();
}

}  // namespace rackside
