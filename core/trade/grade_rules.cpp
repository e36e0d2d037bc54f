// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/grade_rules.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 8> kNames = {
    "FAS",           "FAS One Face",  "Selects",       "No. 1 Common",
    "No. 2A Common", "No. 3A Common", "No. 3B Common", "below grade"};

// "Unlimited": more than a search will use.
constexpr int kUnlimited = 12;

// No. 3B: at least 1½ in wide and 36 in².
std::vector<LeastCuttingSize> soundCuttings() {
  std::vector<LeastCuttingSize> all;
  for (double width = 1.5; width <= 6; width += 0.25) all.push_back({width, 36 / width});
  all.push_back({6, 6});
  for (double length = 5; length >= 1; length -= 1) all.push_back({36 / length, length});
  return all;
}

bool within(int sm, int least, int greatest) {
  return sm >= least && sm <= greatest;
}

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

const std::vector<GradeRule>& faceRules() {
  static const std::vector<GradeRule> rules = {
      {Grade::fas, 6, 8, {{4, 60}, {3, 84}}, false},
      {Grade::common1, 3, 4, {{4, 24}, {3, 36}}, false},
      {Grade::common2A, 3, 4, {{3, 24}}, false},
      {Grade::common3A, 3, 4, {{3, 24}}, false},
      {Grade::common3B, 3, 4, soundCuttings(), true},
  };
  return rules;
}

const GradeRule& faceRule(Grade grade) {
  for (const GradeRule& rule : faceRules())
    if (rule.grade == grade) return rule;
  throw std::logic_error("no face has this grade by itself");
}

std::vector<CuttingDemand> demands(Grade grade, int sm) {
  if (sm < 1) return {};
  switch (grade) {
    case Grade::fas:
      return fasDemands(sm);
    case Grade::common1:
      return common1Demands(sm);
    case Grade::common2A:
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
