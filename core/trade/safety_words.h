// SPDX-License-Identifier: GPL-3.0-or-later
// The usual cautions of the work, one place for paper, screen and JSON. Common practice, no source;
// the machine's manual, the product's label and data sheet, local codes and, where they ask for it,
// licensed practice come before them. Two lines a page.
#pragma once

#include <string>

namespace rackside {

std::string sawingCaution();   // cuts at the bench
std::string millingCaution();  // jointer, planer, saw
std::string finishCaution();   // oil, rags, sanding

}  // namespace rackside
