// SPDX-License-Identifier: GPL-3.0-or-later
// Moisture in wood: what the air makes of it, how a part moves, what it weighs.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/job/part.h"
#include "core/trade/species.h"
#include "core/wood/board.h"

namespace rackside {

// Equilibrium moisture content in percent (Wood Handbook, FPL-GTR-282, eq. 4-5), which its Table
// 4-2 rounds to within 0.07. Fails outside -10 to 60 °C and 0 to 98 % relative humidity.
Result<double> equilibriumMoisturePercent(double airCelsius, double relativeHumidityPercent);

// Change of a size across the grain (eq. 13-2): size · C · (to − from), mm, > 0 when it swells. The
// coefficients hold from 6 to 14 % moisture.
double dimensionChangeMm(double sizeMm, double changeCoefficient, double fromPercent,
                         double toPercent);
inline constexpr double kLeastMoisturePercent = 6;
inline constexpr double kGreatestMoisturePercent = 14;

// The coefficient of a face's width: tangential when flat sawn, radial when quarter sawn, their
// mean for rift; tangential, the greater, when unknown.
double widthCoefficient(const Species& species, Sawn sawn);

// The moisture that a part sees through the year, and at which it is made.
struct Seasons {
  double madeAtPercent = 8;
  double dryPercent = 6;     // a heated room in winter (common practice, no source)
  double humidPercent = 11;  // the same in summer (common practice, no source)
  Status validate() const;
};

// How much wider and narrower than made a width gets.
struct Movement {
  double swellsMm = 0;
  double shrinksMm = 0;
  double swingMm() const { return swellsMm + shrinksMm; }
};
Movement seasonalMovement(double widthMm, const Species& species, Sawn sawn,
                          const Seasons& seasons);

// A part that moves enough to be built for.
struct MovingPart {
  PartId part;
  std::string name;
  std::string species;
  Movement movement;
  std::string advice;
};
// From this width on a part is told of: a panel moves as one board of its width (common practice,
// no source).
inline constexpr double kWideFromMm = 150;
// `boardSpecies` and `sawn` stand for parts that name no species. Parts of a wood without published
// figures are left out and named in `unknownSpecies`.
std::vector<MovingPart> movingParts(const std::vector<Part>& parts, const std::string& boardSpecies,
                                    Sawn sawn, const Seasons& seasons,
                                    std::vector<std::string>& unknownSpecies);

// Density in kg/m³ at a moisture content, from specific gravity at that moisture's volume: water's
// density · G · (1 + M/100). G at 12 % stands for the volume of dry timber.
double densityKgPerM3(double specificGravity, double moisturePercent);

}  // namespace rackside
