// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/json_species.h"

#include <array>

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 4> kPores = {"none", "diffuse", "semi-ring", "ring"};
constexpr std::array<std::string_view, 5> kColours = {"pale", "straw", "tan", "brown", "reddish"};
constexpr std::array<std::string_view, 4> kRules = {"standard", "cherry", "walnut", "none"};

std::optional<Pores> poresFromName(std::string_view s) {
  return valueIn<Pores>(kPores, s);
}
std::optional<WoodColour> colourFromName(std::string_view s) {
  return valueIn<WoodColour>(kColours, s);
}
std::optional<GradingRule> ruleFromName(std::string_view s) {
  return valueIn<GradingRule>(kRules, s);
}

// Each figure beside its key, with the range in which it can be true of a wood.
struct Field {
  const char* key;
  double least, greatest;
  MaybeFigure& (*of)(Species&);
};
constexpr std::array kFields = {
    Field{"radial_shrinkage_percent", 0.1, 30,
          [](Species& s) -> MaybeFigure& { return s.shrinkage.radial; }},
    Field{"tangential_shrinkage_percent", 0.1, 30,
          [](Species& s) -> MaybeFigure& { return s.shrinkage.tangential; }},
    Field{"volumetric_shrinkage_percent", 0.1, 40,
          [](Species& s) -> MaybeFigure& { return s.shrinkage.volumetric; }},
    Field{"radial_change", 0.0001, 0.02,
          [](Species& s) -> MaybeFigure& { return s.change.radial; }},
    Field{"tangential_change", 0.0001, 0.02,
          [](Species& s) -> MaybeFigure& { return s.change.tangential; }},
    Field{"specific_gravity_12", 0.05, 1.5,
          [](Species& s) -> MaybeFigure& { return s.specificGravity12; }},
};

}  // namespace

nlohmann::json toJson(const Species& species) {
  nlohmann::json j{{"name", species.name}, {"also_called", species.alsoCalled}};
  Species copy = species;
  for (const Field& f : kFields)
    if (const MaybeFigure& figure = f.of(copy)) j[f.key] = figure->value;
  j["pores"] = nameIn(kPores, species.traits.pores);
  j["colour"] = nameIn(kColours, species.traits.colour);
  j["faint_sapwood"] = species.traits.faintSapwood;
  j["gum_or_pitch"] = species.traits.gumOrPitch;
  j["grading_rule"] = nameIn(kRules, species.traits.rule);
  return j;
}

Species readSpecies(JsonReader& r) {
  Species s;
  s.name = r.text("name");
  if (s.name.empty()) r.fail("name", "what the wood is called");
  s.alsoCalled = r.texts("also_called");
  for (const Field& f : kFields) {
    const auto value = r.maybeNumber(f.key);
    if (!value) continue;
    if (!(*value >= f.least && *value <= f.greatest)) {
      char expected[80];
      std::snprintf(expected, sizeof expected, "from %g to %g", f.least, f.greatest);
      r.fail(f.key, expected);
    }
    f.of(s) = Figure{*value, Provenance::shop};
  }
  s.traits.pores = r.choice<Pores>("pores", "\"none\", \"diffuse\", \"semi-ring\" or \"ring\"",
                                   poresFromName, Pores::diffuse);
  s.traits.colour =
      r.choice<WoodColour>("colour", "\"pale\", \"straw\", \"tan\", \"brown\" or \"reddish\"",
                           colourFromName, WoodColour::pale);
  s.traits.faintSapwood = r.flag("faint_sapwood", false);
  s.traits.gumOrPitch = r.flag("gum_or_pitch", false);
  s.traits.rule =
      r.choice<GradingRule>("grading_rule", "\"standard\", \"cherry\", \"walnut\" or \"none\"",
                            ruleFromName, GradingRule::standard);
  return s;
}

}  // namespace rackside
