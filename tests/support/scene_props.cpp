// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_props.h"

#include <cmath>
#include <stdexcept>

namespace rackside::synthetic {
namespace {

constexpr double kDegree = 3.14159265358979323846 / 180;
constexpr double kTrestleHeightMm = 720, kBenchHeightMm = 860, kBattenMm = 18;

const cv::Vec3d kPine(0.76, 0.62, 0.42), kSteel(0.62, 0.63, 0.65), kDark(0.16, 0.16, 0.17),
    kYellow(0.83, 0.66, 0.14), kRed(0.62, 0.16, 0.12), kBeech(0.78, 0.60, 0.42);

Rigid moved(double x, double y, double z) {
  Rigid r;
  r.move = {x, y, z};
  return r;
}

void addTrestle(double x, double width, PovWriter& pov) {
  const double y0 = -160, span = width + 320;
  pov.box({55, span, 95}, moved(x - 27, y0, -95), kPine);
  for (const double y : {y0 + 40, y0 + span - 85}) {
    pov.cylinder({x - 10, y + 20, -95}, {x - 190, y + 10, -kTrestleHeightMm}, 22, {}, kPine);
    pov.cylinder({x + 10, y + 20, -95}, {x + 190, y + 10, -kTrestleHeightMm}, 22, {}, kPine);
  }
}

void addBench(const SceneSpec& scene, SceneTextures& textures, PovWriter& pov) {
  const BoardShape& b = scene.board.shape;
  const double x0 = -350, x1 = b.lengthMm + 350;
  const double y0 = -260, y1 = b.widthMm + 300;
  const TextureMap t = textures.ground(scene.benchWood);
  Rigid r = moved(0.5 * (x0 + x1), 0.5 * (y0 + y1), -0.05);
  const double halfX = 0.5 * (x1 - x0), halfY = 0.5 * (y1 - y0);
  pov.mesh(rectangleMesh({-halfX, -halfY, halfX, halfY}, 0), r, t);
  pov.box({x1 - x0, y1 - y0, 69}, moved(x0, y0, -69.5), kBeech);
  pov.box({x1 - x0 - 300, 40, 120}, moved(x0 + 150, y0 + 40, -190), kPine);
}

}  // namespace

double addSupports(const SceneSpec& scene, double lowestWorldZ, SceneTextures& textures,
                   PovWriter& pov) {
  const BoardShape& b = scene.board.shape;
  if (scene.place == "trestles") {
    for (const double share : {0.18, 0.82}) addTrestle(share * b.lengthMm, b.widthMm, pov);
    return -kTrestleHeightMm;
  }
  if (scene.place == "bench") {
    addBench(scene, textures, pov);
    return -kBenchHeightMm;
  }
  if (scene.place == "battens") {
    for (const double share : {0.12, 0.5, 0.88}) {
      pov.box({24, b.widthMm + 60, kBattenMm}, moved(share * b.lengthMm - 12, -30, -kBattenMm),
              kPine);
    }
    return -kBattenMm;
  }
  return lowestWorldZ - 0.1;
}

void addTool(const ToolPlacement& tool, const Rigid& worldFromSeenFrame, PovWriter& pov) {
  const double a = tool.yawDeg * kDegree;
  const Rigid own{cv::Matx33d(std::cos(a), -std::sin(a), 0, std::sin(a), std::cos(a), 0, 0, 0, 1),
                  {tool.x, tool.y, tool.z}};
  const Rigid at = own.then(worldFromSeenFrame);
  const auto box = [&](cv::Vec3d corner, cv::Vec3d size, const cv::Vec3d& colour) {
    pov.box(size, moved(corner[0], corner[1], corner[2]).then(at), colour);
  };
  if (tool.kind == "pencil") {
    pov.cylinder({0, 0, 3.6}, {150, 0, 3.6}, 3.6, at, kRed);
    pov.cylinder({150, 0, 3.6}, {168, 0, 3.6}, 1.8, at, kBeech);
  } else if (tool.kind == "tape") {
    box({0, 0, 0}, {72, 68, 36}, kYellow);
    box({72, 4, 0}, {40, 22, 3}, kSteel);
  } else if (tool.kind == "square") {
    box({0, 0, 0}, {22, 140, 14}, kDark);
    box({22, 4, 5}, {230, 36, 2}, kSteel);
  } else if (tool.kind == "mallet") {
    box({0, 0, 0}, {70, 130, 80}, kBeech);
    pov.cylinder({70, 65, 40}, {330, 65, 16}, 15, at, kBeech);
  } else if (tool.kind == "clamp") {
    box({0, 0, 0}, {620, 26, 8}, kSteel);
    box({10, 0, 0}, {30, 95, 22}, kDark);
    box({330, 0, 0}, {34, 95, 24}, kDark);
    pov.cylinder({364, 70, 12}, {500, 70, 12}, 11, at, kBeech);
  } else if (tool.kind == "mug") {
    pov.cylinder({0, 0, 0}, {0, 0, 92}, 40, at, {0.28, 0.38, 0.52});
  } else if (tool.kind == "block") {
    box({0, 0, 0}, {160, 85, 22}, kPine);
  } else {
    throw std::logic_error("no tool named " + tool.kind);
  }
}

}  // namespace rackside::synthetic
