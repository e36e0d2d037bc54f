// SPDX-License-Identifier: GPL-3.0-or-later
// What is known about a wood: its names, shrinkage, movement and density, and how it looks.
//
// One row a species in species_table.cpp; a shop may add its own (`Shop::ownSpecies`). Shrinkage is
// from green to oven-dry in percent (Wood Handbook, USDA FPL-GTR-190, Tables 4-3 and 4-4), change
// is part of the size per percent of moisture from 6 to 14 % (Table 13-5), specific gravity is at
// 12 % moisture (Tables 5-3 and 5-5). Each figure carries how it came here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rackside {

enum class Provenance {
  handbook,  // read in the handbook's own text
  quoted,    // read in a page that quotes it
  memory,    // written from memory, not confirmed
  reckoned,  // worked out here from the shrinkage
  shop,      // entered by the shop
};
// As tables on paper print it: "Wood Handbook", "quoted", "from memory", …
std::string_view name(Provenance provenance);

struct Figure {
  double value = 0;
  Provenance from = Provenance::memory;
};
using MaybeFigure = std::optional<Figure>;

struct Shrinkage {
  MaybeFigure radial, tangential, volumetric;  // %
};
struct ChangeCoefficients {
  MaybeFigure radial, tangential;  // 1 / %
};

enum class Pores { none, diffuse, semiRing, ring };  // none: a softwood
// Of freshly planed heartwood by daylight.
enum class WoodColour { pale, straw, tan, brown, reddish };
// Which of the hardwood grading rules has words of its own for it; none for softwoods.
enum class GradingRule { standard, cherry, walnut, none };

struct WoodTraits {
  Pores pores = Pores::diffuse;
  WoodColour colour = WoodColour::pale;
  bool faintSapwood = false;  // hardly told from the heartwood
  bool gumOrPitch = false;    // dark pockets are gum or pitch rather than bark
  GradingRule rule = GradingRule::standard;
};

struct Species {
  std::string name;                     // "black cherry"
  std::vector<std::string> alsoCalled;  // "cherry", "American cherry"
  Shrinkage shrinkage;
  ChangeCoefficients change;  // as published; see changeOf()
  MaybeFigure specificGravity12;
  WoodTraits traits;
};

const std::vector<Species>& allSpecies();

// The wood of that name in any spelling of case, spaces and dashes; the shop's own first. Null when
// nobody knows it. The pointer lives as long as `own`.
const Species* speciesNamed(std::string_view name, const std::vector<Species>& own = {});

// What all names of one wood have in common: the name of its row, or, for a wood that nobody knows,
// the name itself in small letters. Empty for an empty name.
std::string woodKey(std::string_view name, const std::vector<Species>& own = {});
bool sameWood(std::string_view a, std::string_view b, const std::vector<Species>& own = {});
// Does a board's wood do for a part? An empty wish takes any.
bool woodServes(std::string_view wanted, std::string_view board,
                const std::vector<Species>& own = {});

// The coefficients that movement is reckoned with: published ones, else from the shrinkage S and a
// fibre saturation of 30 %, C = (S/3000) / (1 − S/150), which reproduces Table 13-5. Empty where
// neither is known.
ChangeCoefficients changeOf(const Species& species);

// What to tell of a wood that nobody knows: the nearest names, and what is not told of it. Empty
// when it is known, or not named.
std::string unknownWoodNote(std::string_view name, const std::vector<Species>& own = {});

}  // namespace rackside
