// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/pov_writer.h"

#include <iomanip>

namespace rackside::synthetic {
namespace {

constexpr const char* kFinish = "finish { ambient 0.05 diffuse 0.8 }";

std::string vec(const cv::Vec3d& v) {
  std::ostringstream s;
  s << std::setprecision(9) << '<' << v[0] << ',' << v[2] << ',' << v[1] << '>';
  return s.str();
}

std::string plain(const cv::Vec3d& v) {
  std::ostringstream s;
  s << std::setprecision(6) << '<' << v[0] << ',' << v[1] << ',' << v[2] << '>';
  return s.str();
}

}  // namespace

PovWriter::PovWriter() {
  out_ << "#version 3.7;\nglobal_settings { assumed_gamma 1.0 max_trace_level 2 }\n"
          "background { rgb 0.15 }\n";
}

void PovWriter::camera(const cv::Vec3d& centre, const cv::Vec3d& right, const cv::Vec3d& down,
                       const cv::Vec3d& forward, double focalPx, int widthPx, int heightPx) {
  out_ << "camera { perspective location " << vec(centre) << " direction " << vec(focalPx * forward)
       << " right " << vec(widthPx * right) << " up " << vec(-heightPx * down) << " }\n";
}

void PovWriter::light(const cv::Vec3d& at, const cv::Vec3d& colour, double sizeMm, bool shadow) {
  out_ << "light_source { " << vec(at) << " rgb " << plain(colour);
  if (shadow && sizeMm > 0) {
    const cv::Vec3d to = -at / cv::norm(at);
    cv::Vec3d side = to.cross(cv::Vec3d(0, 0, 1));
    side = side / cv::norm(side);
    const cv::Vec3d over = to.cross(side);
    out_ << " area_light " << vec(sizeMm * side) << ", " << vec(sizeMm * over)
         << ", 5, 5 adaptive 0 jitter circular orient";
  }
  out_ << (shadow ? "" : " shadowless") << " }\n";
}

void PovWriter::mesh(const Mesh& m, const Rigid& worldFromMesh, const TextureMap& t) {
  out_ << std::setprecision(9) << "mesh2 { vertex_vectors { " << m.vertices.size();
  for (const cv::Vec3d& v : m.vertices) out_ << ',' << vec(worldFromMesh(v));
  out_ << " }\n uv_vectors { " << m.uv.size();
  for (const cv::Vec2d& uv : m.uv) {
    const double u = ((uv[0] - t.u0) / t.mmPerPx + 0.5) / t.widthPx;
    const double v = 1 - ((t.v1 - uv[1]) / t.mmPerPx + 0.5) / t.heightPx;
    out_ << ",<" << u << ',' << v << '>';
  }
  out_ << " }\n face_indices { " << m.triangles.size();
  for (const cv::Vec3i& f : m.triangles) out_ << ",<" << f[0] << ',' << f[1] << ',' << f[2] << '>';
  out_ << " }\n uv_mapping texture { pigment { image_map { png \"" << t.file
       << "\" interpolate 2 } } " << kFinish << " } }\n";
}

void PovWriter::box(const cv::Vec3d& size, const Rigid& worldFromBox, const cv::Vec3d& colour) {
  Mesh m;
  for (int i = 0; i < 8; ++i) {
    m.vertices.push_back({(i & 1) ? size[0] : 0, (i & 2) ? size[1] : 0, (i & 4) ? size[2] : 0});
  }
  const int faces[6][4] = {{0, 1, 3, 2}, {4, 5, 7, 6}, {0, 1, 5, 4},
                           {2, 3, 7, 6}, {0, 2, 6, 4}, {1, 3, 7, 5}};
  out_ << "mesh2 { vertex_vectors { 8";
  for (const cv::Vec3d& v : m.vertices) out_ << ',' << vec(worldFromBox(v));
  out_ << " } face_indices { 12";
  for (const auto& f : faces) {
    out_ << ",<" << f[0] << ',' << f[1] << ',' << f[2] << ">,<" << f[0] << ',' << f[2] << ','
         << f[3] << '>';
  }
  out_ << " } texture { pigment { srgb " << plain(colour) << " } " << kFinish << " } }\n";
}

void PovWriter::cylinder(const cv::Vec3d& from, const cv::Vec3d& to, double radius,
                         const Rigid& worldFromIt, const cv::Vec3d& colour) {
  out_ << "cylinder { " << vec(worldFromIt(from)) << ", " << vec(worldFromIt(to)) << ", " << radius
       << " texture { pigment { srgb " << plain(colour) << " } " << kFinish << " } }\n";
}

Mesh rectangleMesh(const Rect& r, double z) {
  Mesh m;
  for (const Point& p : {Point{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}}) {
    m.vertices.push_back({p.x, p.y, z});
    m.uv.push_back({p.x, p.y});
  }
  m.triangles = {{0, 1, 2}, {0, 2, 3}};
  return m;
}

}  // namespace rackside::synthetic
