// SPDX-License-Identifier: GPL-3.0-or-later
// Runs the built program as a maker's shell would, and looks at a folder before and after.
#pragma once

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace rackside::tests {

struct Ran {
  int code = -1;
  std::string out, err;
  nlohmann::json json() const;  // of `out`; discarded when it is not JSON
};

Ran runProgram(const std::vector<std::string>& arguments);

// Every file below the folder with its bytes; empty when the folder is not there.
std::map<std::string, std::string> contents(const std::filesystem::path& folder);

// A fresh folder, removed with everything in it at the end.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  std::string file(const std::string& name, const std::string& bytes) const;

 private:
  std::filesystem::path path_;
};

}  // namespace rackside::tests
