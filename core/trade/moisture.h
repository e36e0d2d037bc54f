// SPDX-License-Identifier: GPL-3.0-or-later
// Moisture in wood: what the air makes of it, what a meter's reading stands for, how much a width
// moves, what wood weighs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/job/shop.h"
#include "core/wood/board.h"
#include "core/wood/species.h"

namespace rackside {

// Equilibrium moisture content in percent (Wood Handbook, FPL-GTR-282, eq. 4-5), which its Table
// 4-2 rounds to within 0.07. Fails outside -10 to 60 °C and 0 to 98 % relative humidity.
Result<double> equilibriumMoisturePercent(double airCelsius, double relativeHumidityPercent);
Result<double> equilibriumMoisturePercent(const Air& air);

// Change of a size across the grain (eq. 13-2): size · C · (to − from), mm, > 0 when it swells. The
// coefficients hold from 6 to 14 % moisture.
double dimensionChangeMm(double sizeMm, double changeCoefficient, double fromPercent,
                         double toPercent);
inline constexpr double kLeastMoisturePercent = 6;
inline constexpr double kGreatestMoisturePercent = 14;

// The coefficient of a face's width: tangential when flat sawn, radial when quarter sawn, their
// mean for rift; tangential, the greater, when unknown. Empty for a wood without figures.
std::optional<double> widthCoefficient(const Species& species, Sawn sawn);

// What a pin (resistance) meter's reading stands for at another temperature of the wood than the
// meter is set for, 20 °C: Pfaff and Garrahan, Forest Products Journal 36(3), 1986 (from memory);
// FPL-GTR-6 (James, 1988) charts the same: readings fall as the wood gets colder. `woodPoints` is
// what the meter's own table adds for the wood. Fails outside -20 to 60 °C and 0 to 60 %.
Result<double> correctedMoisturePercent(double meterPercent, double woodCelsius, double woodPoints);
// From here up a meter's reading is only a sign of wetness (fibre saturation; FPL-GTR-6).
inline constexpr double kMeterHoldsToPercent = 28;

// The moisture that a part sees through the year, and at which it is made.
struct Seasons {
  double madeAtPercent = 8;
  double dryPercent = 6;     // a heated room in winter (common practice, no source)
  double humidPercent = 11;  // the same in summer (common practice, no source)
  bool fromAir = false;      // reckoned from the home's own air
};
// From the shop's moisture and the home's air; the usual seasons where that is not entered. Fails
// on air out of range.
Result<Seasons> seasonsOf(const Shop& shop);
// What the reader of movements has to know: beyond 6 to 14 % the coefficients are stretched.
std::vector<std::string> seasonWarnings(const Seasons& seasons);

// How much wider and narrower than made a width gets; neither is below 0.
struct Movement {
  double swellsMm = 0;
  double shrinksMm = 0;
  double swingMm() const { return swellsMm + shrinksMm; }
};
Movement seasonalMovement(double widthMm, double changeCoefficient, const Seasons& seasons);

// Density in kg/m³ at a moisture content, from specific gravity at that moisture's volume: water's
// density · G · (1 + M/100). G at 12 % stands for the volume of dry timber.
double densityKgPerM3(double specificGravity, double moisturePercent);

}  // namespace rackside
