// SPDX-License-Identifier: GPL-3.0-or-later
// Keeps two programs from changing one rack at the same moment, and from reading it meanwhile.
#pragma once

#include <filesystem>

#include "core/base/result.h"

namespace rackside {

// Held from acquire() until destroyed; the system frees it should the program die, so that a lock
// file that was left behind holds nobody up. It is advisory (flock on FOLDER/.rackside.lock): it
// binds programs that ask for it. Who holds it stands in the file.
class FolderLock {
 public:
  enum class Kind {
    change,  // alone; makes the lock file when there is none
    read     // beside other readers; writes nothing, so it serves in a folder that is read-only
  };
  // Waits up to waitSeconds for another holder, then says who it is.
  static Result<FolderLock> acquire(const std::filesystem::path& folder, Kind kind = Kind::change,
                                    double waitSeconds = 30);
  FolderLock(FolderLock&& other) noexcept : descriptor_(other.descriptor_) {
    other.descriptor_ = -1;
  }
  FolderLock& operator=(FolderLock&&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int descriptor) : descriptor_(descriptor) {}
  int descriptor_;  // −1: no lock file, and nobody who could make one
};

}  // namespace rackside
