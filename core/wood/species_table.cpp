// SPDX-License-Identifier: GPL-3.0-or-later
// One row a species. B: read in the Wood Handbook (FPL-GTR-190, Tables 4-3, 4-4 and 13-5); Q: read
// in a page that quotes it; M: from memory. Colour, faint sapwood, gum and pores: from memory.
// European woods do not stand in the handbook: usual figures of their timber, all from memory.
#include "core/wood/species.h"

namespace rackside {
namespace {

MaybeFigure B(double v) {
  return Figure{v, Provenance::handbook};
}
MaybeFigure Q(double v) {
  return Figure{v, Provenance::quoted};
}
MaybeFigure M(double v) {
  return Figure{v, Provenance::memory};
}

constexpr Pores kNone = Pores::none, kDiffuse = Pores::diffuse, kSemi = Pores::semiRing,
                kRing = Pores::ring;
constexpr WoodColour kPale = WoodColour::pale, kStraw = WoodColour::straw, kTan = WoodColour::tan,
                     kBrown = WoodColour::brown, kReddish = WoodColour::reddish;
constexpr GradingRule kStandard = GradingRule::standard, kCherryRule = GradingRule::cherry,
                      kWalnutRule = GradingRule::walnut, kNoRule = GradingRule::none;
constexpr bool kFaint = true, kClear = false;  // the sapwood's border
constexpr bool kGum = true, kDry = false;      // gum or pitch, or neither

}  // namespace

const std::vector<Species>& allSpecies() {
  // clang-format off
  static const std::vector<Species> all = {
      // name, also called, shrinkage (radial, tangential, volumetric), change (radial, tangential),
      // specific gravity at 12 %, {pores, colour, sapwood, gum, grading rule}
      // Hardwoods of North America
      {"black walnut", {"walnut", "American walnut"}, {B(5.5), B(7.8), B(12.8)}, {B(.00190), B(.00274)}, Q(.55), {kSemi, kBrown, kClear, kDry, kWalnutRule}},
      {"black cherry", {"cherry", "American cherry"}, {B(3.7), B(7.1), B(11.5)}, {B(.00126), B(.00248)}, Q(.50), {kDiffuse, kReddish, kClear, kGum, kCherryRule}},
      {"sugar maple", {"hard maple", "maple", "rock maple"}, {Q(4.8), Q(9.9), Q(14.7)}, {B(.00165), B(.00353)}, Q(.63), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"red maple", {"soft maple"}, {Q(4.0), Q(8.2), M(12.6)}, {B(.00137), B(.00289)}, Q(.54), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"white oak", {"American white oak"}, {B(5.6), B(10.5), B(16.3)}, {B(.00180), B(.00365)}, Q(.68), {kRing, kTan, kClear, kDry, kStandard}},
      {"northern red oak", {"red oak", "oak", "American red oak"}, {M(4.0), M(8.6), M(13.7)}, {B(.00158), B(.00369)}, Q(.63), {kRing, kTan, kClear, kDry, kStandard}},
      {"white ash", {"ash", "American ash"}, {B(4.9), B(7.8), B(13.3)}, {B(.00169), B(.00274)}, Q(.60), {kRing, kStraw, kFaint, kDry, kStandard}},
      {"yellow-poplar", {"poplar", "tulip poplar", "tulipwood", "American tulipwood"}, {B(4.6), B(8.2), B(12.7)}, {B(.00158), M(.00289)}, Q(.42), {kDiffuse, kPale, kClear, kDry, kStandard}},
      {"shagbark hickory", {"hickory", "true hickory"}, {M(7.0), M(10.5), M(16.7)}, {M(.00259), Q(.00411)}, Q(.72), {kRing, kTan, kClear, kDry, kStandard}},
      {"pecan hickory", {"pecan"}, {B(4.9), B(8.9), B(13.6)}, {B(.00169), B(.00315)}, Q(.66), {kSemi, kTan, kClear, kDry, kStandard}},
      {"American beech", {"beech"}, {B(5.5), B(11.9), B(17.2)}, {B(.00190), B(.00431)}, Q(.64), {kDiffuse, kStraw, kFaint, kDry, kStandard}},
      {"yellow birch", {"birch", "American birch"}, {B(7.3), B(9.5), B(16.8)}, {B(.00256), B(.00338)}, Q(.62), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"paper birch", {"white birch"}, {B(6.3), B(8.6), B(16.2)}, {B(.00219), B(.00304)}, Q(.55), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"American elm", {"elm", "white elm"}, {B(4.2), B(9.5), B(14.6)}, {B(.00144), B(.00338)}, Q(.50), {kRing, kTan, kClear, kDry, kStandard}},
      {"American sycamore", {"sycamore", "American plane"}, {B(5.0), B(8.4), B(14.1)}, {B(.00172), B(.00296)}, M(.49), {kDiffuse, kStraw, kFaint, kDry, kStandard}},
      {"American chestnut", {"chestnut"}, {B(3.4), B(6.7), B(11.6)}, {B(.00116), B(.00234)}, Q(.43), {kRing, kTan, kClear, kDry, kStandard}},
      {"American basswood", {"basswood"}, {B(6.6), B(9.3), B(15.8)}, {B(.00230), B(.00330)}, Q(.37), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"red alder", {"alder"}, {B(4.4), B(7.3), B(12.6)}, {B(.00151), B(.00256)}, Q(.41), {kDiffuse, kTan, kFaint, kDry, kStandard}},
      {"butternut", {"white walnut"}, {B(3.4), B(6.4), B(10.6)}, {B(.00116), B(.00223)}, Q(.38), {kSemi, kTan, kClear, kDry, kWalnutRule}},
      {"black locust", {"locust", "robinia"}, {Q(4.6), Q(7.2), Q(10.2)}, {B(.00158), B(.00252)}, Q(.69), {kRing, kTan, kClear, kDry, kStandard}},
      {"honeylocust", {"honey locust"}, {M(4.2), M(6.6), M(10.8)}, {B(.00144), B(.00230)}, M(.66), {kRing, kReddish, kClear, kDry, kStandard}},
      {"eastern cottonwood", {"cottonwood"}, {B(3.9), B(9.2), B(13.9)}, {B(.00133), B(.00327)}, Q(.40), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"sweetgum", {"gum", "red gum", "satin walnut"}, {B(5.3), B(10.2), B(15.8)}, {B(.00183), B(.00365)}, M(.52), {kDiffuse, kTan, kClear, kDry, kStandard}},
      {"hackberry", {}, {B(4.8), B(8.9), B(13.8)}, {B(.00165), B(.00315)}, Q(.53), {kRing, kStraw, kFaint, kDry, kStandard}},
      {"sassafras", {}, {B(4.0), B(6.2), B(10.3)}, {B(.00137), B(.00216)}, M(.46), {kRing, kTan, kClear, kDry, kStandard}},
      {"quaking aspen", {"aspen"}, {B(3.5), B(6.7), B(11.5)}, {B(.00119), B(.00234)}, Q(.38), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      // Softwoods of North America
      {"eastern white pine", {"white pine"}, {M(2.1), M(6.1), M(8.2)}, {M(.00071), M(.00212)}, M(.35), {kNone, kStraw, kFaint, kGum, kNoRule}},
      {"western white pine", {}, {M(4.1), M(7.4), M(11.8)}, {M(.00141), M(.00259)}, M(.38), {kNone, kStraw, kFaint, kGum, kNoRule}},
      {"southern pine", {"southern yellow pine", "yellow pine", "loblolly pine"}, {M(4.8), M(7.4), M(12.3)}, {M(.00165), M(.00259)}, M(.51), {kNone, kTan, kFaint, kGum, kNoRule}},
      {"Douglas-fir", {"Douglas fir", "Oregon pine"}, {B(4.8), B(7.6), B(12.4)}, {M(.00165), Q(.00267)}, M(.48), {kNone, kReddish, kClear, kGum, kNoRule}},
      {"white fir", {"fir"}, {B(3.3), B(7.0), B(9.8)}, {M(.00112), M(.00245)}, M(.39), {kNone, kPale, kFaint, kGum, kNoRule}},
      {"Sitka spruce", {}, {M(4.3), M(7.5), M(11.5)}, {M(.00148), M(.00263)}, M(.40), {kNone, kStraw, kFaint, kGum, kNoRule}},
      {"redwood", {"California redwood"}, {M(2.6), M(4.4), M(6.8)}, {M(.00120), M(.00205)}, M(.40), {kNone, kReddish, kClear, kGum, kNoRule}},
      {"western redcedar", {"western red cedar", "red cedar", "cedar"}, {B(2.4), B(5.0), B(6.8)}, {M(.00111), M(.00234)}, M(.32), {kNone, kReddish, kClear, kGum, kNoRule}},
      {"eastern redcedar", {"eastern red cedar", "aromatic cedar"}, {B(3.1), B(4.7), B(7.8)}, {M(.00106), M(.00162)}, M(.47), {kNone, kReddish, kClear, kGum, kNoRule}},
      // Imported woods. The handbook's two tables disagree about mahogany; the greater change is kept.
      {"mahogany", {"genuine mahogany", "true mahogany", "Honduras mahogany"}, {B(3.0), B(4.1), B(7.8)}, {M(.00172), Q(.00238)}, M(.48), {kDiffuse, kReddish, kClear, kDry, kStandard}},
      {"African mahogany", {"khaya"}, {B(2.5), B(4.5), B(8.8)}, {M(.00141), M(.00201)}, M(.46), {kDiffuse, kReddish, kClear, kDry, kStandard}},
      {"sapele", {"sapelli"}, {M(4.6), M(7.4), M(14.0)}, {}, M(.60), {kDiffuse, kReddish, kClear, kDry, kStandard}},
      {"teak", {}, {M(2.5), M(5.8), M(7.0)}, {M(.00101), Q(.00186)}, M(.58), {kRing, kTan, kClear, kDry, kStandard}},
      // European woods
      {"European beech", {"steamed beech"}, {M(5.7), M(11.6), M(17.3)}, {}, M(.64), {kDiffuse, kStraw, kFaint, kDry, kStandard}},
      {"European oak", {"English oak", "French oak"}, {M(4.7), M(8.4), M(13.0)}, {}, M(.63), {kRing, kTan, kClear, kDry, kStandard}},
      {"European ash", {"English ash"}, {M(4.8), M(9.6), M(13.6)}, {}, M(.62), {kRing, kStraw, kFaint, kDry, kStandard}},
      {"sycamore maple", {"European maple", "European sycamore"}, {M(4.5), M(7.8), M(12.3)}, {}, M(.55), {kDiffuse, kPale, kFaint, kDry, kStandard}},
      {"European walnut", {"English walnut", "French walnut"}, {M(5.5), M(7.5), M(13.0)}, {}, M(.57), {kSemi, kBrown, kClear, kDry, kStandard}},
      {"European cherry", {"wild cherry"}, {M(4.9), M(9.0), M(13.7)}, {}, M(.54), {kDiffuse, kReddish, kClear, kGum, kStandard}},
      {"European larch", {"larch"}, {M(4.2), M(8.2), M(12.5)}, {}, M(.53), {kNone, kReddish, kClear, kGum, kNoRule}},
      {"Scots pine", {"pine", "European redwood", "red deal"}, {M(5.2), M(8.3), M(13.6)}, {}, M(.46), {kNone, kStraw, kFaint, kGum, kNoRule}},
      {"Norway spruce", {"spruce", "European whitewood"}, {M(3.9), M(8.0), M(12.7)}, {}, M(.40), {kNone, kStraw, kFaint, kGum, kNoRule}},
  };
  // clang-format on
  return all;
}

}  // namespace rackside
