// SPDX-License-Identifier: GPL-3.0-or-later
// The shop: its saws, machines, habits and clearances. Every default is common practice, no source,
// with its reason beside it; the machine's manual and the maker's own measurements come before it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/kept_keys.h"
#include "core/base/length.h"
#include "core/base/result.h"
#include "core/wood/mark.h"
#include "core/wood/species.h"

namespace rackside {

// Air that wood lies in.
struct Air {
  double celsius = 20;
  double humidityPercent = 45;
  bool operator==(const Air&) const = default;
};

struct Shop {
  // Kerfs. A full-kerf circular blade takes 1/8 in; a bandsaw about 1 mm, and its cut is rough.
  double crosscutKerfMm = 3.2;
  double ripKerfMm = 3.2;
  double firstRipKerfMm = 3.2;  // the straight line laid on a rough edge: bandsaw or guided saw
  // Rough ends hide checks and grit: trim before anything is measured from them.
  double endTrimMm = 50;
  // Added to each blank for the final cuts: an inch in length (snipe and square ends), a quarter
  // inch in width (jointing both edges), a quarter inch in thickness (flattening and planing both
  // faces).
  double lengthAllowanceMm = 25;
  double widthAllowanceMm = 6.4;
  double thicknessAllowanceMm = 6.4;
  double longPartMm = 1500;               // from here on …
  double longThicknessAllowanceMm = 9.5;  // … long parts keep more bow, so more thickness
  double minTakeOffMm = 0.8;              // least that a pass takes to clean up one face
  // Machines.
  double jointerWidthMm = 203;  // an 8 in jointer
  double planerWidthMm = 330;   // a 13 in planer
  double snipeMm = 0;  // length spoiled at each end by the planer, when there is no other allowance
  double shortestSafeMm =
      305;  // 12 in: shorter pieces are ganged with another and cut after milling
  double narrowestSafeMm = 25;
  // Square stock for legs is sawn this much over size and keeps half of it until it has rested;
  // curved parts are sawn this far outside their line.
  double legAllowanceMm = 5;
  double curvedAllowanceMm = 3;
  double glueLineAllowanceMm = 1.6;  // taken from each glued edge by jointing
  // Offcuts worth keeping.
  double usefulOffcutLengthMm = 450;
  double usefulOffcutWidthMm = 75;
  // What a plan is judged by. Looks: a piece's worth grows by so much of its value where its place
  // is all that was wished for. Stock, offcuts: value for each unit of price of the boards cut
  // into, and of the useful offcuts at their ends; 0 counts the parts alone.
  double lookWeight = 0.5;
  double stockWeight = 0;
  double offcutWeight = 0;
  // Milling twice with a rest between, for parts that show and for wide ones: left on after the
  // first time, both faces together (an eighth of an inch), and from which rough width on.
  double restAllowanceMm = 3.2;
  double widePartMm = 150;
  // Moisture content the shop settles at, and the day's default reading when a board has none.
  double shopMoisturePercent = 8;
  // The air of the shop, and of the home in its dry and its humid season, where they are known:
  // then the wood's moisture follows from them (core/trade/moisture.h).
  std::optional<Air> shopAir, homeDryAir, homeHumidAir;
  // Points that the meter's own table adds to a reading, by wood (`woodKey()`).
  std::map<std::string, double> meterCorrections;
  // Woods that no table lists, or of which the shop has figures of its own.
  std::vector<Species> ownSpecies;
  // Clearance round each kind of mark, mm; along the grain past the ends of checks and splits.
  std::map<MarkKind, double> clearanceMm = defaultClearances();
  LengthStyle show;
  KeptKeys extra;

  double clearance(MarkKind kind) const;
  double thicknessAllowance(double finishedLengthMm) const;

  // 25 mm past the visible tip of a check or split (it runs on unseen), 8 mm round a knot (grain
  // turned aside splits and tears), less where only the look is at stake.
  static std::map<MarkKind, double> defaultClearances();
};

Status validate(const Shop& shop);

}  // namespace rackside
