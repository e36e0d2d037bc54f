// SPDX-License-Identifier: GPL-3.0-or-later
// The grade of a board by the rules of the National Hardwood Lumber Association, from its map.
//
// An estimate by a program, not an inspector's certificate: it knows what was marked, on a grid of
// 1 × 1/4 in, and the rules in core/trade/grade_rules.h with those sources give beside them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/trade/grade_map.h"
#include "core/trade/grade_rules.h"
#include "core/wood/board.h"

namespace rackside {

struct FaceGrade {
  Face face = Face::A;
  Grade grade = Grade::below;
  std::vector<Polygon> cuttings;  // that carry the grade, board mm
  double units = 0;               // they yield
  double unitsNeeded = 0;
  int cuttingsAllowed = 0;
  bool proven = true;  // false: a search was stopped, and the face may grade higher
  std::vector<std::string> whyNotHigher;
};

struct BoardGrade {
  Grade grade = Grade::below;
  int surfaceMeasureFt2 = 0;
  Face poorFace = Face::A;
  bool bothFacesSeen = false;  // else the seen face alone
  bool proven = true;
  std::vector<FaceGrade> faces;  // of the faces seen, A before B
};

struct GradeOptions {
  double limitSeconds = 0.4;  // for the board, shared by its searches
};

// Fails on a board without an outline.
Result<BoardGrade> gradeBoard(const Board& board, const GradeOptions& options);

// Does a mark keep a cutting from being clear; is it unsound, so that it spoils a sound cutting, or
// the back of a clear one? Sapwood counts against neither. (The list of what is sound: from
// memory.)
bool spoilsClear(const Mark& mark);
bool isUnsound(const Mark& mark);

}  // namespace rackside
