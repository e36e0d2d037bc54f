// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_season.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/rack_edit.h"
#include "core/base/temperature.h"
#include "core/document/edits.h"
#include "core/trade/moving_parts.h"

namespace rackside::command {
namespace {

struct SeasonVerb {
  CommonOptions common;
  std::vector<std::string> shopAir, dryAir, humidAir;  // temperature and humidity
  bool keep = false;
};

Result<double> humidity(std::string text) {
  if (text.ends_with('%')) text.pop_back();
  try {
    size_t used = 0;
    const double percent = std::stod(text, &used);
    if (used == text.size()) return percent;
  } catch (const std::exception&) {
    // falls through to the message
  }
  return Error{"\"" + text + "\" is no relative humidity: type something like 45 or 45%."};
}

Status readAir(const std::vector<std::string>& said, bool fahrenheit, std::optional<Air>& air) {
  if (said.empty()) return success();
  const auto celsius = parseCelsius(said[0], fahrenheit);
  if (!celsius) return celsius.error();
  const auto percent = humidity(said[1]);
  if (!percent) return percent.error();
  air = Air{*celsius, *percent};
  if (const auto moisture = equilibriumMoisturePercent(*air); !moisture) return moisture.error();
  return success();
}

nlohmann::json movementJson(const MovingPart& m) {
  return {{"part", m.name},
          {"species", m.species},
          {"sawn", name(m.sawn)},
          {"swells_mm", rounded(m.movement.swellsMm, 2)},
          {"shrinks_mm", rounded(m.movement.shrinksMm, 2)},
          {"figures", name(m.from)}};
}

void sayAll(const Seasons& s, const MovingParts& moving, const LengthStyle& style) {
  say("made at " + fixed(s.madeAtPercent, 1) + " %, in its dry season " + fixed(s.dryPercent, 1) +
      " %, in its humid one " + fixed(s.humidPercent, 1) + " %" +
      (s.fromAir ? "" : " (usual seasons: the home's air was not entered)"));
  const LengthStyle fine{style.system, 1, 64};
  for (const MovingPart& m : moving.parts)
    say(m.name + " of " + m.species +
        (m.sawn == Sawn::unknown ? ", taken as flat sawn"
                                 : ", " + std::string(name(m.sawn)) + " sawn") +
        ": shrinks " + formatLength(m.movement.shrinksMm, fine) + ", swells " +
        formatLength(m.movement.swellsMm, fine) + " (" + std::string(name(m.from)) + ")");
  for (const std::string& wood : moving.woodsWithoutFigures)
    message(wood.empty() ? std::string("Parts of which no wood is known are left out.")
                         : "No figures are known for " + wood + ": its movement is not told.");
  for (const std::string& warning : seasonWarnings(s)) message(warning);
  if (!moving.parts.empty()) message(movementAdvice());
}

int run(const SeasonVerb& v) {
  auto opened = v.keep ? openToChange(v.common) : openToRead(v.common);
  if (!opened) return inputAtFault(opened.error());
  OpenedRack& open = opened.value();
  Shop shop = open.rack.shop;
  const bool fahrenheit = v.common.style(shop.show).system == UnitSystem::inches;
  for (const auto& [said, air] :
       {std::pair{&v.shopAir, &shop.shopAir}, std::pair{&v.dryAir, &shop.homeDryAir},
        std::pair{&v.humidAir, &shop.homeHumidAir}})
    if (const Status s = readAir(*said, fahrenheit, *air); !s)
      return usageAtFault(s.error().message);
  if (!v.shopAir.empty()) shop.shopMoisturePercent = *equilibriumMoisturePercent(*shop.shopAir);
  const auto seasons = seasonsOf(shop);
  if (!seasons) return inputAtFault(seasons.error());
  Rack asked = open.rack;
  asked.shop = shop;
  const MovingParts moving = movingParts(asked, *seasons);
  if (v.keep)
    if (const Status s = performAndStore(open, changeShop(shop), v.common.rack); !s)
      return inputAtFault(s.error());
  if (!v.common.json) {
    sayAll(*seasons, moving, v.common.style(shop.show));
    return kDone;
  }
  nlohmann::json j{{"made_at_percent", rounded(seasons->madeAtPercent, 2)},
                   {"dry_percent", rounded(seasons->dryPercent, 2)},
                   {"humid_percent", rounded(seasons->humidPercent, 2)},
                   {"from_air", seasons->fromAir},
                   {"kept", v.keep},
                   {"parts", nlohmann::json::array()},
                   {"woods_without_figures", moving.woodsWithoutFigures},
                   {"warnings", seasonWarnings(*seasons)}};
  for (const MovingPart& m : moving.parts) j["parts"].push_back(movementJson(m));
  printJson(j);
  return kDone;
}

}  // namespace

VerbRun setUpSeason(CLI::App& app) {
  auto v = std::make_shared<SeasonVerb>();
  app.add_option("--shop", v->shopAir, "Air of the shop: temperature (20C, 68F) and humidity (45%)")
      ->expected(2);
  app.add_option("--home-dry", v->dryAir, "Air of the home in its dry season")->expected(2);
  app.add_option("--home-humid", v->humidAir, "Air of the home in its humid season")->expected(2);
  app.add_flag("--keep", v->keep, "Keep the air in shop.json, and the shop's moisture with it");
  addRack(app, v->common);
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
