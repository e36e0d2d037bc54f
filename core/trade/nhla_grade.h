// SPDX-License-Identifier: GPL-3.0-or-later
// The grade of a board by the rules of the National Hardwood Lumber Association, from its map.
//
// An estimate by a program, not an inspector's certificate: it knows what was marked, on a grid of
// 1 × 1/4 in, and the rules in core/trade/grade_rules.h with those sources give beside them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/job/shop.h"
#include "core/trade/grade_map.h"
#include "core/trade/grade_rules.h"
#include "core/trade/tally.h"
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
  bool bothFacesSeen = false;    // else the seen face alone
  bool proven = true;            // false: it may grade higher
  std::vector<FaceGrade> faces;  // of the faces seen, A before B
};

struct GradeOptions {
  // Of each search for cuttings. Steps are counted, not seconds, so that a board grades alike on
  // every machine.
  long long limitSteps = 400;
  std::optional<int> surfaceMeasureFt2;  // as its tally has it; else of the board by itself
};

// Fails on a board without an outline, on one of which no face was looked at, and on softwood,
// which these rules do not grade. `own` are the shop's own woods.
Result<BoardGrade> gradeBoard(const Board& board, const GradeOptions& options,
                              const std::vector<Species>& own = {});

}  // namespace rackside
