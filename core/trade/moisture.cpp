// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/moisture.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

// 62.43 lb/ft³ of water in the handbook's own units (FPL-GTR-282, chapter 4).
constexpr double kWaterKgPerM3 = 62.43 * 0.45359237 / 0.028316846592;

// Pfaff and Garrahan's equation for a reading R at t °C, before the wood's own coefficients.
double atMeterTemperature(double reading, double t) {
  return (reading + 0.567 - 0.0260 * t + 0.000051 * t * t) / (0.881 * std::pow(1.0056, t));
}

}  // namespace

Result<double> equilibriumMoisturePercent(double airCelsius, double relativeHumidityPercent) {
  if (!(airCelsius >= -10 && airCelsius <= 60))
    return Error{"The air's temperature must be from -10 to 60 °C (14 to 140 °F)."};
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

Result<double> equilibriumMoisturePercent(const Air& air) {
  return equilibriumMoisturePercent(air.celsius, air.humidityPercent);
}

double dimensionChangeMm(double sizeMm, double changeCoefficient, double fromPercent,
                         double toPercent) {
  return sizeMm * changeCoefficient * (toPercent - fromPercent);
}

std::optional<double> widthCoefficient(const Species& species, Sawn sawn) {
  const ChangeCoefficients change = changeOf(species);
  if (!change.radial || !change.tangential) return std::nullopt;
  const double radial = change.radial->value, tangential = change.tangential->value;
  if (sawn == Sawn::quarter) return radial;
  return sawn == Sawn::rift ? (radial + tangential) / 2 : tangential;
}

Result<double> correctedMoisturePercent(double meterPercent, double woodCelsius,
                                        double woodPoints) {
  if (!(meterPercent >= 0 && meterPercent <= 60))
    return Error{"A meter's reading must be from 0 to 60 %."};
  if (!(woodCelsius >= -20 && woodCelsius <= 60))
    return Error{"The wood's temperature must be from -20 to 60 °C (-4 to 140 °F)."};
  if (!std::isfinite(woodPoints)) return Error{"The meter's correction must be a number."};
  // The meter is right at its own temperature by definition.
  constexpr double kMeterCelsius = 20;
  const double change = atMeterTemperature(meterPercent, woodCelsius) -
                        atMeterTemperature(meterPercent, kMeterCelsius);
  return std::max(0.0, meterPercent + change + woodPoints);
}

Result<Seasons> seasonsOf(const Shop& shop) {
  Seasons seasons;
  seasons.madeAtPercent = shop.shopMoisturePercent;
  if (shop.homeDryAir && shop.homeHumidAir) {
    const auto dry = equilibriumMoisturePercent(*shop.homeDryAir);
    const auto humid = equilibriumMoisturePercent(*shop.homeHumidAir);
    if (!dry) return dry.error();
    if (!humid) return humid.error();
    seasons.dryPercent = std::min(*dry, *humid);
    seasons.humidPercent = std::max(*dry, *humid);
    seasons.fromAir = true;
  }
  return seasons;
}

std::vector<std::string> seasonWarnings(const Seasons& s) {
  std::vector<std::string> warnings;
  if (std::min({s.dryPercent, s.madeAtPercent, s.humidPercent}) < kLeastMoisturePercent ||
      std::max({s.dryPercent, s.madeAtPercent, s.humidPercent}) > kGreatestMoisturePercent)
    warnings.push_back(
        "The published coefficients hold from 6 to 14 % moisture; beyond, movement is reckoned on "
        "in a straight line and is less sure.");
  if (s.madeAtPercent < s.dryPercent || s.madeAtPercent > s.humidPercent)
    warnings.push_back(
        "The wood is made up outside the moistures of the home: it moves one way only, and "
        "once for all, as it settles.");
  return warnings;
}

Movement seasonalMovement(double widthMm, double c, const Seasons& seasons) {
  return {std::max(0.0, dimensionChangeMm(widthMm, c, seasons.madeAtPercent, seasons.humidPercent)),
          std::max(0.0, -dimensionChangeMm(widthMm, c, seasons.madeAtPercent, seasons.dryPercent))};
}

double densityKgPerM3(double specificGravity, double moisturePercent) {
  return kWaterKgPerM3 * specificGravity * (1 + moisturePercent / 100);
}

}  // namespace rackside
