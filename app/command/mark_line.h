// SPDX-License-Identifier: GPL-3.0-or-later
// One line of text a mark, for lists.
#pragma once

#include <string>

#include "core/base/length.h"
#include "core/wood/mark.h"

namespace rackside::command {

std::string markLine(const Mark& mark, const LengthStyle& style);

}  // namespace rackside::command
