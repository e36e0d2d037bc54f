// SPDX-License-Identifier: GPL-3.0-or-later
// Textures of a scene as files for the renderer, softened to the camera's footprint so that one ray
// a pixel suffices. What does not depend on the scene (floors, walls) is kept from run to run.
#pragma once

#include <filesystem>
#include <opencv2/core.hpp>
#include <string>

#include "tests/support/pov_writer.h"
#include "tests/support/scene.h"
#include "tests/support/wood_face.h"

namespace rackside::synthetic {

class SceneTextures {
 public:
  // `folder` takes this scene's files, `kept` the shared ones. footprintMm: of the closest camera.
  SceneTextures(std::filesystem::path folder, std::filesystem::path kept, double footprintMm);

  TextureMap wood(const PaintedWood& painted);
  TextureMap bark(double lengthMm, double heightMm, uint32_t seed, double grey);
  TextureMap card(int number);
  TextureMap tag(int number);
  // Grounds in mm, u and v from -half to +half of 7 m × 5 m.
  TextureMap ground(const std::string& kind);
  double paintMmPerPx() const { return paintMmPerPx_; }

 private:
  TextureMap save(cv::Mat bgr, double mmPerPx, double u0, double v1);

  std::filesystem::path folder_, kept_;
  double footprintMm_, paintMmPerPx_;
  int count_ = 0;
};

inline constexpr double kGroundHalfLengthMm = 3500, kGroundHalfDepthMm = 2500;

}  // namespace rackside::synthetic
