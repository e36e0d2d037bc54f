// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/shop_fields.h"

#include <QObject>

namespace rackside {

namespace {

using Unit = ShopField::Unit;

ShopGroup saws() {
  return {QObject::tr("Saws"),
          QObject::tr("Measure a kerf: cut a scrap in two and see by how much both halves together "
                      "are shorter than it was."),
          {{&Shop::crosscutKerfMm, Unit::length, QObject::tr("Crosscut kerf"),
            QObject::tr("Lost at every cut across the board.")},
           {&Shop::ripKerfMm, Unit::length, QObject::tr("Rip kerf"),
            QObject::tr("Lost at every cut along the board.")},
           {&Shop::firstRipKerfMm, Unit::length, QObject::tr("First rip kerf"),
            QObject::tr("The straight line laid on a rough edge, by bandsaw or guided saw.")},
           {&Shop::endTrimMm, Unit::length, QObject::tr("End trim"),
            QObject::tr("Rough ends hide checks and grit: so much comes off each end first.")}}};
}

ShopGroup allowances() {
  return {QObject::tr("Allowances for milling"),
          QObject::tr("Added to the finished size of each part; more is safer, less saves wood."),
          {{&Shop::lengthAllowanceMm, Unit::length, QObject::tr("In length"),
            QObject::tr("Snipe, and squaring both ends.")},
           {&Shop::widthAllowanceMm, Unit::length, QObject::tr("In width"),
            QObject::tr("Jointing both edges.")},
           {&Shop::thicknessAllowanceMm, Unit::length, QObject::tr("In thickness"),
            QObject::tr("Flattening and planing both faces.")},
           {&Shop::longPartMm, Unit::length, QObject::tr("Long parts, from"),
            QObject::tr("Long parts keep more bow, and get the next allowance instead.")},
           {&Shop::longThicknessAllowanceMm, Unit::length, QObject::tr("In thickness, long parts"),
            QObject::tr("Flattening a long part takes more.")},
           {&Shop::minTakeOffMm, Unit::length, QObject::tr("Least take-off"),
            QObject::tr("What a pass must take to clean up one face.")},
           {&Shop::restAllowanceMm, Unit::length, QObject::tr("Rest allowance"),
            QObject::tr("Left on after the first milling of show parts and wide parts, which then "
                        "rest and move.")},
           {&Shop::widePartMm, Unit::length, QObject::tr("Wide parts, from"),
            QObject::tr("From this rough width on, parts are milled twice with a rest between.")},
           {&Shop::glueLineAllowanceMm, Unit::length, QObject::tr("Per glue line edge"),
            QObject::tr("Jointing takes it off each edge that is glued.")}}};
}

ShopGroup machines() {
  return {QObject::tr("Machines"),
          QObject::tr("The manual of the machine rules; where it asks for more, enter more."),
          {{&Shop::jointerWidthMm, Unit::length, QObject::tr("Jointer width"),
            QObject::tr("Blanks wider than this cannot be flattened on it.")},
           {&Shop::planerWidthMm, Unit::length, QObject::tr("Planer width"),
            QObject::tr("Blanks wider than this do not go through it.")},
           {&Shop::snipeMm, Unit::length, QObject::tr("Snipe"),
            QObject::tr("Length spoiled at each end, when there is no other allowance.")},
           {&Shop::shortestSafeMm, Unit::length, QObject::tr("Shortest safe piece"),
            QObject::tr("Shorter pieces are milled together and cut apart afterwards. Short pieces "
                        "kick back and draw hands to the knives.")},
           {&Shop::narrowestSafeMm, Unit::length, QObject::tr("Narrowest safe piece"),
            QObject::tr("Narrower pieces are milled together and ripped apart afterwards.")}}};
}

ShopGroup stock() {
  return {QObject::tr("Offcuts and moisture"),
          {},
          {{&Shop::usefulOffcutLengthMm, Unit::length, QObject::tr("Keep offcuts from, length"),
            QObject::tr("Shorter offcuts do not go back on the rack.")},
           {&Shop::usefulOffcutWidthMm, Unit::length, QObject::tr("Keep offcuts from, width"),
            QObject::tr("Narrower offcuts do not go back on the rack.")},
           {&Shop::shopMoisturePercent, Unit::percent, QObject::tr("Moisture of the shop"),
            QObject::tr("What wood settles at here. Wetter boards shrink, and their blanks are "
                        "planned larger.")}}};
}

ShopGroup judging() {
  return {QObject::tr("How much a plan minds"),
          QObject::tr("The choice of aim beside the plan sets these three; finer settings are made "
                      "here."),
          {{&Shop::lookWeight, Unit::plain, QObject::tr("Looks"),
            QObject::tr("0: anywhere sound will do. 1: a place with all that was wished for counts "
                        "twice.")},
           {&Shop::stockWeight, Unit::plain, QObject::tr("Wood used"),
            QObject::tr("0: boards cost nothing. Greater: fewer and cheaper boards are cut into.")},
           {&Shop::offcutWeight, Unit::plain, QObject::tr("Useful offcuts"),
            QObject::tr("Greater: what is left over is kept in large pieces.")}}};
}

}  // namespace

std::vector<ShopGroup> shopGroups() {
  return {saws(), allowances(), machines(), stock(), judging()};
}

}  // namespace rackside
