// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/atomic_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstring>

#include "core/base/id.h"
#include "core/storage/durable_file.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

constexpr off_t kMostBytes = 1000000000;
constexpr std::string_view kAsideEnding = ".part";

Error writeError(const fs::path& file, int code) {
  return Error{"Cannot write " + file.string() + ": " + std::strerror(code) +
               ". Check that you may write there and that the disk has room."};
}

Error writeErrorWholly(const fs::path& file, int code) {
  return Error{writeError(file, code).message + " Nothing there was changed."};
}

Error readError(const fs::path& file, int code) {
  return Error{"Cannot read " + file.string() + ": " + std::strerror(code) +
               ". Check that you may read it."};
}

// Returns 0 or the errno of what failed.
int writeAll(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    bytes.remove_prefix(static_cast<size_t>(written));
  }
  return 0;
}

int writeAllAndSync(int descriptor, std::string_view bytes) {
  const int code = writeAll(descriptor, bytes);
  if (code != 0) return code;
  return ::fsync(descriptor) == 0 ? 0 : errno;
}

// A new file keeps the permissions of the one it replaces.
mode_t modeOf(const fs::path& target) {
  struct stat before {};
  return ::stat(target.c_str(), &before) == 0 ? before.st_mode & 07777 : 0;
}

int writeNew(const fs::path& file, std::string_view bytes, mode_t mode) {
  const int descriptor = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (descriptor < 0) return errno;
  int code = writeAllAndSync(descriptor, bytes);
  if (code == 0 && mode != 0 && ::fchmod(descriptor, mode) != 0) code = errno;
  if (::close(descriptor) != 0 && code == 0) code = errno;
  if (code != 0) ::unlink(file.c_str());
  return code;
}

// A pipe or a device takes the bytes as they come; nothing could be renamed over it.
Status writeInto(const fs::path& device, std::string_view bytes) {
  const int descriptor = ::open(device.c_str(), O_WRONLY | O_CLOEXEC);
  if (descriptor < 0) return writeError(device, errno);
  const int code = writeAll(descriptor, bytes);
  ::close(descriptor);
  return code == 0 ? success() : Status(writeError(device, code));
}

// ".name.<process>-<chance>.part": whose process is gone has been left behind.
std::string asideHead(const fs::path& target) {
  return "." + target.filename().string() + ".";
}

fs::path asideOf(const fs::path& target) {
  const std::string process = std::to_string(::getpid());
  return target.parent_path() /
         (asideHead(target) + newIdText(process) + std::string(kAsideEnding));
}

void clearLeftBehind(const fs::path& target, const fs::path& folder) {
  const std::string head = asideHead(target);
  std::error_code error;
  for (fs::directory_iterator i(folder, error), end; !error && i != end; i.increment(error)) {
    const std::string name = i->path().filename().string();
    if (!name.starts_with(head) || !name.ends_with(kAsideEnding)) continue;
    int process = 0;
    const char* digits = name.data() + head.size();
    const auto [stop, fault] = std::from_chars(digits, name.data() + name.size(), process);
    if (fault == std::errc() && *stop == '-' && ::kill(process, 0) != 0 && errno == ESRCH)
      ::unlink(i->path().c_str());
  }
}

Result<std::string> readAll(int descriptor, const fs::path& file) {
  struct stat is {};
  if (::fstat(descriptor, &is) != 0) return readError(file, errno);
  if (!S_ISREG(is.st_mode)) return Error{file.string() + " is not a file."};
  if (is.st_size > kMostBytes)
    return Error{file.string() + " is larger than any file that this program reads."};
  std::string bytes(static_cast<size_t>(is.st_size), '\0');
  size_t got = 0;
  while (true) {
    if (got == bytes.size()) bytes.resize(bytes.size() + 4096);  // it may grow meanwhile
    const ssize_t more = ::read(descriptor, bytes.data() + got, bytes.size() - got);
    if (more < 0 && errno == EINTR) continue;
    if (more < 0) return readError(file, errno);
    if (more == 0) break;
    got += static_cast<size_t>(more);
  }
  bytes.resize(got);
  return bytes;
}

}  // namespace

// A file system that cannot sync a folder (some network ones) is no failure: the rename stands.
void syncFolder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

Status makeFolders(const fs::path& folder) {
  std::error_code error;
  if (folder.empty() || fs::is_directory(folder, error)) return success();
  if (const Status above = makeFolders(folder.parent_path()); !above) return above;
  if (::mkdir(folder.c_str(), 0777) != 0 && errno != EEXIST)
    return Error{"Cannot make the folder " + folder.string() + ": " + std::strerror(errno) +
                 ". Check that you may write there and that the disk has room."};
  if (!fs::is_directory(folder, error))
    return Error{"Cannot make the folder " + folder.string() +
                 ": a file of that name is in its way."};
  syncFolder(folder.has_parent_path() ? folder.parent_path() : fs::path("."));
  return success();
}

Status writeAndSync(const fs::path& newFile, std::string_view bytes,
                    const fs::path& permissionsOf) {
  const int code = writeNew(newFile, bytes, modeOf(permissionsOf));
  return code == 0 ? success() : Status(writeError(newFile, code));
}

Status renameOver(const fs::path& from, const fs::path& to) {
  if (::rename(from.c_str(), to.c_str()) != 0) return writeError(to, errno);
  return success();
}

Status writeFileAtomically(const fs::path& file, std::string_view bytes) {
  std::error_code error;
  // A link stays a link: the file it points to is replaced.
  const fs::path target = fs::is_symlink(file, error) ? fs::weakly_canonical(file, error) : file;
  if (fs::is_directory(target, error)) return writeErrorWholly(file, EISDIR);
  if (fs::exists(target, error) && !fs::is_regular_file(target, error))
    return writeInto(target, bytes);
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  clearLeftBehind(target, folder);
  const fs::path aside = asideOf(target);
  int code = writeNew(aside, bytes, modeOf(target));
  if (code == 0 && ::rename(aside.c_str(), target.c_str()) != 0) code = errno;
  if (code != 0) {
    ::unlink(aside.c_str());
    return writeErrorWholly(file, code);
  }
  syncFolder(folder);
  return success();
}

Result<std::optional<std::string>> readFileIfThere(const fs::path& file) {
  const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (descriptor < 0 && errno == ENOENT) {
    struct stat link {};
    if (::lstat(file.c_str(), &link) != 0 && errno == ENOENT) return std::optional<std::string>();
    return Error{file.string() + " is a link that leads nowhere. Put back what it led to."};
  }
  if (descriptor < 0) return readError(file, errno);
  Result<std::string> bytes = readAll(descriptor, file);
  ::close(descriptor);
  if (!bytes) return bytes.error();
  return std::optional<std::string>(std::move(bytes).value());
}

Result<std::string> readFile(const fs::path& file) {
  Result<std::optional<std::string>> bytes = readFileIfThere(file);
  if (!bytes) return bytes.error();
  if (!*bytes) return Error{"There is no file " + file.string() + ". Check its name and folder."};
  return *std::move(bytes).value();
}

Status writeFileIfChanged(const fs::path& file, std::string_view bytes) {
  const Result<std::optional<std::string>> before = readFileIfThere(file);
  if (before && *before == bytes) return success();
  return writeFileAtomically(file, bytes);
}

}  // namespace rackside
