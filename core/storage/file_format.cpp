// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/file_format.h"

namespace rackside {

const FileFormat& boardFormat() {
  static const FileFormat format{"rackside board", {}};
  return format;
}
const FileFormat& partsFormat() {
  static const FileFormat format{"rackside parts", {}};
  return format;
}
const FileFormat& shopFormat() {
  static const FileFormat format{"rackside shop", {}};
  return format;
}
const FileFormat& planFormat() {
  static const FileFormat format{"rackside plan", {}};
  return format;
}

Result<std::shared_ptr<const nlohmann::json>> upToDate(const nlohmann::json& document,
                                                       const FileFormat& format) {
  const auto named = document.is_object() ? document.find("format") : document.end();
  if (!document.is_object() || named == document.end() || *named != format.name)
    return Error{"This is not a \"" + format.name + "\" file: its \"format\" should be \"" +
                 format.name + "\"."};
  const auto found = document.find("version");
  if (found == document.end() || !found->is_number_integer() || *found < 1)
    return Error{"Its \"version\" should be a whole number from 1 to " +
                 std::to_string(format.version()) + "."};
  if (*found > format.version())
    return Error{"It is of version " + found->dump() + ", and this program knows versions up to " +
                 std::to_string(format.version()) +
                 ". Open it with the newer program that wrote it, or update this one."};
  if (*found == format.version())
    return std::shared_ptr<const nlohmann::json>(std::shared_ptr<void>(), &document);
  auto broughtUp = std::make_shared<nlohmann::json>(document);
  for (auto v = found->get<size_t>(); v <= format.steps.size(); ++v)
    format.steps[v - 1](*broughtUp);
  (*broughtUp)["version"] = format.version();
  return std::shared_ptr<const nlohmann::json>(std::move(broughtUp));
}

nlohmann::json newDocument(const FileFormat& format) {
  return {{"format", format.name}, {"version", format.version()}};
}

}  // namespace rackside
