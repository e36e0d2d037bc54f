// SPDX-License-Identifier: GPL-3.0-or-later
// What is true of a rendered scene, as JSON beside its photographs.
//
// {
//  "format": "rackside-scene-truth", "version": 1, "scene": NAME,
//  "rendered": "ray-traced …",
//  "board": { "species", "thickness_mm", "tag" (or null), "grey", "bow_mm",
//    "crook_mm", "saw": {kind, pitchMm, …},
//    "frame": "…",  board frame of the seen face's outline (core/wood/board.h)
//    "faces": { "A": F, "B": F } },
//    F = { "outline_mm": [[x, y]…] in the board frame of face A (for both faces),
//          "length_mm", "area_mm2", "widths": [{"at_mm", "width_mm"}…] every 100 mm,
//                                       of that face's outline in its own board frame,
//          "sapwood": [{"x_mm", "y_mm": [crossings], "low_is_sap"}…], face A's board frame }
//    "marks": [{"kind", "on_a", "on_b": {"ellipse" | "stroke"}, "through", "depth_mm",
//               "depth_from", "soundness"}…]  face A's board frame
//  "seen_face": "A"|"B",
//  "outline_seen_mm": [[x, y]…] of the seen face in the seen frame (scene.h), counter-clockwise,
//  "board_from_seen": {"x", "y", "angle_rad"}  rigid motion from the seen frame into the board
//                     frame of the seen face as scanned by itself (right-handed from above it),
//  "cards": [{"number", "on", "x_mm", "y_mm", "angle_rad", "z_mm"}…]  centre, seen frame,
//  "card_thickness_mm", "card_scale",
//  "photos": [{ "file", "width_px", "height_px", "orientation",
//     "lens": {"focal_px", "cx", "cy", "k1", "k2"},
//     "camera_from_seen": 12 numbers, row by row of [R | t],
//     "tilt_deg", "mm_per_px" (middle of the picture),
//     "cards": [{"number", "saddles_px": [[x, y]…] by index into CardModel::saddles}…],
//     "tags": [{"number", "corners_px": 4 × [x, y]}…],
//     "outline_px": [[x, y]…] the arris of the seen face }…]
// }
#pragma once

#include <nlohmann/json.hpp>

#include "core/wood/mark.h"
#include "tests/support/scene.h"

namespace rackside::synthetic {

// fileNames: one a camera.
nlohmann::json sceneTruth(const SceneSpec& scene, const std::vector<std::string>& fileNames);

// The marks of the scene's board in the board frame of face A, sapwood bands included.
std::vector<Mark> marksInBoardFrame(const PlacedBoard& board);

nlohmann::json shapeJson(const MarkShape& shape);

}  // namespace rackside::synthetic
