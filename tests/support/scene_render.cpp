// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_render.h"

#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <opencv2/imgcodecs.hpp>
#include <sstream>

#include "tests/support/scene_camera.h"
#include "tests/support/scene_develop.h"
#include "tests/support/scene_pov.h"
#include "tests/support/scene_textures.h"
#include "tests/support/scene_truth.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {
namespace {

namespace fs = std::filesystem;

constexpr int kRendererVersion = 3;  // raise when the same scene renders otherwise

uint64_t fnv1a(const void* data, size_t size, uint64_t h = 1469598103934665603ULL) {
  const auto* p = static_cast<const unsigned char*>(data);
  for (size_t i = 0; i < size; ++i) h = (h ^ p[i]) * 1099511628211ULL;
  return h;
}

std::string keyOf(const SceneSpec& scene) {
  nlohmann::json j = scene;
  const std::string text = j.dump() + std::to_string(kRendererVersion);
  uint64_t h = fnv1a(text.data(), text.size());
  for (const CardPlacement& c : scene.cards) {
    const cv::Mat look = drawCard(cardModel(c.number), 1);
    h = fnv1a(look.data, look.total(), h);
  }
  std::ostringstream s;
  s << std::hex << std::setw(16) << std::setfill('0') << h;
  return s.str();
}

std::vector<std::string> fileNames(const SceneSpec& scene) {
  std::vector<std::string> names;
  for (size_t i = 0; i < scene.cameras.size(); ++i) {
    const std::string suffix = scene.cameras.size() > 1 ? "-" + std::to_string(i + 1) : "";
    names.push_back(scene.name + suffix + ".jpg");
  }
  return names;
}

// A folder that goes away with its holder.
class Workplace {
 public:
  Workplace() : folder(fs::temp_directory_path() / ("rackside-scene-" + std::to_string(getpid()))) {
    fs::create_directories(folder);
  }
  ~Workplace() {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  }
  Workplace(const Workplace&) = delete;
  Workplace& operator=(const Workplace&) = delete;
  const fs::path folder;
};

Result<cv::Mat> trace(const std::string& povText, const PinholeRaster& raster, int threads,
                      const fs::path& folder) {
  const fs::path source = folder / "scene.pov";
  const fs::path picture = folder / "scene.ppm";
  std::ofstream(source) << povText;
  std::ostringstream command;
  command << "cd '" << folder.string() << "' && nice -n 19 povray +Iscene.pov +Oscene.ppm +FP16 +W"
          << raster.widthPx << " +H" << raster.heightPx << " +WT" << threads
          << " -D -V +A0.12 +AM1 +R2 -J File_Gamma=1.0 > trace.log 2>&1";
  if (std::system(command.str().c_str()) != 0) {
    std::ifstream log(folder / "trace.log");
    std::stringstream text;
    text << log.rdbuf();
    return Error{"POV-Ray failed (is the package povray installed?):\n" + text.str()};
  }
  cv::Mat m = cv::imread(picture.string(), cv::IMREAD_UNCHANGED);
  if (m.type() != CV_16UC3) return Error{"POV-Ray wrote no 16 bit picture"};
  return m;
}

Status renderInto(const SceneSpec& scene, const fs::path& folder, const RenderOptions& options) {
  const Workplace work;
  std::vector<CameraPose> poses;
  double footprint = 1e9;
  for (const CameraSpec& c : scene.cameras) {
    poses.push_back(solveCamera(c, scene.board.shape));
    footprint = std::min(footprint, footprintMm(c, poses.back(), scene.board.shape.thicknessMm));
  }
  SceneTextures textures(work.folder, sceneCache(), footprint);
  const std::string solids = povSolids(scene, textures);
  const std::vector<std::string> names = fileNames(scene);
  for (size_t i = 0; i < scene.cameras.size(); ++i) {
    const CameraSpec& camera = scene.cameras[i];
    auto rendered = trace(solids + povCamera(scene, camera, poses[i]), pinholeRaster(camera),
                          options.threads, work.folder);
    if (!rendered.ok()) return rendered.error();
    const uint32_t seed = static_cast<uint32_t>(fnv1a(names[i].data(), names[i].size()));
    writePhoto(developPhoto(*rendered, camera, seed), camera, folder / names[i]);
  }
  std::ofstream(folder / (scene.name + ".truth.json")) << sceneTruth(scene, names).dump() << '\n';
  return success();
}

}  // namespace

fs::path sceneCache() {
  const char* own = std::getenv("RACKSIDE_SCENES");
  const char* xdg = std::getenv("XDG_CACHE_HOME");
  const char* home = std::getenv("HOME");
  fs::path base;
  if (own != nullptr && *own != 0) {
    base = own;
  } else if (xdg != nullptr && *xdg != 0) {
    base = fs::path(xdg) / "rackside-scenes";
  } else {
    base = fs::path(home != nullptr ? home : "/tmp") / ".cache" / "rackside-scenes";
  }
  fs::create_directories(base);
  return base;
}

Result<RenderedScene> renderScene(const SceneSpec& scene, const fs::path& folder,
                                  const RenderOptions& options) {
  const fs::path kept = sceneCache() / keyOf(scene);
  const std::vector<std::string> names = fileNames(scene);
  const std::string truthName = scene.name + ".truth.json";
  if (!options.useCache || !fs::exists(kept / truthName)) {
    const fs::path aside = kept.string() + "-" + std::to_string(getpid());
    fs::create_directories(aside);
    const Status done = renderInto(scene, aside, options);
    if (!done.ok()) {
      fs::remove_all(aside);
      return done.error();
    }
    fs::remove_all(kept);
    fs::rename(aside, kept);
  }
  fs::create_directories(folder);
  RenderedScene out;
  for (const std::string& n : names) {
    fs::copy_file(kept / n, folder / n, fs::copy_options::overwrite_existing);
    out.photos.push_back(folder / n);
  }
  out.truthFile = folder / truthName;
  fs::copy_file(kept / truthName, out.truthFile, fs::copy_options::overwrite_existing);
  std::ifstream in(out.truthFile);
  out.truth = nlohmann::json::parse(in);
  return out;
}

}  // namespace rackside::synthetic
