// SPDX-License-Identifier: GPL-3.0-or-later
// A folder of its own for one test, gone afterwards.
#pragma once

#include <filesystem>

#include "core/base/id.h"

namespace rackside::tests {

class TemporaryFolder {
 public:
  TemporaryFolder() : path_(std::filesystem::temp_directory_path() / newIdText("rackside-test")) {
    std::filesystem::create_directories(path_);
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace rackside::tests
