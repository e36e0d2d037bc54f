// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <thread>

namespace rackside {

Result<FolderLock> FolderLock::acquire(const std::filesystem::path& folder, double waitSeconds) {
  const std::filesystem::path file = folder / ".rackside.lock";
  const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
  if (descriptor < 0)
    return Error{"Cannot write into " + folder.string() + ": " + std::strerror(errno) +
                 ". Check that you may write there."};
  const auto end = std::chrono::steady_clock::now() + std::chrono::duration<double>(waitSeconds);
  while (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    // A file system without locks (some network ones): go on without one.
    if (errno != EWOULDBLOCK && errno != EINTR) break;
    if (std::chrono::steady_clock::now() >= end) {
      ::close(descriptor);
      return Error{"Another program is writing into " + folder.string() +
                   ". Wait until it has finished, then try again."};
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  return FolderLock(descriptor);
}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace rackside
