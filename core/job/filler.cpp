// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/filler.h"

#include <array>
#include <cmath>

#include "core/storage/json_reader.h"

namespace rackside {
namespace {

struct Field {
  const char* key;
  double Filler::*value;
};
constexpr std::array kFields = {
    Field{"greatest_depth_mm", &Filler::greatestDepthMm},
    Field{"greatest_pour_mm", &Filler::greatestPourMm},
    Field{"density_g_per_ml", &Filler::densityGPerMl},
    Field{"least_batch_ml", &Filler::leastBatchMl},
    Field{"mixing_loss", &Filler::mixingLoss},
    Field{"hours_between_pours", &Filler::hoursBetweenPours},
    Field{"hours_before_next_step", &Filler::hoursBeforeNextStep},
};

Filler readFiller(JsonReader& r) {
  Filler filler;
  filler.name = r.text("name");
  for (const Field& f : kFields) filler.*f.value = r.number(f.key);
  return filler;
}

}  // namespace

Result<FillHabits> fillHabits(const Shop& shop) {
  FillHabits habits;
  const nlohmann::json keys = *shop.extra;
  std::string fault;
  JsonReader r(keys, "", fault);
  habits.digOutMm = r.number("dig_out_mm", habits.digOutMm);
  if (habits.digOutMm < 0) r.fail("dig_out_mm", "0 or more");
  if (r.has("fillers")) habits.fillers.clear();
  for (JsonReader& filler : r.list("fillers")) habits.fillers.push_back(readFiller(filler));
  if (!fault.empty()) return Error{"Shop: " + fault};
  for (const Filler& filler : habits.fillers)
    if (const Status sound = validate(filler); !sound) return sound.error();
  return habits;
}

std::vector<Filler> defaultFillers() {
  // Cyanoacrylate: full strength after 24 h (woodcraft.com, instant glue); no standard limits the
  // depth of a filled pit: 3 mm in layers of 1.5 mm is common practice, no source, as is its
  // density. Epoxies: pours of at most 1/8 in for a coating one (engineerfix.com) and 2 in for a
  // deep-pour one (sawptician.com), hard after 12 to 48 h (deeppourepoxy.com), 1.11 g/ml mixed
  // (polymercompositesinc.com: 9.23 lb/gal); loss 10 to 15 % (from memory); least batches and the
  // hours between pours are common practice, no source.
  return {{"quick-setting cyanoacrylate", 3, 1.5, 1.06, 0, 0.05, 0.25, 24},
          {"coating epoxy", 9.6, 3.2, 1.11, 15, 0.125, 6, 48},
          {"deep-pour epoxy", 100, 50, 1.11, 30, 0.125, 24, 72}};
}

Status validate(const Filler& f) {
  const auto positive = [](double v) { return std::isfinite(v) && v > 0; };
  const auto notNegative = [](double v) { return std::isfinite(v) && v >= 0; };
  std::string wrong;
  if (f.name.empty()) wrong = "it has no name";
  if (!positive(f.greatestDepthMm) || !positive(f.greatestPourMm))
    wrong = "its greatest depth and pour must be more than 0 mm";
  if (!positive(f.densityGPerMl)) wrong = "its density must be more than 0";
  if (!notNegative(f.leastBatchMl) || !notNegative(f.hoursBetweenPours) ||
      !notNegative(f.hoursBeforeNextStep))
    wrong = "its least batch and its hours must be 0 or more";
  if (!(f.mixingLoss >= 0 && f.mixingLoss <= 1)) wrong = "its mixing loss must be from 0 to 1";
  if (wrong.empty()) return success();
  return Error{"Shop: the filler \"" + f.name + "\" cannot be used: " + wrong + "."};
}

}  // namespace rackside
