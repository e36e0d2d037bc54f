// SPDX-License-Identifier: GPL-3.0-or-later
// Renders scenes with known truth; see the usage text below.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "core/storage/json_forms.h"
#include "tests/support/maker_marks.h"
#include "tests/support/scene_random.h"
#include "tests/support/scene_render.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

namespace fs = std::filesystem;

constexpr const char* kUsage =
    "usage:\n"
    "  scene_maker scene FILE.json... -o DIR   photographs and truth of scene descriptions\n"
    "  scene_maker random CASE FROM TO -o DIR  random scenes of seeds FROM to TO; CASE \"all\": "
    "each\n"
    "  scene_maker cases                       the names of the cases\n"
    "  scene_maker describe CASE SEED          the description of a random scene, as JSON\n"
    "  scene_maker marks FILE.json... -o FILE  the marks a maker would draw, by board tag\n";

struct Arguments {
  std::vector<std::string> words;
  std::string out = ".";
};

Arguments argumentsOf(int argc, char** argv) {
  Arguments a;
  for (int i = 1; i < argc; ++i) {
    if (std::string(argv[i]) == "-o" && i + 1 < argc) {
      a.out = argv[++i];
    } else {
      a.words.push_back(argv[i]);
    }
  }
  return a;
}

SceneSpec readScene(const std::string& file) {
  std::ifstream in(file);
  if (!in) throw std::runtime_error("cannot read " + file);
  return nlohmann::json::parse(in).get<SceneSpec>();
}

void render(const SceneSpec& scene, const std::string& folder) {
  const auto done = renderScene(scene, folder);
  if (!done.ok()) throw std::runtime_error(scene.name + ": " + done.error().message);
  std::printf("%s: %zu photographs\n", scene.name.c_str(), done->photos.size());
  std::fflush(stdout);
}

std::vector<SceneCase> casesNamed(const std::string& word) {
  if (word == "all") return allSceneCases();
  for (const SceneCase c : allSceneCases()) {
    if (name(c) == word) return {c};
  }
  throw std::runtime_error("no case named " + word + "; see scene_maker cases");
}

void renderRandom(const Arguments& a) {
  const auto from = static_cast<uint32_t>(std::stoul(a.words.at(2)));
  const auto to = static_cast<uint32_t>(std::stoul(a.words.at(3)));
  for (uint32_t seed = from; seed <= to; ++seed) {
    for (const SceneCase c : casesNamed(a.words.at(1))) render(randomScene(c, seed), a.out);
  }
}

// One entry a board, though a board has a scene for each face.
void writeMarks(const Arguments& a) {
  struct Seen {
    PlacedBoard board;
    FacesLookedAt faces{false, false};
  };
  std::map<int, Seen> byTag;
  for (size_t i = 1; i < a.words.size(); ++i) {
    const SceneSpec scene = readScene(a.words[i]);
    if (scene.tags.empty()) continue;
    Seen& seen = byTag[scene.tags.front().number];
    seen.board = scene.board;
    (scene.face == "B" ? seen.faces.b : seen.faces.a) = true;
  }
  nlohmann::json document{{"format", "rackside-marks"}, {"version", 1}};
  document["boards"] = nlohmann::json::array();
  for (const auto& [tag, seen] : byTag) {
    nlohmann::json marks = nlohmann::json::array();
    for (const Mark& m : makerMarks(seen.board, std::to_string(tag), seen.faces)) {
      if (const Status sound = validate(m); !sound) throw std::runtime_error(sound.error().message);
      marks.push_back(toJson(m));
    }
    document["boards"].push_back({{"tag", tag}, {"marks", marks}});
  }
  std::ofstream(a.out) << document.dump(1) << '\n';
}

int run(const Arguments& a) {
  const std::string verb = a.words.empty() ? "" : a.words[0];
  if (verb == "scene" && a.words.size() > 1) {
    for (size_t i = 1; i < a.words.size(); ++i) render(readScene(a.words[i]), a.out);
  } else if (verb == "random" && a.words.size() == 4) {
    renderRandom(a);
  } else if (verb == "cases") {
    for (const SceneCase c : allSceneCases()) std::printf("%s\n", std::string(name(c)).c_str());
  } else if (verb == "describe" && a.words.size() == 3) {
    const auto seed = static_cast<uint32_t>(std::stoul(a.words[2]));
    const nlohmann::json j = randomScene(casesNamed(a.words[1]).front(), seed);
    std::printf("%s\n", j.dump(1).c_str());
  } else if (verb == "marks" && a.words.size() > 1) {
    writeMarks(a);
  } else {
    std::fputs(kUsage, stderr);
    return 2;
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argumentsOf(argc, argv));
  } catch (const std::exception& e) {
    std::fprintf(stderr, "scene_maker: %s\n", e.what());
    return 1;
  }
}
