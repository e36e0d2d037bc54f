// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_rules.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 9> kNames = {
    "FAS",           "FAS One Face",  "Selects",       "No. 1 Common", "No. 2A Common",
    "No. 3A Common", "No. 2B Common", "No. 3B Common", "below grade"};

// "Unlimited": more than a search will use.
constexpr int kUnlimited = 12;

// At least so wide and so many square inches.
std::vector<LeastCuttingSize> byArea(double leastWidthIn, double squareIn) {
  std::vector<LeastCuttingSize> all;
  for (double width = leastWidthIn; width <= 6; width += 0.25)
    all.push_back({width, squareIn / width});
  for (double length = 5; length >= 1; length -= 1) all.push_back({squareIn / length, length});
  return all;
}

// The chart at hooddistribution.com, and ahec-europe.org.
std::vector<GradeRule> standardRules() {
  return {{Grade::fas, 6, 8, {{4, 60}, {3, 84}}, false},
          {Grade::common1, 3, 4, {{4, 24}, {3, 36}}, false},
          {Grade::common2A, 3, 4, {{3, 24}}, false},
          {Grade::common3A, 3, 4, {{3, 24}}, false},
          {Grade::common2B, 3, 4, {{3, 24}}, true},
          {Grade::common3B, 3, 4, byArea(1.5, 36), true}};
}

// Walnut and butternut: boards from 5 in × 6 ft (ttjonline.com), smaller cuttings; No. 2B's of 2 in
// and 72 in² (nhla.com), and No. 2A's the same (from memory).
std::vector<GradeRule> walnutRules() {
  return {{Grade::fas, 5, 6, {{4, 36}, {3, 72}}, false},
          {Grade::common1, 3, 4, {{3, 24}}, false},
          {Grade::common2A, 3, 4, byArea(2, 72), false},
          {Grade::common3A, 3, 4, byArea(2, 72), false},
          {Grade::common2B, 3, 4, byArea(2, 72), true},
          {Grade::common3B, 3, 4, byArea(1.5, 36), true}};
}

bool within(int sm, int least, int greatest) {
  return sm >= least && sm <= greatest;
}

// These three: the chart at hooddistribution.com.
std::vector<CuttingDemand> fasDemands(int sm) {
  std::vector<CuttingDemand> ways;
  // Selects of 2 and 3 ft²: clear, or 11 units a foot in one cutting.
  if (within(sm, 2, 3)) return {{1, sm * 11.0}};
  const int cuttings = std::min(sm / 4, 4);
  if (cuttings > 0) ways.push_back({cuttings, sm * 10.0});
  if (within(sm, 6, 15)) ways.push_back({cuttings + 1, sm * 11.0});
  return ways;
}

std::vector<CuttingDemand> common1Demands(int sm) {
  if (sm == 1) return {{1, 12.0}};
  if (sm == 2) return {{1, 18.0}};
  const int cuttings = std::min((sm + 1) / 3, 5);
  std::vector<CuttingDemand> ways{{cuttings, sm * 8.0}};
  if (within(sm, 3, 10)) ways.push_back({cuttings + 1, sm * 9.0});
  return ways;
}

std::vector<CuttingDemand> common2Demands(int sm) {
  if (sm == 1) return {{1, 8.0}};
  const int cuttings = std::min(sm / 2, 7);
  std::vector<CuttingDemand> ways{{cuttings, sm * 6.0}};
  if (within(sm, 2, 7)) ways.push_back({cuttings + 1, sm * 8.0});
  return ways;
}

}  // namespace

std::string_view name(Grade grade) {
  return nameIn(kNames, grade);
}

const std::vector<GradeRule>& faceRules(GradingRule rule) {
  static const std::vector<GradeRule> standard = standardRules(), walnut = walnutRules();
  return rule == GradingRule::walnut ? walnut : standard;
}

const GradeRule& faceRule(Grade grade, GradingRule species) {
  for (const GradeRule& rule : faceRules(species))
    if (rule.grade == grade) return rule;
  throw std::logic_error("no face has this grade by itself");
}

std::vector<CuttingDemand> demands(Grade grade, int sm, GradingRule rule) {
  if (sm < 1) return {};
  switch (grade) {
    case Grade::fas:
      return fasDemands(sm);
    case Grade::common1:
      return common1Demands(sm);
    case Grade::common2A:
      return common2Demands(sm);
    case Grade::common2B:  // of walnut as many as there are (nhla.com, walnut)
      if (rule == GradingRule::walnut) return {{kUnlimited, sm * 6.0}};
      return common2Demands(sm);
    case Grade::common3A:
      return {{kUnlimited, sm * 4.0}};
    case Grade::common3B:
      return {{kUnlimited, sm * 3.0}};
    default:
      throw std::logic_error("no face has this grade by itself");
  }
}

}  // namespace rackside
