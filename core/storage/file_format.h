// SPDX-License-Identifier: GPL-3.0-or-later
// The header of every file: "format" says what it is, "version" which edition of the form. An older
// version is brought up step by step, a newer one refused.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/base/result.h"

namespace rackside {

struct FileFormat {
  std::string name;  // "rackside board"
  // Step i turns version i + 1 into version i + 2, so the current version is steps.size() + 1.
  std::vector<std::function<void(nlohmann::json&)>> steps;
  int version() const { return static_cast<int>(steps.size()) + 1; }
};

const FileFormat& boardFormat();
const FileFormat& partsFormat();
const FileFormat& shopFormat();
const FileFormat& planFormat();

// The same document in the current version. Fails on another format, and on a newer version.
Result<nlohmann::json> upToDate(nlohmann::json document, const FileFormat& format);
// An empty document with its header.
nlohmann::json newDocument(const FileFormat& format);

}  // namespace rackside
