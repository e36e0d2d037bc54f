// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/parts_import.h"

#include "core/base/csv.h"
#include "core/job/parts_table.h"
#include "core/storage/file_format.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"

namespace rackside {

Result<std::vector<Part>> importParts(std::string_view bytes, UnitSystem bareUnit) {
  const std::string text = trimmed(bytes.substr(0, 64));
  if (text.empty() || (text.front() != '{' && text.front() != '['))
    return partsFromCsv(bytes, bareUnit);
  Result<nlohmann::json> read = parseJson(bytes);
  if (!read) return read.error();
  nlohmann::json document = std::move(read).value();
  if (document.is_array()) document = {{"parts", std::move(document)}};
  if (!document.contains("format")) document.update(newDocument(partsFormat()));
  if (document.contains("parts") && document["parts"].is_array())
    for (nlohmann::json& part : document["parts"])
      if (part.is_object() && !part.contains("id")) part["id"] = newIdText("part");
  return partsFromJson(document);
}

}  // namespace rackside
