// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/json_reader.h"
#include "core/base/name_table.h"
#include "core/job/saw_rules.h"
#include "core/storage/file_format.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_species.h"
#include "core/trade/moisture.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 2> kSystems = {"millimetres", "inches"};

std::optional<UnitSystem> systemFromName(std::string_view s) {
  return valueIn<UnitSystem>(kSystems, s);
}

// Each length of the shop beside its key: one list for both ways.
struct Field {
  const char* key;
  double Shop::*value;
};
constexpr std::array kFields = {
    Field{"crosscut_kerf_mm", &Shop::crosscutKerfMm},
    Field{"rip_kerf_mm", &Shop::ripKerfMm},
    Field{"first_rip_kerf_mm", &Shop::firstRipKerfMm},
    Field{"end_trim_mm", &Shop::endTrimMm},
    Field{"length_allowance_mm", &Shop::lengthAllowanceMm},
    Field{"width_allowance_mm", &Shop::widthAllowanceMm},
    Field{"thickness_allowance_mm", &Shop::thicknessAllowanceMm},
    Field{"long_part_mm", &Shop::longPartMm},
    Field{"long_thickness_allowance_mm", &Shop::longThicknessAllowanceMm},
    Field{"min_take_off_mm", &Shop::minTakeOffMm},
    Field{"jointer_width_mm", &Shop::jointerWidthMm},
    Field{"planer_width_mm", &Shop::planerWidthMm},
    Field{"snipe_mm", &Shop::snipeMm},
    Field{"shortest_safe_mm", &Shop::shortestSafeMm},
    Field{"narrowest_safe_mm", &Shop::narrowestSafeMm},
    Field{"leg_allowance_mm", &Shop::legAllowanceMm},
    Field{"curved_allowance_mm", &Shop::curvedAllowanceMm},
    Field{"glue_line_allowance_mm", &Shop::glueLineAllowanceMm},
    Field{"useful_offcut_length_mm", &Shop::usefulOffcutLengthMm},
    Field{"useful_offcut_width_mm", &Shop::usefulOffcutWidthMm},
    Field{"look_weight", &Shop::lookWeight},
    Field{"stock_weight", &Shop::stockWeight},
    Field{"offcut_weight", &Shop::offcutWeight},
    Field{"rest_allowance_mm", &Shop::restAllowanceMm},
    Field{"wide_part_mm", &Shop::widePartMm},
    Field{"shop_moisture_percent", &Shop::shopMoisturePercent},
};

struct AirField {
  const char* key;
  std::optional<Air> Shop::*value;
};
constexpr std::array kAir = {
    AirField{"shop", &Shop::shopAir},
    AirField{"home_dry", &Shop::homeDryAir},
    AirField{"home_humid", &Shop::homeHumidAir},
};

void writeAir(const Shop& shop, nlohmann::json& j) {
  for (const AirField& f : kAir)
    if (const std::optional<Air>& air = shop.*f.value)
      j["air"][f.key] = {{"celsius", air->celsius}, {"humidity_percent", air->humidityPercent}};
}

void readAir(JsonReader& r, Shop& shop) {
  for (const AirField& f : kAir) {
    if (!r.has(f.key)) continue;
    JsonReader& one = r.object(f.key);
    const Air air{one.number("celsius"), one.number("humidity_percent")};
    if (one.failed()) return;
    if (const auto moisture = equilibriumMoisturePercent(air); !moisture)
      r.fail(f.key, "air that wood lies in: " + moisture.error().message);
    shop.*f.value = air;
  }
}

void readCorrections(JsonReader& r, Shop& shop) {
  for (JsonReader& one : r.list("meter_corrections")) {
    const std::string wood = one.text("species");
    const double points = one.number("points");
    if (wood.empty()) one.fail("species", "the wood that the meter's table names");
    if (!(std::abs(points) <= 15)) one.fail("points", "from -15 to 15");
    shop.meterCorrections[woodKey(wood, shop.ownSpecies)] = points;
  }
}

void readClearances(JsonReader& r, Shop& shop) {
  for (const MarkKind kind : allMarkKinds()) {
    const std::string key(name(kind));
    if (const auto mm = r.maybeNumber(key.c_str())) shop.clearanceMm[kind] = *mm;
  }
}

void readStyle(JsonReader& r, LengthStyle& style) {
  style.system =
      r.choice<UnitSystem>("system", "\"millimetres\" or \"inches\"", systemFromName, style.system);
  style.decimals = static_cast<int>(r.integer("decimals", 0, 3, style.decimals));
  style.denominator = static_cast<int>(r.integer("denominator", 1, 64, style.denominator));
}

}  // namespace

nlohmann::json toJson(const Shop& shop) {
  nlohmann::json j = newDocument(shopFormat());
  for (const Field& f : kFields) j[f.key] = shop.*f.value;
  j["clearance_mm"] = nlohmann::json::object();
  for (const auto& [kind, mm] : shop.clearanceMm) j["clearance_mm"][std::string(name(kind))] = mm;
  j["show"] = {{"system", nameIn(kSystems, shop.show.system)},
               {"decimals", shop.show.decimals},
               {"denominator", shop.show.denominator}};
  writeAir(shop, j);
  for (const auto& [wood, points] : shop.meterCorrections)
    j["meter_corrections"].push_back({{"species", wood}, {"points", points}});
  for (const Species& species : shop.ownSpecies) j["own_species"].push_back(toJson(species));
  const SawRules rules = sawRules(shop);
  for (const RuleField& f : kRuleFields) j[f.key] = rules.*f.value;
  addExtra(j, *shop.extra);
  return j;
}

Result<Shop> shopFromJson(const nlohmann::json& j) {
  const auto current = upToDate(j, shopFormat());
  if (!current) return current.error();
  std::string fault;
  JsonReader r(**current, "", fault);
  Shop shop;
  r.text("format");
  r.integer("version", 1, shopFormat().version());
  for (const Field& f : kFields) shop.*f.value = r.number(f.key, shop.*f.value);
  if (r.has("clearance_mm")) readClearances(r.object("clearance_mm"), shop);
  if (r.has("show")) readStyle(r.object("show"), shop.show);
  if (r.has("air")) readAir(r.object("air"), shop);
  for (JsonReader& species : r.list("own_species")) shop.ownSpecies.push_back(readSpecies(species));
  readCorrections(r, shop);
  // The shop's air tells its moisture where no figure stands.
  if (fault.empty() && shop.shopAir && !r.has("shop_moisture_percent"))
    shop.shopMoisturePercent = *equilibriumMoisturePercent(*shop.shopAir);
  shop.extra = r.extra();
  for (const RuleField& f : kRuleFields)
    if (const auto found = shop.extra->find(f.key);
        found != shop.extra->end() && *found == SawRules{}.*f.value)
      (*shop.extra).erase(f.key);
  if (!fault.empty()) return Error{fault};
  if (const Status sound = validate(shop); !sound) return sound.error();
  if (const Status sound = validateSawRules(shop); !sound) return sound.error();
  return shop;
}

}  // namespace rackside
