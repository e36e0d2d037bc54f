// SPDX-License-Identifier: GPL-3.0-or-later
// The core speaks in millimetres ("short by 941 mm"); people read in the units they work in.
#pragma once

#include <QString>
#include <string>

#include "core/base/length.h"

namespace rackside::sheets {

// Every length of the text in the style's units; in millimetres it stays as it is.
QString inOwnUnits(const QString& text, const LengthStyle& style);
std::string inOwnUnits(const std::string& text, const LengthStyle& style);

}  // namespace rackside::sheets
