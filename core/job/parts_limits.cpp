// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/parts_limits.h"

#include <set>

#include "core/base/limits.h"

namespace rackside {

Status validate(const std::vector<Part>& parts) {
  if (parts.size() > kMostParts)
    return Error{"The list has " + std::to_string(parts.size()) + " parts; up to " +
                 std::to_string(kMostParts) + " can be planned together. Split the list."};
  long long pieces = 0;
  std::set<PartId> ids;
  for (const Part& part : parts) {
    if (const Status sound = validate(part); !sound) return sound;
    if (!ids.insert(part.id).second)
      return Error{"Two parts have the id " + part.id.text + ": give each its own."};
    pieces += part.copies;
  }
  if (pieces > kMostPieces)
    return Error{"The list asks for " + std::to_string(pieces) + " pieces; up to " +
                 std::to_string(kMostPieces) + " can be planned together. Split the list."};
  return success();
}

}  // namespace rackside
