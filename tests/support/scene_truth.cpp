// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_truth.h"

#include <cmath>

#include "core/geometry/polygon.h"
#include "tests/support/board_frame.h"
#include "tests/support/scene_camera.h"
#include "tests/support/scene_pose.h"
#include "tests/support/wood_defects.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {
namespace {

using nlohmann::json;

double rounded(double v, double step) {
  return std::round(v / step) * step;
}

json pointsJson(const std::vector<Point>& points, double step = 1e-4) {
  json j = json::array();
  for (const Point& p : points) j.push_back({rounded(p.x, step), rounded(p.y, step)});
  return j;
}

json pixelsJson(const std::vector<cv::Point2d>& points) {
  json j = json::array();
  for (const cv::Point2d& p : points) j.push_back({rounded(p.x, 1e-4), rounded(p.y, 1e-4)});
  return j;
}

MarkShape moved(const Pose& pose, const MarkShape& shape) {
  if (const auto* e = std::get_if<Ellipse>(&shape)) {
    return Ellipse{rackside::apply(pose, e->centre), e->semiX, e->semiY,
                   e->angleRad + pose.angleRad};
  }
  if (const auto* s = std::get_if<Stroke>(&shape))
    return Stroke{rackside::apply(pose, s->points), s->widthMm};
  return rackside::apply(pose, std::get<Polygon>(shape));
}

json sapwoodJson(const WoodLog& log, double z, const Polygon& outline, const Pose& boardFromModel) {
  json j = json::array();
  for (const SapwoodAt& at : sapwoodLine(log, z, bounds(outline), 10)) {
    json row;
    json ys = json::array();
    for (const double y : at.crossings) {
      const Point p = rackside::apply(boardFromModel, Point{at.x, y});
      ys.push_back({rounded(p.x, 1e-3), rounded(p.y, 1e-3)});
    }
    row["crossings_mm"] = ys;
    row["low_is_sap"] = at.lowIsSap;
    j.push_back(row);
  }
  return j;
}

json faceJson(const PlacedBoard& b, const Polygon& outline, double z, const Pose& boardFromModel) {
  const Polygon own = rackside::apply(boardFrameOf(outline), outline);
  json widths = json::array();
  for (const WidthAt& w : chordsEvery(own, 100)) {
    widths.push_back({{"at_mm", w.atMm}, {"width_mm", rounded(w.widthMm, 1e-4)}});
  }
  const WoodLog log(b.wood, b.shape.thicknessMm);
  return {{"outline_mm", pointsJson(rackside::apply(boardFromModel, outline))},
          {"length_mm", rounded(bounds(own).width(), 1e-4)},
          {"area_mm2", rounded(std::abs(signedArea(outline)), 0.1)},
          {"widths", widths},
          {"sapwood", sapwoodJson(log, z, outline, boardFromModel)}};
}

Polygon seenOutline(const SceneSpec& scene, const BoardSolid& solid) {
  if (scene.face != "B") return solid.outlineA;
  Polygon p;
  for (auto it = solid.outlineB.rbegin(); it != solid.outlineB.rend(); ++it) {
    p.push_back({it->x, scene.board.shape.widthMm - it->y});
  }
  return p;
}

json markJson(const Mark& m) {
  json j{{"kind", std::string(name(m.kind))}, {"through", m.through}};
  if (m.onA) j["on_a"] = shapeJson(*m.onA);
  if (m.onB) j["on_b"] = shapeJson(*m.onB);
  if (m.depthMm) {
    j["depth_mm"] = *m.depthMm;
    j["depth_from"] = m.depthFrom == Face::A ? "A" : "B";
  }
  if (m.soundness != Soundness::unknown) {
    j["soundness"] = m.soundness == Soundness::sound ? "sound" : "loose";
  }
  return j;
}

json photoJson(const SceneSpec& scene, const CameraSpec& camera, const Polygon& outline,
               const std::string& file) {
  const CameraPose pose = solveCamera(camera, scene.board.shape);
  const cv::Point2d pp = principalPoint(camera);
  const auto project = [&](const cv::Vec3d& p) { return projectPoint(camera, pose, p); };
  json j{{"file", file},
         {"width_px", camera.widthPx},
         {"height_px", camera.heightPx},
         {"orientation", camera.orientation},
         {"lens",
          {{"focal_px", camera.focalPx},
           {"cx", pp.x},
           {"cy", pp.y},
           {"k1", camera.k1},
           {"k2", camera.k2}}},
         {"tilt_deg", camera.tiltDeg},
         {"mm_per_px", footprintMm(camera, pose, scene.board.shape.thicknessMm)}};
  json matrix = json::array();
  for (int r = 0; r < 3; ++r) {
    for (int c = 0; c < 3; ++c) matrix.push_back(pose.cameraFromSeen(r, c));
    matrix.push_back(pose.translation[r]);
  }
  j["camera_from_seen"] = matrix;
  j["cards"] = json::array();
  for (const CardPlacement& c : scene.cards) {
    const CardModel model = cardModel(c.number);
    std::vector<cv::Point2d> px;
    for (const Point& s : model.saddles) {
      px.push_back(project(seenFromCard(scene, c, s, model.lengthMm, model.heightMm)));
    }
    j["cards"].push_back({{"number", c.number}, {"saddles_px", pixelsJson(px)}});
  }
  j["tags"] = json::array();
  for (const TagPlacement& t : scene.tags) {
    const TagModel model = tagModel(t.number);
    std::vector<cv::Point2d> px;
    for (const Point& c : model.code.corners) {
      px.push_back(project(seenFromTag(scene, t, c, model.sizeMm, model.heightMm)));
    }
    j["tags"].push_back({{"number", t.number}, {"corners_px", pixelsJson(px)}});
  }
  std::vector<cv::Point2d> edge;
  for (const Point& p : outline) {
    const cv::Vec3d seen(p.x, p.y, seenFaceZ(scene, p.x));
    edge.push_back(project(seen));
  }
  j["outline_px"] = pixelsJson(edge);
  return j;
}

}  // namespace

json shapeJson(const MarkShape& shape) {
  if (const auto* e = std::get_if<Ellipse>(&shape)) {
    return {{"ellipse",
             {{"x_mm", e->centre.x},
              {"y_mm", e->centre.y},
              {"semi_x_mm", e->semiX},
              {"semi_y_mm", e->semiY},
              {"angle_rad", e->angleRad}}}};
  }
  if (const auto* s = std::get_if<Stroke>(&shape)) {
    return {{"stroke", {{"points_mm", pointsJson(s->points, 0.01)}, {"width_mm", s->widthMm}}}};
  }
  return {{"polygon_mm", pointsJson(std::get<Polygon>(shape), 0.01)}};
}

std::vector<Mark> marksInBoardFrame(const PlacedBoard& board) {
  const Pose boardFromModel = boardFrameOf(boardSolid(board.shape).outlineA);
  std::vector<Mark> marks = trueMarks(WoodLog(board.wood, board.shape.thicknessMm));
  for (Mark& m : marks) {
    if (m.onA) m.onA = moved(boardFromModel, *m.onA);
    if (m.onB) m.onB = moved(boardFromModel, *m.onB);
  }
  return marks;
}

json sceneTruth(const SceneSpec& scene, const std::vector<std::string>& fileNames) {
  const PlacedBoard& b = scene.board;
  const BoardSolid solid = boardSolid(b.shape);
  const Pose boardFromModel = boardFrameOf(solid.outlineA);
  const Polygon seen = seenOutline(scene, solid);
  const Pose boardFromSeen = boardFrameOf(seen);
  json board{{"species", b.wood.species},
             {"thickness_mm", b.shape.thicknessMm},
             {"tag", scene.tags.empty() ? json() : json(scene.tags.front().number)},
             {"grey", b.grey},
             {"bow_mm", b.shape.bowMm},
             {"crook_mm", b.shape.crookMm},
             {"saw", b.wood.saw}};
  board["faces"] = {{"A", faceJson(b, solid.outlineA, b.shape.thicknessMm, boardFromModel)},
                    {"B", faceJson(b, solid.outlineB, 0, boardFromModel)}};
  board["marks"] = json::array();
  for (const Mark& m : marksInBoardFrame(b)) board["marks"].push_back(markJson(m));
  json cards = json::array();
  for (const CardPlacement& c : scene.cards) {
    cards.push_back({{"number", c.number},
                     {"on", c.on},
                     {"x_mm", c.x},
                     {"y_mm", c.y},
                     {"angle_rad", c.angleDeg * 3.14159265358979323846 / 180},
                     {"z_mm", seenFromCard(scene, c, {0, 0}, 0, 0)[2]}});
  }
  json photos = json::array();
  for (size_t i = 0; i < scene.cameras.size(); ++i) {
    photos.push_back(photoJson(scene, scene.cameras[i], seen, fileNames.at(i)));
  }
  return {{"format", "rackside-scene-truth"},
          {"version", 1},
          {"scene", scene.name},
          {"rendered", "ray-traced by POV-Ray from a synthetic board; no camera was used"},
          {"board", board},
          {"seen_face", scene.face},
          {"outline_seen_mm", pointsJson(seen)},
          {"board_from_seen",
           {{"x", boardFromSeen.origin.x},
            {"y", boardFromSeen.origin.y},
            {"angle_rad", boardFromSeen.angleRad}}},
          {"cards", cards},
          {"card_thickness_mm", scene.cardThicknessMm},
          {"card_scale", scene.cardScale},
          {"photos", photos}};
}

}  // namespace rackside::synthetic
