// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/fill_words.h"

#include <cmath>

namespace rackside {

std::string fillRemark(const FillSpot& spot) {
  std::string remark;
  const auto add = [&remark](const char* words) {
    if (!remark.empty()) remark += "; ";
    remark += words;
  };
  if (spot.depthUnknown) add("depth not entered: measure it, nothing is counted for it yet");
  if (spot.dugOut) add("dig out bark and soft wood first");
  if (spot.needsDam) add("open on the far side: dam it below");
  if (spot.pours > 1) add("fill in layers");
  return remark;
}

std::string fillerWord(const FillSpot& spot, const FillHabits& habits) {
  if (spot.filler) return habits.fillers[*spot.filler].name;
  if (spot.drop) return "a drop of thin glue, no batch";
  return spot.depthUnknown ? "not known yet" : "no filler of the shop suits its width and depth";
}

std::string fillCaution() {
  return "The product's label and data sheet govern depth, mixing and times; fully cured before it "
         "is sanded. Air the room; nitrile gloves (cotton burns with cyanoacrylate), eye "
         "protection, "
         "a respirator rated for the vapour; much resin in one cup grows hot.";
}

std::map<PartId, PartFill> fillByPart(const FillList& list) {
  std::map<PartId, PartFill> parts;
  for (const FillSpot& spot : list.spots) {
    PartFill& part = parts[spot.part];
    ++part.spots;
    part.depthUnknown |= spot.depthUnknown;
    part.volumeMl.value += spot.volumeMl.value;
    part.volumeMl.u95 = std::hypot(part.volumeMl.u95, spot.volumeMl.u95);
    part.volumeMl.u95Total = std::hypot(part.volumeMl.u95Total, spot.volumeMl.u95Total);
  }
  return parts;
}

}  // namespace rackside
