// SPDX-License-Identifier: GPL-3.0-or-later
// How large things may be: beyond these a file is damaged or typed in the wrong unit, and the sums
// of the planner and the polygons (integers of 1/1000 mm) would no longer hold. Each is generous:
// a sawn log seldom passes 20 m.
#pragma once

#include <cmath>
#include <cstddef>

namespace rackside {

inline constexpr double kMostBoardMm = 30000;  // any coordinate on a board, either way
inline constexpr double kMostThicknessMm = 1000;
inline constexpr double kMostPartMm = kMostBoardMm;
inline constexpr double kMostDistortionMm = 1000;    // bow, cup, twist
inline constexpr double kMostPrice = 1e6;            // of a board foot, in any currency
inline constexpr double kMostValue = 1e9;            // of a piece
inline constexpr double kMostMoisturePercent = 300;  // green balsa passes 200 (from memory)
inline constexpr size_t kMostVertices = 100000;      // of one outline
inline constexpr size_t kMostMarks = 100000;         // on one board
inline constexpr size_t kMostParts = 10000;          // rows of a list
inline constexpr int kMostPieces = 100000;           // copies of a list in all

// False for what is not a number too.
inline bool within(double value, double least, double greatest) {
  return value >= least && value <= greatest;
}

}  // namespace rackside
