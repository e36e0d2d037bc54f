// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_pov.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "tests/support/scene_develop.h"
#include "tests/support/scene_pose.h"
#include "tests/support/scene_props.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {
namespace {

constexpr double kDegree = 3.14159265358979323846 / 180;

double lowestWorldZ(const BoardSolid& s, const Rigid& worldFromModel) {
  double lowest = 1e9;
  for (const Mesh* m : {&s.faceA, &s.faceB}) {
    for (const cv::Vec3d& v : m->vertices) lowest = std::min(lowest, worldFromModel(v)[2]);
  }
  return lowest;
}

// The board's six surfaces. Only the face that the cameras see is painted finely.
void addBoard(const PlacedBoard& b, const Rigid& worldFromModel, bool fine, bool seenTop,
              SceneTextures& textures, PovWriter& pov) {
  const BoardSolid s = boardSolid(b.shape);
  const WoodLog log(b.wood, b.shape.thicknessMm);
  PaintOptions o;
  o.grey = b.grey;
  o.sawMarks = b.sawMarks;
  const auto ofFace = [&](bool top) {  // the underside is hardly ever seen
    PaintOptions p = o;
    p.mmPerPx = top != seenTop ? 2.5 : (fine ? textures.paintMmPerPx() : 0.6);
    return p;
  };
  const Rect a = bounds(s.outlineA);
  const Rect under = bounds(s.outlineB);
  const auto grown = [](const Rect& r) { return Rect{r.x0 - 2, r.y0 - 2, r.x1 + 2, r.y1 + 2}; };
  pov.mesh(s.faceA, worldFromModel,
           textures.wood(paintFace(log, grown(a), b.shape.thicknessMm, ofFace(true))));
  pov.mesh(s.faceB, worldFromModel, textures.wood(paintFace(log, grown(under), 0, ofFace(false))));
  const Rect side{0, 0, b.shape.lengthMm, b.shape.thicknessMm};
  o.mmPerPx = 0.7;
  for (const bool far : {false, true}) {
    const bool bark = far ? s.farIsBark : s.nearIsBark;
    const double y = far ? b.shape.widthMm : 0;
    const TextureMap t = bark ? textures.bark(side.x1, side.y1, b.wood.seed + (far ? 5 : 6), b.grey)
                              : textures.wood(paintEdge(log, side, y, o));
    pov.mesh(far ? s.farSide : s.nearSide, worldFromModel, t);
  }
  const Rect end{std::min(a.y0, under.y0) - 2, 0, std::max(a.y1, under.y1) + 2,
                 b.shape.thicknessMm};
  pov.mesh(s.leftEnd, worldFromModel, textures.wood(paintEnd(log, end, 0, o)));
  pov.mesh(s.rightEnd, worldFromModel, textures.wood(paintEnd(log, end, b.shape.lengthMm, o)));
}

void addCards(const SceneSpec& scene, const Rigid& worldFromSeenFrame, SceneTextures& textures,
              PovWriter& pov) {
  for (const CardPlacement& c : scene.cards) {
    const CardModel model = cardModel(c.number);
    Mesh top = rectangleMesh({0, 0, model.lengthMm, model.heightMm}, 0);
    Mesh side;
    for (cv::Vec3d& v : top.vertices) {
      v = seenFromCard(scene, c, {v[0], v[1]}, model.lengthMm, model.heightMm);
    }
    pov.mesh(top, worldFromSeenFrame, textures.card(c.number));
    // The stock under it: the same corners, lower by its thickness.
    const cv::Vec3d x = top.vertices[1] - top.vertices[0];
    const cv::Vec3d y = top.vertices[3] - top.vertices[0];
    cv::Vec3d z = x.cross(y);
    z = z / cv::norm(z);
    const cv::Vec3d ux = x / cv::norm(x), uy = y / cv::norm(y);
    const Rigid boxPose{cv::Matx33d(ux[0], uy[0], z[0], ux[1], uy[1], z[1], ux[2], uy[2], z[2]),
                        top.vertices[0] - scene.cardThicknessMm * z};
    const bool paper = scene.cardThicknessMm < 1;
    pov.box({cv::norm(x), cv::norm(y), scene.cardThicknessMm - 0.05},
            boxPose.then(worldFromSeenFrame),
            paper ? cv::Vec3d(0.9, 0.9, 0.88) : cv::Vec3d(0.55, 0.42, 0.30));
  }
  for (const TagPlacement& t : scene.tags) {
    const TagModel model = tagModel(t.number);
    Mesh top = rectangleMesh({0, 0, model.sizeMm, model.heightMm}, 0);
    for (cv::Vec3d& v : top.vertices) {
      v = seenFromTag(scene, t, {v[0], v[1]}, model.sizeMm, model.heightMm);
    }
    pov.mesh(top, worldFromSeenFrame, textures.tag(t.number));
  }
}

void addGround(const SceneSpec& scene, double floorZ, const cv::Vec3d& middle,
               SceneTextures& textures, PovWriter& pov) {
  // Three times the picture each way: the renderer repeats a texture beyond its border.
  const Mesh ground = rectangleMesh({-3 * kGroundHalfLengthMm, -3 * kGroundHalfDepthMm,
                                     3 * kGroundHalfLengthMm, 3 * kGroundHalfDepthMm},
                                    0);
  const bool leaning = scene.place == "edge" || scene.place == "upright";
  Rigid r;
  r.move = {middle[0], leaning ? middle[1] - 1800 : middle[1], floorZ};
  pov.mesh(ground, r, textures.ground(scene.ground));
}

// The wall that a leaning board touches with its top.
void addWall(double wallY, double floorZ, double middleX, SceneTextures& textures, PovWriter& pov) {
  const Mesh sheet = rectangleMesh(
      {-kGroundHalfLengthMm, -kGroundHalfDepthMm, kGroundHalfLengthMm, kGroundHalfDepthMm}, 0);
  Rigid r;
  r.turn = cv::Matx33d(1, 0, 0, 0, 0, 1, 0, 1, 0);  // its y becomes up
  r.move = {middleX, wallY, floorZ + kGroundHalfDepthMm};
  pov.mesh(sheet, r, textures.ground("plaster"));
  Rigid skirting;
  skirting.move = {middleX - kGroundHalfLengthMm, wallY - 14, floorZ};
  pov.box({2 * kGroundHalfLengthMm, 14, 95}, skirting, {0.74, 0.72, 0.68});
}

void addLights(const SceneSpec& scene, const cv::Vec3d& middle, PovWriter& pov) {
  const LightSpec& l = scene.light;
  const double w = l.warmth;
  const cv::Vec3d tone(1 + 0.16 * w, 1.0, 1 - 0.22 * w);
  const double az = l.azimuthDeg * kDegree, el = l.elevationDeg * kDegree;
  const cv::Vec3d dir(std::cos(az) * std::cos(el), std::sin(az) * std::cos(el), std::sin(el));
  const cv::Vec3d key = (1 - l.fill) * tone;
  if (l.kind == "sun") {
    pov.light(middle + 30000 * dir, key, 500, true);
  } else if (l.kind == "lamps") {
    const cv::Vec3d along(1100, 0, 0);
    pov.light(middle + 2600 * dir + along, 0.5 * key, 420, true);
    pov.light(middle + 2600 * dir - along, 0.5 * key, 420, true);
  } else {
    pov.light(middle + 5000 * dir, key, 1500, true);
  }
  pov.light(middle + cv::Vec3d(900, -3600, 6000), l.fill * tone, 0, false);
}

}  // namespace

std::string povSolids(const SceneSpec& scene, SceneTextures& textures) {
  PovWriter pov;
  const Rigid world = worldFromSeen(scene);
  const Rigid board = seenFromModel(scene).then(world);
  const BoardShape& b = scene.board.shape;
  const cv::Vec3d middle = world({0.5 * b.lengthMm, 0.5 * b.widthMm, b.thicknessMm});
  const double lowest = lowestWorldZ(boardSolid(b), board);
  const double supportZ = addSupports(scene, lowest, textures, pov);
  addBoard(scene.board, board, true, scene.face != "B", textures, pov);
  for (const PlacedBoard& c : scene.clutter) {
    addBoard(c, seenFromClutter(c).then(world), false, true, textures, pov);
  }
  addCards(scene, world, textures, pov);
  for (const ToolPlacement& t : scene.tools) addTool(t, world, pov);
  addGround(scene, supportZ, middle, textures, pov);
  const double lean = scene.leanDeg * kDegree;
  const double reach = scene.place == "edge" ? b.widthMm : b.lengthMm;
  if (scene.place == "edge" || scene.place == "upright") {
    addWall(reach * std::cos(lean) + 2, supportZ, middle[0], textures, pov);
  }
  addLights(scene, middle, pov);
  return pov.text();
}

std::string povCamera(const SceneSpec& scene, const CameraSpec& camera, const CameraPose& pose) {
  const Rigid world = worldFromSeen(scene);
  const PinholeRaster raster = pinholeRaster(camera);
  const cv::Matx33d& r = pose.cameraFromSeen;
  const auto axis = [&](int i) { return world.turn * cv::Vec3d(r(i, 0), r(i, 1), r(i, 2)); };
  PovWriter pov;
  pov.camera(world(pose.centreSeen()), axis(0), axis(1), axis(2),
             camera.renderScale * camera.focalPx, raster.widthPx, raster.heightPx);
  const std::string text = pov.text();
  return text.substr(text.find("camera"));
}

}  // namespace rackside::synthetic
