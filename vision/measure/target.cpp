// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/target.h"

#include <cmath>

#include "vision/cards/card_model.h"

namespace rackside {
namespace {

Target sheet(const std::string& name, double lengthMm, double heightMm) {
  Target t;
  t.name = name;
  t.points = {{0, 0}, {lengthMm, 0}, {lengthMm, heightMm}, {0, heightMm}};
  t.centre = {lengthMm / 2, heightMm / 2};
  t.thicknessMm = 0;
  return t;
}

// A tolerance is taken as a uniform spread between its limits (JCGM 100:2008, 4.3.7).
double sigmaOfTolerance(double halfWidthMm, double sizeMm) {
  return halfWidthMm / std::sqrt(3.0) / sizeMm;
}

}  // namespace

Target targetOfCard(int number) {
  const CardModel card = cardModel(number);
  Target t;
  t.name = "card " + std::to_string(number);
  t.number = number;
  t.points = card.saddles;
  t.centre = {card.lengthMm / 2, card.heightMm / 2};
  t.printed = true;
  return t;
}

SeenTarget seenTarget(const FoundCard& card) {
  return {targetOfCard(card.number), card.saddles};
}

Target bankCardTarget() {
  Target t = sheet("bank card", 85.60, 53.98);
  // Limits of ISO/IEC 7810 ID-1 for an unused card, values from memory: 85.47–85.72 and
  // 53.92–54.03 mm; thickness 0.76 ± 0.08 mm.
  t.stretchSigmaX = sigmaOfTolerance(0.125, 85.60);
  t.stretchSigmaY = sigmaOfTolerance(0.055, 53.98);
  t.thicknessMm = 0.76;
  t.thicknessSigmaMm = 0.08 / std::sqrt(3.0);
  return t;
}

Target a4Target() {
  Target t = sheet("A4 sheet", 297, 210);
  // ISO 216 tolerates ± 2 mm from 150 to 600 mm.
  t.stretchSigmaX = sigmaOfTolerance(2, 297);
  t.stretchSigmaY = sigmaOfTolerance(2, 210);
  return t;
}

Target letterTarget() {
  Target t = sheet("Letter sheet", 279.4, 215.9);
  // No tolerance of its own was found: the one of ISO 216 for the same length is used.
  t.stretchSigmaX = sigmaOfTolerance(2, 279.4);
  t.stretchSigmaY = sigmaOfTolerance(2, 215.9);
  return t;
}

}  // namespace rackside
