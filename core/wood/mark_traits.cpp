// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/mark_traits.h"

#include <stdexcept>

namespace rackside {

const std::vector<MarkTraits>& allMarkTraits() {
#define RACKSIDE_MARK_KIND(id, ...) MarkTraits{.kind = MarkKind::id, __VA_ARGS__},
  static const std::vector<MarkTraits> rows = {
#include "core/wood/mark_kinds.inc"
  };
#undef RACKSIDE_MARK_KIND
  return rows;
}

const MarkTraits& traitsOf(MarkKind kind) {
  const auto index = static_cast<size_t>(kind);
  if (index >= allMarkTraits().size()) throw std::logic_error("a kind of mark that is none");
  return allMarkTraits()[index];
}

}  // namespace rackside
