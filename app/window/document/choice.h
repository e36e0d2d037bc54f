// SPDX-License-Identifier: GPL-3.0-or-later
// What the maker is looking at: the board, the face, and the one mark or piece in hand. Lists,
// views and panels meet here instead of knowing each other.
#pragma once

#include <QObject>

#include "core/plan/plan.h"
#include "core/wood/board.h"

namespace rackside {

class Choice : public QObject {
  Q_OBJECT
 public:
  using QObject::QObject;

  const BoardId& board() const { return board_; }
  Face face() const { return face_; }
  const MarkId& mark() const { return mark_; }
  const PieceId& piece() const { return piece_; }

  void setBoard(const BoardId& board);  // lets go of the mark and the piece
  void setFace(Face face);
  void setMark(const MarkId& mark);     // lets go of the piece
  void setPiece(const PieceId& piece);  // lets go of the mark
  void clear() { setBoard({}); }

 signals:
  void boardChosen();
  void faceChanged();
  void thingChosen();

 private:
  BoardId board_;
  Face face_ = Face::A;
  MarkId mark_;
  PieceId piece_;
};

}  // namespace rackside
