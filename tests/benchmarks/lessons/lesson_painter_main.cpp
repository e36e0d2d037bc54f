// SPDX-License-Identifier: GPL-3.0-or-later
// Paints lessons for the network of marks (tests/support/lesson_faces.h):
//
//   lesson_painter marks|clear FOLDER FIRST COUNT
//
// writes FOLDER/N.ppm and FOLDER/N.pgm (labels), a pair a seed; `clear` without marks and decoys.
#include <cstdio>
#include <fstream>
#include <string>

#include "tests/support/lesson_faces.h"

using namespace rackside::synthetic;

namespace {

bool write(const std::string& file, const cv::Mat& picture, const char* form) {
  std::ofstream out(file, std::ios::binary);
  out << form << '\n' << picture.cols << ' ' << picture.rows << "\n255\n";
  out.write(reinterpret_cast<const char*>(picture.data),
            static_cast<std::streamsize>(picture.total() * picture.elemSize()));
  return out.good();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 5) {
    std::fprintf(stderr, "usage: lesson_painter marks|clear FOLDER FIRST COUNT\n");
    return 2;
  }
  const bool clear = std::string(argv[1]) == "clear";
  const std::string folder = argv[2];
  const auto first = static_cast<uint32_t>(std::stoul(argv[3]));
  const auto count = static_cast<uint32_t>(std::stoul(argv[4]));
  for (uint32_t seed = first; seed < first + count; ++seed) {
    const Lesson lesson = clear ? paintClearLesson(seed) : paintLesson(seed);
    cv::Mat3b rgb(lesson.bgr.size());
    for (int y = 0; y < rgb.rows; ++y)
      for (int x = 0; x < rgb.cols; ++x) {
        const cv::Vec3b p = lesson.bgr(y, x);
        rgb(y, x) = {p[2], p[1], p[0]};
      }
    const std::string stem = folder + "/" + std::to_string(seed);
    if (!write(stem + ".ppm", rgb, "P6") || !write(stem + ".pgm", lesson.labels, "P5")) {
      std::fprintf(stderr, "%s cannot be written.\n", stem.c_str());
      return 1;
    }
  }
  return 0;
}
