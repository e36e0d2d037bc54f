// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/fill_volume.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 3> kProfiles = {"bowl", "straight", "wedge"};

// The integral of areaShareAt from 0 to the share s.
double volumeShare(FillProfile profile, double s) {
  switch (profile) {
    case FillProfile::straight:
      return s;
    case FillProfile::wedge:
      return s - s * s / 2;
    case FillProfile::bowl:
      return s - s * s * s / 3;
  }
  throw std::logic_error("a profile that is none");
}

}  // namespace

std::string_view name(FillProfile profile) {
  return nameIn(kProfiles, profile);
}
std::optional<FillProfile> fillProfileFromName(std::string_view name) {
  return valueIn<FillProfile>(kProfiles, name);
}

double areaShareAt(FillProfile profile, double depthShare) {
  if (depthShare < 0 || depthShare >= 1) return 0;
  switch (profile) {
    case FillProfile::straight:
      return 1;
    case FillProfile::wedge:
      return 1 - depthShare;
    case FillProfile::bowl:
      return 1 - depthShare * depthShare;
  }
  throw std::logic_error("a profile that is none");
}

double hollowVolumeMm3(FillProfile profile, double areaMm2, double depthMm, double topMm,
                       double bottomMm) {
  if (depthMm <= 0) return 0;
  const double top = std::clamp(topMm / depthMm, 0.0, 1.0);
  const double bottom = std::clamp(bottomMm / depthMm, top, 1.0);
  return areaMm2 * depthMm * (volumeShare(profile, bottom) - volumeShare(profile, top));
}

std::optional<FillProfile> saidProfile(const Mark& mark) {
  const auto said = mark.extra->find("profile");
  if (said == mark.extra->end() || !said->is_string()) return std::nullopt;
  return fillProfileFromName(said->get<std::string>());
}

}  // namespace rackside
