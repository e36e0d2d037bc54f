// SPDX-License-Identifier: GPL-3.0-or-later
// Keeps two programs from writing into one rack at the same moment.
#pragma once

#include <filesystem>

#include "core/base/result.h"

namespace rackside {

// Held from acquire() until destroyed; the system frees it should the program die. It is advisory
// (flock on FOLDER/.rackside.lock): it binds programs that ask for it.
class FolderLock {
 public:
  // Waits up to waitSeconds for another holder.
  static Result<FolderLock> acquire(const std::filesystem::path& folder, double waitSeconds = 5);
  FolderLock(FolderLock&& other) noexcept : descriptor_(other.descriptor_) {
    other.descriptor_ = -1;
  }
  FolderLock& operator=(FolderLock&&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_;
};

}  // namespace rackside
