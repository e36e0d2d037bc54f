// SPDX-License-Identifier: GPL-3.0-or-later
// Writes POV-Ray scene text from solids in our world frame (right-handed, z up). POV-Ray's frame is
// left-handed with y up: its (x, y, z) is our (x, z, y), a reflection that turns one into the
// other.
#pragma once

#include <opencv2/core.hpp>
#include <sstream>
#include <string>

#include "tests/support/board_solid.h"
#include "tests/support/scene_pose.h"

namespace rackside::synthetic {

// Where a texture's pixels lie in (u, v) mm: as in PaintedWood.
struct TextureMap {
  std::string file;
  double mmPerPx = 1, u0 = 0, v1 = 0;
  int widthPx = 1, heightPx = 1;
};

class PovWriter {
 public:
  void camera(const cv::Vec3d& centre, const cv::Vec3d& right, const cv::Vec3d& down,
              const cv::Vec3d& forward, double focalPx, int widthPx, int heightPx);
  void light(const cv::Vec3d& at, const cv::Vec3d& colour, double sizeMm, bool shadow);
  void mesh(const Mesh& mesh, const Rigid& worldFromMesh, const TextureMap& texture);
  // A box from (0, 0, 0) to size in its own frame, of one colour (sRGB, red green blue 0..1).
  void box(const cv::Vec3d& size, const Rigid& worldFromBox, const cv::Vec3d& colour);
  void cylinder(const cv::Vec3d& from, const cv::Vec3d& to, double radius, const Rigid& worldFromIt,
                const cv::Vec3d& colour);
  std::string text() const { return out_.str(); }
  PovWriter();

 private:
  std::ostringstream out_;
};

// A rectangle u0..u1 × v0..v1 in the plane z of its own frame, textured with (u, v) = (x, y).
Mesh rectangleMesh(const Rect& r, double z);

}  // namespace rackside::synthetic
