// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace rackside::tests {
namespace {

namespace fs = std::filesystem;

std::string quoted(const std::string& s) {
  std::string q = "'";
  for (const char c : s) q += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return q + "'";
}

std::string bytesOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

}  // namespace

nlohmann::json Ran::json() const {
  return nlohmann::json::parse(out, nullptr, false);
}

Ran runProgram(const std::vector<std::string>& arguments) {
  const Folder folder;
  const std::string out = (folder / "out").string(), err = (folder / "err").string();
  std::string line = quoted(RACKSIDE_PROGRAM);
  for (const std::string& a : arguments) line += " " + quoted(a);
  line += " >" + quoted(out) + " 2>" + quoted(err) + " </dev/null";
  const int status = std::system(line.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytesOf(out), bytesOf(err)};
}

std::map<std::string, std::string> contents(const fs::path& folder) {
  std::map<std::string, std::string> files;
  if (!fs::exists(folder)) return files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file() && entry.path().filename() != ".rackside.lock")
      files[fs::relative(entry.path(), folder).string()] = bytesOf(entry.path());
  return files;
}

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "rackside-XXXXXX").string();
  path_ = mkdtemp(name.data());
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string Folder::file(const std::string& name, const std::string& bytes) const {
  std::ofstream(path_ / name, std::ios::binary) << bytes;
  return (path_ / name).string();
}

}  // namespace rackside::tests
