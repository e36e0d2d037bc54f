// SPDX-License-Identifier: GPL-3.0-or-later
// The header of every file: "format" says what it is, "version" which edition of the form. An older
// version is brought up step by step, a newer one refused.
#pragma once

#include <functional>
#include <memory>
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

// The document in the current version: itself, which then has to outlive the result, or a copy that
// was brought up. Fails on another format, and on a newer version.
Result<std::shared_ptr<const nlohmann::json>> upToDate(const nlohmann::json& document,
                                                       const FileFormat& format);
// An empty document with its header.
nlohmann::json newDocument(const FileFormat& format);

}  // namespace rackside
