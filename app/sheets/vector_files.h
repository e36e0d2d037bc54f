// SPDX-License-Identifier: GPL-3.0-or-later
// Boards as vector drawings for other programs.
//
// SVG 1.1: user unit and page in millimetres, y down from the far edge, one group a layer with its
// name as id. DXF in the ASCII form of release 12 (AC1009), which every general-purpose CAD program
// reads: closed POLYLINE, LINE and TEXT in board millimetres, y up, one layer each.
#pragma once

#include <string>

#include "app/sheets/board_shapes.h"

namespace rackside::sheets {

std::string svgText(const std::vector<Layer>& layers, const std::string& title);
std::string dxfText(const std::vector<Layer>& layers);

}  // namespace rackside::sheets
