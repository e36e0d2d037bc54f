// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/safety_words.h"

namespace rackside {

std::string sawingCaution() {
  return "Eyes, ears and a dust respirator rated for it; guard and riving knife on, stand out of "
         "the line of a kickback, never a rough edge on the fence. Old wood: look for metal and "
         "paint (lead) first. The saw's manual and local codes come first.";
}

std::string millingCaution() {
  return "Eyes, ears, dust respirator; push blocks, shallow passes, stand out of the line of a "
         "kickback. No nails, grit or old paint (lead) through the knives. The machine's manual "
         "gives its least length and width, and comes first.";
}

std::string finishCaution() {
  return "Oily rags can ignite by themselves: spread them to dry outdoors, or keep them under "
         "water "
         "in a closed metal can. Sand only what has fully cured, in a rated respirator. The "
         "product's label and local codes come first.";
}

}  // namespace rackside
