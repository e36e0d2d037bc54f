// SPDX-License-Identifier: GPL-3.0-or-later
// Renders scenes with known truth.
//
//   scene_maker scene FILE.json… -o DIR       scene descriptions (SceneSpec as JSON)
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "tests/support/scene_render.h"

using namespace rackside::synthetic;

namespace {

int renderFile(const std::string& file, const std::string& folder) {
  std::ifstream in(file);
  if (!in) {
    std::fprintf(stderr, "cannot read %s\n", file.c_str());
    return 1;
  }
  const SceneSpec scene = nlohmann::json::parse(in).get<SceneSpec>();
  const auto done = renderScene(scene, folder);
  if (!done.ok()) {
    std::fprintf(stderr, "%s: %s\n", scene.name.c_str(), done.error().message.c_str());
    return 1;
  }
  std::printf("%s: %zu photographs\n", scene.name.c_str(), done->photos.size());
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  std::string folder = ".";
  std::vector<std::string> files;
  for (int i = 2; i < argc; ++i) {
    if (std::string(argv[i]) == "-o" && i + 1 < argc) {
      folder = argv[++i];
    } else {
      files.push_back(argv[i]);
    }
  }
  if (argc < 3 || std::string(argv[1]) != "scene" || files.empty()) {
    std::fprintf(stderr, "usage: scene_maker scene FILE.json... -o DIR\n");
    return 2;
  }
  for (const std::string& f : files) {
    if (const int rc = renderFile(f, folder)) return rc;
  }
  return 0;
}
