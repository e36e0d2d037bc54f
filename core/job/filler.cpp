// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/filler.h"

#include <array>
#include <cmath>

#include "core/base/json_reader.h"

namespace rackside {
namespace {

struct Field {
  const char* key;
  double Filler::*value;
  double absent = NAN;  // what a shop file of before stands for; else the key is needed
};
constexpr std::array kFields = {
    Field{"least_width_mm", &Filler::leastWidthMm, 0},
    Field{"greatest_width_mm", &Filler::greatestWidthMm, 0},
    Field{"greatest_depth_mm", &Filler::greatestDepthMm},
    Field{"greatest_pour_mm", &Filler::greatestPourMm},
    Field{"density_g_per_ml", &Filler::densityGPerMl},
    Field{"least_batch_ml", &Filler::leastBatchMl},
    Field{"greatest_batch_ml", &Filler::greatestBatchMl, 0},
    Field{"mixing_loss", &Filler::mixingLoss},
    Field{"hours_between_pours", &Filler::hoursBetweenPours},
    Field{"hours_before_next_step", &Filler::hoursBeforeNextStep},
};

Filler readFiller(JsonReader& r) {
  Filler filler;
  filler.name = r.text("name");
  for (const Field& f : kFields)
    filler.*f.value = std::isnan(f.absent) ? r.number(f.key) : r.number(f.key, f.absent);
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
  // name, mouth from and to, depth, pour, density, least and greatest batch, loss, hours between
  // pours and before the next step.
  // Cyanoacrylate bonds gaps below 0.2 mm well and is weak above 0.25 (kraska.biz; of joints), full
  // strength after 24 h (woodcraft.com, instant glue); how wide and deep the thick kind may stand
  // is from memory, as is its density. Epoxy: 1/8 in a pour for a coating kind (engineerfix.com), 2
  // in for a casting kind (sawptician.com), hard after 12 to 48 h (deeppourepoxy.com), 1.11 g/ml
  // mixed (polymercompositesinc.com: 9.23 lb/gal); loss 10 to 15 %, the mouths that each runs into
  // and the batches are from memory, hours between pours common practice, no source.
  return {{"thin cyanoacrylate", 0, 0.25, 3, 3, 1.06, 0, 0, 0.05, 0.25, 24},
          {"gap-filling cyanoacrylate", 0, 4, 4, 2, 1.07, 0, 0, 0.05, 0.5, 24},
          {"coating epoxy", 1, 0, 9.6, 3.2, 1.11, 15, 200, 0.125, 6, 48},
          {"casting epoxy", 3, 0, 100, 50, 1.11, 30, 1000, 0.125, 24, 72}};
}

Status validate(const Filler& f) {
  const auto positive = [](double v) { return std::isfinite(v) && v > 0; };
  const auto notNegative = [](double v) { return std::isfinite(v) && v >= 0; };
  std::string wrong;
  if (f.name.empty()) wrong = "it has no name";
  if (!positive(f.greatestDepthMm) || !positive(f.greatestPourMm))
    wrong = "its greatest depth and pour must be more than 0 mm";
  if (!positive(f.densityGPerMl)) wrong = "its density must be more than 0";
  if (!notNegative(f.leastWidthMm) || !notNegative(f.greatestWidthMm) ||
      (f.greatestWidthMm > 0 && f.greatestWidthMm < f.leastWidthMm))
    wrong = "its mouth must be from 0 mm up, the greatest no less than the least";
  if (!notNegative(f.greatestBatchMl) ||
      (f.greatestBatchMl > 0 && f.greatestBatchMl < f.leastBatchMl))
    wrong = "its greatest batch must be 0 (none is mixed) or no less than the least";
  if (!notNegative(f.leastBatchMl) || !notNegative(f.hoursBetweenPours) ||
      !notNegative(f.hoursBeforeNextStep))
    wrong = "its least batch and its hours must be 0 or more";
  if (!(f.mixingLoss >= 0 && f.mixingLoss <= 1)) wrong = "its mixing loss must be from 0 to 1";
  if (wrong.empty()) return success();
  return Error{"Shop: the filler \"" + f.name + "\" cannot be used: " + wrong + "."};
}

}  // namespace rackside
