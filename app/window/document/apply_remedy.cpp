// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/apply_remedy.h"

#include <algorithm>

#include "core/document/edits.h"

namespace rackside {

namespace {

constexpr double kGrainStepDeg = 5;  // as core/plan/remedies.cpp tries it

bool changePart(Part& part, const Unplaced::Remedy& remedy) {
  const bool back = remedy.words.find("on its back") != std::string::npos;
  FaceAllows& face = back ? part.back : part.show;
  if (remedy.rule == "sound-knot")
    face.soundKnots = true;
  else if (remedy.rule == "filled-hole")
    face.filledHoles = true;
  else if (remedy.rule == "stain")
    face.stain = true;
  else if (remedy.rule == "sapwood")
    face.sapwood = SapwoodRule::yes;
  else if (remedy.rule == "grain")
    part.grainToleranceDeg += kGrainStepDeg;
  else if (remedy.rule == "glue-up")
    part.glueUp.allowed = true;
  else
    return false;
  return true;
}

}  // namespace

std::unique_ptr<Edit> editFor(const Rack& rack, const PartId& id, const Unplaced::Remedy& remedy) {
  std::vector<Part> parts = rack.parts;
  const auto part =
      std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.id == id; });
  if (part == parts.end()) return nullptr;
  if (changePart(*part, remedy)) return changeParts(std::move(parts));
  Shop shop = rack.shop;
  if (remedy.rule == "length-allowance")
    shop.lengthAllowanceMm = std::max(0.0, shop.lengthAllowanceMm - remedy.byMm);
  else if (remedy.rule == "width-allowance")
    shop.widthAllowanceMm = std::max(0.0, shop.widthAllowanceMm - remedy.byMm);
  else
    return nullptr;
  return changeShop(std::move(shop));
}

}  // namespace rackside
