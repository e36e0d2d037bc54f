// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/json_outline.h"

#include <algorithm>

#include "core/base/name_table.h"
#include "core/storage/json_points.h"

namespace rackside {
namespace {

constexpr double kWidthStepMm = 100;  // as Board::widthsMm says
constexpr std::array<std::string_view, 2> kCauses = {"adjustment", "card-scale"};

nlohmann::json planeModesJson(const std::vector<PlaneMode>& modes) {
  nlohmann::json cause = nlohmann::json::array(), dx = cause, dy = cause;
  for (const PlaneMode& m : modes) {
    cause.push_back(nameIn(kCauses, m.cause));
    dx.push_back(m.dx);
    dy.push_back(m.dy);
  }
  return {{"cause", cause}, {"dx_mm", dx}, {"dy_mm", dy}};
}

std::vector<PlaneMode> readPlaneModes(JsonReader& r) {
  const std::vector<std::string> cause = r.texts("cause");
  const auto dx = r.rows("dx_mm"), dy = r.rows("dy_mm");
  std::vector<PlaneMode> modes;
  if (cause.size() != dx.size() || cause.size() != dy.size()) {
    r.fail("cause", "as long as dx_mm and dy_mm");
    return modes;
  }
  for (size_t i = 0; i < cause.size(); ++i) {
    PlaneMode m;
    const auto known = valueIn<PlaneMode::Cause>(kCauses, cause[i]);
    if (!known) r.fail("cause", "of \"adjustment\" and \"card-scale\" only");
    if (dx[i].size() != m.dx.size() || dy[i].size() != m.dy.size()) {
      r.fail("dx_mm", "ten numbers for each mode, as dy_mm");
      return modes;
    }
    m.cause = known.value_or(PlaneMode::Cause::adjustment);
    std::copy(dx[i].begin(), dx[i].end(), m.dx.begin());
    std::copy(dy[i].begin(), dy[i].end(), m.dy.begin());
    modes.push_back(m);
  }
  return modes;
}

}  // namespace

nlohmann::json outlineJson(const Outline& outline) {
  nlohmann::json points = nlohmann::json::array(), sigma = points, state = points;
  for (const OutlineVertex& v : outline.vertices) {
    points.push_back(pointJson(v.at));
    sigma.push_back(v.sigmaMm);
    state.push_back(name(v.state));
  }
  return {{"points_mm", points},
          {"sigma_mm", sigma},
          {"state", state},
          {"plane_modes", planeModesJson(outline.planeModes)}};
}

Outline readOutline(JsonReader& r) {
  Outline outline;
  const Polygon points = r.points("points_mm");
  const std::vector<double> sigma = r.numbers("sigma_mm");
  const std::vector<std::string> state = r.texts("state");
  if (r.has("plane_modes")) outline.planeModes = readPlaneModes(r.object("plane_modes"));
  if (sigma.size() != points.size() || state.size() != points.size()) {
    r.fail("sigma_mm", "as long as points_mm, and so state");
    return outline;
  }
  for (size_t i = 0; i < points.size(); ++i) {
    const auto known = edgeStateFromName(state[i]);
    if (!known) r.fail("state", "of \"sure\", \"unsure\", \"bridged\" and \"drawn\" only");
    if (sigma[i] < 0) r.fail("sigma_mm", "0 or more everywhere");
    outline.vertices.push_back({points[i], sigma[i], known.value_or(EdgeState::unsure)});
  }
  return outline;
}

nlohmann::json widthsJson(const std::vector<Measured>& widths) {
  nlohmann::json value = nlohmann::json::array(), u95 = value, u95Total = value;
  for (const Measured& w : widths) {
    value.push_back(w.value);
    u95.push_back(w.u95);
    u95Total.push_back(w.u95Total);
  }
  return {
      {"step_mm", kWidthStepMm}, {"value_mm", value}, {"u95_mm", u95}, {"u95_total_mm", u95Total}};
}

std::vector<Measured> readWidths(JsonReader& r) {
  const auto value = r.numbers("value_mm"), u95 = r.numbers("u95_mm");
  const auto u95Total = r.numbers("u95_total_mm");
  std::vector<Measured> widths;
  if (r.number("step_mm", kWidthStepMm) != kWidthStepMm) r.fail("step_mm", "100");
  if (u95.size() != value.size() || u95Total.size() != value.size()) {
    r.fail("value_mm", "as long as u95_mm and u95_total_mm");
    return widths;
  }
  for (size_t i = 0; i < value.size(); ++i) widths.push_back({value[i], u95[i], u95Total[i]});
  return widths;
}

nlohmann::json measuredJson(const Measured& m) {
  return {{"value_mm", m.value}, {"u95_mm", m.u95}, {"u95_total_mm", m.u95Total}};
}

Measured readMeasured(JsonReader& r) {
  return {r.number("value_mm"), r.number("u95_mm"), r.number("u95_total_mm")};
}

bool isFolderName(std::string_view text) {
  return !text.empty() && text.size() <= 100 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  });
}

}  // namespace rackside
