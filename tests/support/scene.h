// SPDX-License-Identifier: GPL-3.0-or-later
// A ray-traced photograph of a board with reference cards, and the truth about it.
//
// Frames. Model frame: the board's own (wood_spec.h). Seen frame: mm, right-handed, z out of the
// face that is photographed, x and y of the model frame when that is face A; when it is face B the
// board has been turned over about its long axis: x' = x, y' = widthMm - y, z' = thicknessMm - z.
// z' = 0 is the plane that the board lies on. World: z up. Image frame as in vision/photo/photo.h.
//
// The picture is rendered by POV-Ray (its own left-handed frame is (x, z, y) of ours) as an exact
// pinhole larger than the photograph; the lens, blur, noise, vignette and JPEG are added here.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/board_solid.h"
#include "tests/support/wood_spec.h"

namespace rackside::synthetic {

struct PlacedBoard {
  BoardShape shape;
  WoodSpec wood;
  double grey = 0.75;
  bool sawMarks = true;
  // Clutter only: where its model frame lies in the seen frame.
  double x = 0, y = 0, z = 0, yawDeg = 0;
};

struct CardPlacement {
  int number = 1;
  std::string on = "board";  // board, bench
  double x = 0, y = 0;       // of the card's centre, seen frame
  double angleDeg = 0;
};

struct TagPlacement {
  int number = 1;
  double x = 0, y = 0;  // of the tag's centre, seen frame
  double angleDeg = 0;
};

// A plain solid lying about: pencil, tape, square, mallet, clamp, mug, block.
struct ToolPlacement {
  std::string kind = "pencil";
  double x = 0, y = 0, z = 0, yawDeg = 0;
};

struct LightSpec {
  std::string kind = "window";  // window, sun, lamps
  double azimuthDeg = 120;      // where it comes from, in the world's plan, from +x
  double elevationDeg = 50;
  double fill = 0.4;  // share of shadowless light
  double warmth = 0;  // -1 blue sky … 1 tungsten
};

struct CameraSpec {
  double fromX = 0, toX = 0;  // stretch of the board to take in; both 0: all of it
  double fit = 0.92;          // share of the picture's width (or height) that it fills
  double tiltDeg = 0;         // of the line of sight from the face's normal …
  double azimuthDeg = -90;    // … towards this direction in the seen frame (-90: the near side)
  double rollDeg = 0;
  double aimY = 0.5;  // share of the width that the camera looks at
  int widthPx = 4000, heightPx = 3000;
  double focalPx = 3050;
  double renderScale = 0.8;     // rays a pixel each way; the edges of things get more
  double cxOff = 0, cyOff = 0;  // principal point from the middle of the raster
  double k1 = 0, k2 = 0;        // vision/lens/lens.h
  double exposureEv = 0;
  double vignette = 0.25;  // darkening in the corners
  double blurPx = 0.7;     // sigma
  double noise = 0.010;    // sigma at mid grey, share of full scale
  int jpegQuality = 90;
  int orientation = 1;  // EXIF
  bool exif = true;
  double exifFocalError = 0;  // how far the EXIF focal length is from the truth (share)
  std::string make = "Lumenweave", model = "L2 phone";
};

struct SceneSpec {
  std::string name;
  PlacedBoard board;
  std::string face = "A";           // the one photographed
  std::string place = "floor";      // floor, trestles, bench, edge (leaning on its edge), upright
  std::string ground = "concrete";  // concrete, planks, boardsheet
  std::string benchWood = "maple";
  double leanDeg = 77;  // of the face from level, for edge and upright
  std::vector<CardPlacement> cards;
  std::vector<TagPlacement> tags;
  double cardThicknessMm = 0.25;
  double cardScale = 1;  // printed size / nominal size
  std::vector<PlacedBoard> clutter;
  std::vector<ToolPlacement> tools;
  LightSpec light;
  std::vector<CameraSpec> cameras;  // one photograph each
};

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(PlacedBoard, shape, wood, grey, sawMarks, x, y, z,
                                                yawDeg)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(CardPlacement, number, on, x, y, angleDeg)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(TagPlacement, number, x, y, angleDeg)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(ToolPlacement, kind, x, y, z, yawDeg)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(LightSpec, kind, azimuthDeg, elevationDeg, fill,
                                                warmth)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(CameraSpec, fromX, toX, fit, tiltDeg, azimuthDeg,
                                                rollDeg, aimY, widthPx, heightPx, focalPx,
                                                renderScale, cxOff, cyOff, k1, k2, exposureEv,
                                                vignette, blurPx, noise, jpegQuality, orientation,
                                                exif, exifFocalError, make, model)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(SceneSpec, name, board, face, place, ground,
                                                benchWood, leanDeg, cards, tags, cardThicknessMm,
                                                cardScale, clutter, tools, light, cameras)

}  // namespace rackside::synthetic
