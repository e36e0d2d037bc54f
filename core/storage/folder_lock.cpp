// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <ctime>
#include <thread>

namespace rackside {
namespace {

constexpr std::chrono::milliseconds kBetweenTries(10);

// "rackside 1234 on bench since 14:05:10", by the one who holds it.
std::string ownLine() {
  char host[256] = "?", since[32] = "";
  ::gethostname(host, sizeof host - 1);
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  if (::localtime_r(&now, &local)) std::strftime(since, sizeof since, "%H:%M:%S", &local);
  return std::string(::program_invocation_short_name) + " (process " + std::to_string(::getpid()) +
         " on " + host + ", since " + since + ")";
}

// A line that cannot be written is missed by nobody but the one who waits.
void writeHolder(int descriptor) {
  const std::string line = ownLine();
  if (::ftruncate(descriptor, 0) == 0 && ::pwrite(descriptor, line.data(), line.size(), 0) < 0)
    (void)::ftruncate(descriptor, 0);
}

std::string holderOf(int descriptor) {
  std::array<char, 400> line{};
  const ssize_t size = ::pread(descriptor, line.data(), line.size(), 0);
  const std::string text(line.data(), static_cast<size_t>(std::max<ssize_t>(0, size)));
  return text.empty() ? "Another program" : text;
}

}  // namespace

Result<FolderLock> FolderLock::acquire(const std::filesystem::path& folder, Kind kind,
                                       double waitSeconds) {
  const std::filesystem::path file = folder / ".rackside.lock";
  const bool change = kind == Kind::change;
  const int descriptor =
      ::open(file.c_str(), change ? O_RDWR | O_CREAT | O_CLOEXEC : O_RDONLY | O_CLOEXEC, 0666);
  if (descriptor < 0 && !change) return FolderLock(-1);
  if (descriptor < 0)
    return Error{"Cannot write into " + folder.string() + ": " + std::strerror(errno) +
                 ". Check that you may write there."};
  const auto end = std::chrono::steady_clock::now() + std::chrono::duration<double>(waitSeconds);
  while (::flock(descriptor, (change ? LOCK_EX : LOCK_SH) | LOCK_NB) != 0) {
    // A file system without locks (some network ones): go on without one.
    if (errno != EWOULDBLOCK && errno != EINTR) break;
    if (std::chrono::steady_clock::now() >= end) {
      const std::string holder = holderOf(descriptor);
      ::close(descriptor);
      return Error{holder + " is working on " + folder.string() +
                   ". Wait until it has finished, then try again."};
    }
    std::this_thread::sleep_for(kBetweenTries);
  }
  if (change) writeHolder(descriptor);
  return FolderLock(descriptor);
}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace rackside
