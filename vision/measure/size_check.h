// SPDX-License-Identifier: GPL-3.0-or-later
// Inside the adjustment: are the cards as large as they are taken for?
#pragma once

#include <string>
#include <vector>

#include "vision/measure/fit.h"

namespace rackside::measure {

// The scale of the print that a tape alone speaks for; the fit lies between it and what was
// declared.
double printByTape(const Scene& scene, const Unknowns& at, const TapedDistance& tape);

// In plain words: a card that differs in size from the others, and a taped distance that says
// another size of all cards than was declared. Either would move every length, unseen in the ±.
std::vector<std::string> sizeWarnings(const Fit& f);

}  // namespace rackside::measure
