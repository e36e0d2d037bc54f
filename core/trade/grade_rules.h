// SPDX-License-Identifier: GPL-3.0-or-later
// The figures of the standard hardwood grades of the National Hardwood Lumber Association, as
// quoted by hooddistribution.com (lumber grades) and ahec-europe.org (technical guide, grading,
// 2004).
#pragma once

#include <string_view>
#include <vector>

namespace rackside {

enum class Grade { fas, fasOneFace, selects, common1, common2A, common3A, common3B, below };
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

// FAS, No. 1, 2A, 3A and 3B Common, best first: the grades that one face has by itself.
const std::vector<GradeRule>& faceRules();
const GradeRule& faceRule(Grade grade);

// How many cuttings a board may take, and the units they must yield together.
struct CuttingDemand {
  int cuttings = 0;
  double units = 0;
};
// The ways open at a surface measure: the plain one, the one with an extra cutting where the rule
// has it, and the special ones of small boards. A fraction of a cutting is dropped (from memory;
// agrees with the worked examples).
std::vector<CuttingDemand> demands(Grade grade, int surfaceMeasureFt2);

}  // namespace rackside
