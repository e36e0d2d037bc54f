// SPDX-License-Identifier: GPL-3.0-or-later
// A new scan of a face that is already stored.
#pragma once

#include "vision/scan/scan.h"

namespace rackside {

// Turns `scan.board` into the stored board with the new outline, figures and picture laid into the
// stored board frame; marks, name and the rest stay as stored. Fails when the outlines do not fit
// or fit either way round.
Status layRetakeOn(const Board& stored, ScanResult& scan);

}  // namespace rackside
