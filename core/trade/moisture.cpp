// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/moisture.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

// 62.43 lb/ft³ of water in the handbook's own units.
constexpr double kWaterKgPerM3 = 62.43 * 0.45359237 / 0.028316846592;

}  // namespace

Result<double> equilibriumMoisturePercent(double airCelsius, double relativeHumidityPercent) {
  if (!(airCelsius >= -10 && airCelsius <= 60))
    return Error{"The air's temperature must be from -10 to 60 °C."};
  if (!(relativeHumidityPercent >= 0 && relativeHumidityPercent <= 98))
    return Error{"The relative humidity must be from 0 to 98 %."};
  const double t = airCelsius, h = relativeHumidityPercent / 100;
  const double w = 349 + 1.29 * t + 0.0135 * t * t;
  const double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const double kh = k * h;
  return 1800 / w *
         (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh));
}

double dimensionChangeMm(double sizeMm, double changeCoefficient, double fromPercent,
                         double toPercent) {
  return sizeMm * changeCoefficient * (toPercent - fromPercent);
}

double widthCoefficient(const Species& species, Sawn sawn) {
  const double radial = species.radialChange.value, tangential = species.tangentialChange.value;
  if (sawn == Sawn::quarter) return radial;
  return sawn == Sawn::rift ? (radial + tangential) / 2 : tangential;
}

Status Seasons::validate() const {
  if (!(dryPercent <= madeAtPercent && madeAtPercent <= humidPercent))
    return Error{"The moisture at making must lie between the dry and the humid season's."};
  if (dryPercent < kLeastMoisturePercent || humidPercent > kGreatestMoisturePercent)
    return Error{
        "The published coefficients hold from 6 to 14 % moisture; keep the seasons "
        "within."};
  return success();
}

Movement seasonalMovement(double widthMm, const Species& species, Sawn sawn,
                          const Seasons& seasons) {
  const double c = widthCoefficient(species, sawn);
  return {dimensionChangeMm(widthMm, c, seasons.madeAtPercent, seasons.humidPercent),
          -dimensionChangeMm(widthMm, c, seasons.madeAtPercent, seasons.dryPercent)};
}

std::vector<MovingPart> movingParts(const std::vector<Part>& parts, const std::string& boardSpecies,
                                    Sawn sawn, const Seasons& seasons,
                                    std::vector<std::string>& unknownSpecies) {
  std::vector<MovingPart> moving;
  for (const Part& part : parts) {
    if (part.widthMm < kWideFromMm) continue;
    const std::string wood = part.species.empty() ? boardSpecies : part.species;
    const Species* species = findSpecies(wood);
    if (!species) {
      if (std::find(unknownSpecies.begin(), unknownSpecies.end(), wood) == unknownSpecies.end())
        unknownSpecies.push_back(wood);
      continue;
    }
    MovingPart m{part.id, part.name, std::string(species->name), {}, {}};
    m.movement = seasonalMovement(part.widthMm, *species, sawn, seasons);
    m.advice =
        "Fastened across the grain it needs room: slotted holes, buttons or a groove that lets it "
        "swell and shrink; fix it at one edge or in the middle only.";
    moving.push_back(std::move(m));
  }
  return moving;
}

double densityKgPerM3(double specificGravity, double moisturePercent) {
  return kWaterKgPerM3 * specificGravity * (1 + moisturePercent / 100);
}

}  // namespace rackside
