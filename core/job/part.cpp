// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/part.h"

#include <array>

#include "core/base/limits.h"
#include "core/base/name_table.h"
#include "core/geometry/polygon.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 2> kGrainRules = {"along", "free"};
constexpr std::array<std::string_view, 3> kShowings = {"none", "one-face", "both-faces"};
constexpr std::array<std::string_view, 3> kSapwoodRules = {"no", "yes", "wanted-on-edge"};
constexpr std::array<std::string_view, 5> kLooks = {"any", "straight", "arch-centred", "lively",
                                                    "even-colour"};
constexpr double kOutlineSlackMm = 0.01;  // a drawing program's rounding
constexpr int kMostCopies = 10000;

bool positive(double v) {
  return v > 0 && v <= kMostPartMm;
}

std::string faultOfOutline(const Part& part) {
  if (!part.outline) return {};
  if (part.outline->size() > kMostVertices) return "its outline has too many corners";
  if (!isSimple(*part.outline)) return "its outline crosses itself or has fewer than three corners";
  const Rect box = bounds(*part.outline);
  if (box.x0 < -kOutlineSlackMm || box.y0 < -kOutlineSlackMm ||
      box.x1 > part.lengthMm + kOutlineSlackMm || box.y1 > part.widthMm + kOutlineSlackMm)
    return "its outline reaches beyond its length and width; give the box the outline needs";
  return {};
}

std::string fault(const Part& part) {
  if (part.name.empty()) return "it has no name";
  if (part.copies < 1 || part.copies > kMostCopies)
    return "the number of copies must be from 1 to " + std::to_string(kMostCopies);
  if (!positive(part.lengthMm)) return "its length must be more than 0, and at most 30 m";
  if (!positive(part.widthMm)) return "its width must be more than 0, and at most 30 m";
  if (!positive(part.thicknessMm)) return "its thickness must be more than 0, and at most 30 m";
  if (!(part.grainToleranceDeg >= 0 && part.grainToleranceDeg <= 90))
    return "the grain tolerance must be from 0 to 90 degrees";
  if (!within(part.value, 0, kMostValue))
    return "its value must be 0 or more, and at most 1,000,000,000";
  if (part.glueUp.allowed && !(positive(part.glueUp.leastStripMm) &&
                               part.glueUp.greatestStripMm >= part.glueUp.leastStripMm))
    return "the least strip of its panel must be more than 0 and no wider than the greatest";
  return faultOfOutline(part);
}

}  // namespace

std::string_view name(GrainRule v) {
  return nameIn(kGrainRules, v);
}
std::string_view name(Showing v) {
  return nameIn(kShowings, v);
}
std::string_view name(SapwoodRule v) {
  return nameIn(kSapwoodRules, v);
}
std::string_view name(Look v) {
  return nameIn(kLooks, v);
}
std::optional<GrainRule> grainRuleFromName(std::string_view s) {
  return valueIn<GrainRule>(kGrainRules, s);
}
std::optional<Showing> showingFromName(std::string_view s) {
  return valueIn<Showing>(kShowings, s);
}
std::optional<SapwoodRule> sapwoodRuleFromName(std::string_view s) {
  return valueIn<SapwoodRule>(kSapwoodRules, s);
}
std::optional<Look> lookFromName(std::string_view s) {
  return valueIn<Look>(kLooks, s);
}

Status validate(const Part& part) {
  const std::string wrong = fault(part);
  if (wrong.empty()) return success();
  return Error{"Part \"" + part.name + "\": " + wrong + "."};
}

}  // namespace rackside
