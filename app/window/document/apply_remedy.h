// SPDX-License-Identifier: GPL-3.0-or-later
// What would make a part fit, done: one edit of the parts or the shop.
#pragma once

#include <memory>

#include "core/document/edit.h"

namespace rackside {

// Null where the remedy changes nothing but the time to search.
std::unique_ptr<Edit> editFor(const Rack& rack, const PartId& part, const Unplaced::Remedy& remedy);

}  // namespace rackside
