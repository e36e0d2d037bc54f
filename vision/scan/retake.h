// SPDX-License-Identifier: GPL-3.0-or-later
// A new scan of a face that is already stored.
#pragma once

#include <filesystem>

#include "vision/scan/scan.h"

namespace rackside {

// Turns `scan.board` into the stored board with the new outline, figures and picture laid into the
// stored board frame; marks, name and the rest stay as stored. Which end is which is told by the
// outline, by the places named (scan.ties), or by what both pictures show of the wood. Fails when
// the outlines do not fit, or when none of these tells.
Status layRetakeOn(const Board& stored, const std::filesystem::path& rackFolder, ScanResult& scan);

}  // namespace rackside
