// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/atomic_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

#include "core/base/id.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

Error writeError(const fs::path& file, int code) {
  return Error{"Cannot write " + file.string() + ": " + std::strerror(code) +
               ". Check that you may write there and that the disk has room; nothing there was "
               "changed."};
}

// Returns 0 or the errno of what failed.
int writeAndSync(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    bytes.remove_prefix(static_cast<size_t>(written));
  }
  return ::fsync(descriptor) == 0 ? 0 : errno;
}

// After a rename the folder's own entry must reach the disk too. A file system that cannot sync a
// folder (some network ones) is no failure: the rename stands.
void syncFolder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

// A new file keeps the permissions of the one it replaces.
mode_t modeFor(const fs::path& target) {
  struct stat before {};
  return ::stat(target.c_str(), &before) == 0 ? before.st_mode & 07777 : 0;
}

int writeAside(const fs::path& aside, std::string_view bytes, mode_t mode) {
  const int descriptor = ::open(aside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (descriptor < 0) return errno;
  int code = writeAndSync(descriptor, bytes);
  if (code == 0 && mode != 0 && ::fchmod(descriptor, mode) != 0) code = errno;
  if (::close(descriptor) != 0 && code == 0) code = errno;
  return code;
}

}  // namespace

Status writeFileAtomically(const fs::path& file, std::string_view bytes) {
  std::error_code error;
  // A link stays a link: the file it points to is replaced.
  const fs::path target = fs::is_symlink(file, error) ? fs::weakly_canonical(file, error) : file;
  if (fs::is_directory(target, error)) return writeError(file, EISDIR);
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  const fs::path aside = folder / ("." + newIdText(target.filename().string()) + ".part");
  int code = writeAside(aside, bytes, modeFor(target));
  if (code == 0 && ::rename(aside.c_str(), target.c_str()) != 0) code = errno;
  if (code != 0) {
    ::unlink(aside.c_str());
    return writeError(file, code);
  }
  syncFolder(folder);
  return success();
}

Result<std::string> readFile(const fs::path& file) {
  std::error_code error;
  if (!fs::exists(file, error))
    return Error{"There is no file " + file.string() + ". Check its name and folder."};
  if (!fs::is_regular_file(file, error)) return Error{file.string() + " is not a file."};
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream bytes;
  if (stream) bytes << stream.rdbuf();
  // rdbuf() of an empty file sets failbit of `bytes` only.
  if (!stream.is_open() || stream.bad())
    return Error{"Cannot read " + file.string() + ": " + std::strerror(errno) +
                 ". Check that you may read it."};
  return std::move(bytes).str();
}

Status writeFileIfChanged(const fs::path& file, std::string_view bytes) {
  std::error_code error;
  if (fs::is_regular_file(file, error)) {
    const Result<std::string> before = readFile(file);
    if (before && *before == bytes) return success();
  }
  return writeFileAtomically(file, bytes);
}

}  // namespace rackside
