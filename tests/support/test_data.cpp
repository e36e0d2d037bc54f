// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/test_data.h"

#include <cstdlib>

namespace rackside::test {
namespace {

namespace fs = std::filesystem;

fs::path rootOf(const char* variable, const char* package) {
  if (const char* own = std::getenv(variable); own && *own) return own;
  fs::path cache;
  if (const char* given = std::getenv("XDG_CACHE_HOME"); given && *given)
    cache = given;
  else if (const char* home = std::getenv("HOME"); home && *home)
    cache = fs::path(home) / ".cache";
  const fs::path root = cache / "rackside-test-data" / package;
  return fs::exists(root / ".done") ? root : fs::path();
}

}  // namespace

fs::path openCvDocRoot() {
  return rootOf("RACKSIDE_OPENCV_DOC", "opencv-doc");
}
fs::path vispImagesRoot() {
  return rootOf("RACKSIDE_VISP_IMAGES", "visp-images-data");
}

}  // namespace rackside::test
