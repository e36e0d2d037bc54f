// SPDX-License-Identifier: GPL-3.0-or-later
// The figures of the standard hardwood grades of the National Hardwood Lumber Association, Rules
// for the Measurement and Inspection of Hardwood, 2019 and 2023 editions, as far as they could be
// read: nhla.com (rules corners, with paragraphs), hooddistribution.com (lumber grades, the chart),
// ahec-europe.org (technical guide), issuu.com/nhla (2015 edition, order of the grades); for walnut
// walnutoutlet.net, ttjonline.com and nhla.com (walnut, in so many words).
#pragma once

#include <string_view>
#include <vector>

#include "core/wood/species.h"

namespace rackside {

// Best first, in the order of the rules.
enum class Grade {
  fas,
  fasOneFace,
  selects,
  common1,
  common2A,
  common3A,
  common2B,
  common3B,
  below
};
std::string_view name(Grade grade);  // "FAS", "FAS One Face", …

struct LeastCuttingSize {
  double widthIn = 0;
  double lengthIn = 0;
};

struct GradeRule {
  Grade grade = Grade::fas;
  double leastWidthIn = 0;  // of the board
  double leastLengthFt = 0;
  std::vector<LeastCuttingSize> leastCuttings;
  bool soundWillDo = false;  // cuttings need be sound only, not clear
};

// The grades that one face has by itself, best first: FAS, No. 1, 2A, 3A, 2B and 3B Common.
const std::vector<GradeRule>& faceRules(GradingRule rule);
const GradeRule& faceRule(Grade grade, GradingRule rule);

// Minimum widths may be so much scant kiln-dried (NHLA 2023, page 56).
inline constexpr double kKilnDriedScantIn = 0.25;

// How many cuttings a board may take, and the units they must yield together.
struct CuttingDemand {
  int cuttings = 0;
  double units = 0;
};
// The ways open at a surface measure: the plain one, the one with an extra cutting where the rule
// has it, and the special ones of small boards. A fraction of a cutting is dropped (from memory;
// agrees with the worked examples).
std::vector<CuttingDemand> demands(Grade grade, int surfaceMeasureFt2,
                                   GradingRule rule = GradingRule::standard);

}  // namespace rackside
