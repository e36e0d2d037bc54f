// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_species.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "core/wood/species.h"

namespace rackside::command {
namespace {

struct SpeciesVerb {
  CommonOptions common;
  std::vector<std::string> names;
};

nlohmann::json figureJson(const MaybeFigure& figure) {
  if (!figure) return nullptr;
  return {{"value", figure->value}, {"from", name(figure->from)}};
}

nlohmann::json speciesJson(const Species& s) {
  const ChangeCoefficients c = changeOf(s);
  return {{"name", s.name},
          {"also_called", s.alsoCalled},
          {"radial_shrinkage_percent", figureJson(s.shrinkage.radial)},
          {"tangential_shrinkage_percent", figureJson(s.shrinkage.tangential)},
          {"volumetric_shrinkage_percent", figureJson(s.shrinkage.volumetric)},
          {"radial_change", figureJson(c.radial)},
          {"tangential_change", figureJson(c.tangential)},
          {"specific_gravity_12", figureJson(s.specificGravity12)}};
}

std::string figureText(const MaybeFigure& figure, int decimals) {
  if (!figure) return "not known";
  return fixed(figure->value, decimals) + " (" + std::string(name(figure->from)) + ")";
}

void saySpecies(const Species& s) {
  std::string names = s.name;
  for (const std::string& other : s.alsoCalled) names += ", " + other;
  const ChangeCoefficients c = changeOf(s);
  say(names);
  say("  shrinkage green to oven-dry: radial " + figureText(s.shrinkage.radial, 1) +
      ", tangential " + figureText(s.shrinkage.tangential, 1) + ", in volume " +
      figureText(s.shrinkage.volumetric, 1) + " %");
  say("  change for each percent of moisture: radial " + figureText(c.radial, 5) + ", tangential " +
      figureText(c.tangential, 5));
  say("  specific gravity at 12 %: " + figureText(s.specificGravity12, 2));
}

int run(const SpeciesVerb& v) {
  std::vector<Species> own;
  if (!v.common.rack.empty()) {
    const auto rack = openRack(v.common);
    if (!rack) return inputAtFault(rack.error());
    own = rack->shop.ownSpecies;
  }
  std::vector<const Species*> asked;
  for (const std::string& wood : v.names) {
    const Species* found = speciesNamed(wood, own);
    if (!found) return inputAtFault({unknownWoodNote(wood, own)});
    asked.push_back(found);
  }
  if (v.names.empty())
    for (const std::vector<Species>* list :
         std::initializer_list<const std::vector<Species>*>{&own, &allSpecies()})
      for (const Species& s : *list) asked.push_back(&s);
  auto all = nlohmann::json::array();
  for (const Species* s : asked) {
    all.push_back(speciesJson(*s));
    if (!v.common.json) saySpecies(*s);
  }
  if (v.common.json) printJson({{"species", all}});
  return kDone;
}

}  // namespace

VerbRun setUpSpecies(CLI::App& app) {
  auto v = std::make_shared<SpeciesVerb>();
  app.add_option("NAME", v->names, "Woods to tell of; all that are known where none is named");
  addRack(app, v->common);
  app.get_option("--rack")->required(false);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
