// SPDX-License-Identifier: GPL-3.0-or-later
// Temperatures at the edges of the program. Inside everything is degrees Celsius.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rackside {

// Reads `21 C`, `70°F`, `21.5`: a bare number is in `bareFahrenheit`'s degrees. Fails below −60 °C,
// above 120 °C and on what is no temperature.
Result<double> parseCelsius(std::string_view text, bool bareFahrenheit = false);
std::string formatTemperature(double celsius, bool fahrenheit);

}  // namespace rackside
