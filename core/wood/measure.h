// SPDX-License-Identifier: GPL-3.0-or-later
// Figures read off a measured outline, each with its uncertainty (first order: the outline's edge
// sigmas and the shared plane modes, k = 1.96).
#pragma once

#include <optional>
#include <vector>

#include "core/wood/board.h"

namespace rackside {

// Chord across the board at x; empty where the outline does not reach. On a concave outline, from
// the lowest to the highest border met.
std::optional<Measured> widthAt(const Outline& outline, double xMm);
Measured lengthOf(const Outline& outline);  // the box along the axis
Measured distance(const Outline& outline, Point a, Point b, double sigmaA, double sigmaB);
double crookMm(const Outline& outline);      // greatest gap of either edge from its own chord
double taperMmPerM(const Outline& outline);  // change of width along the board
std::vector<Measured> widthsEvery(const Outline& outline, double stepMm);

}  // namespace rackside
