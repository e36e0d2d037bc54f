// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/scan_report.h"

#include "app/command/console.h"
#include "core/geometry/polygon.h"
#include "core/trade/tally.h"
#include "core/wood/measure.h"

namespace rackside::command {
namespace {

nlohmann::json outlineJson(const Outline& outline) {
  auto points = nlohmann::json::array();
  for (const OutlineVertex& v : outline.vertices)
    points.push_back({rounded(v.at.x), rounded(v.at.y)});
  return points;
}

nlohmann::json statesJson(const Outline& outline) {
  auto states = nlohmann::json::array();
  for (const OutlineVertex& v : outline.vertices) states.push_back(name(v.state));
  return states;
}

nlohmann::json widthsJson(const Board& board) {
  auto widths = nlohmann::json::array();
  for (size_t i = 0; i < board.widthsMm.size(); ++i) {
    const Measured& w = board.widthsMm[i];
    widths.push_back({{"at_mm", 100.0 * double(i + 1)},
                      {"width_mm", rounded(w.value)},
                      {"u95_mm", rounded(w.u95)},
                      {"u95_total_mm", rounded(w.u95Total)}});
  }
  return widths;
}

nlohmann::json tallyJson(const Board& board) {
  const int measure = surfaceMeasure(tallyWidthMm(board.outline), board.lengthMm.value);
  nlohmann::json j{{"surface_measure_ft2", measure},
                   {"surface_measure_exact_ft2", rounded(surfaceMeasureExactFt2(board.outline))}};
  if (board.thicknessMm > 0) {
    j["board_feet"] = boardFeet(measure, nominalThicknessIn(board.thicknessMm));
    j["board_feet_exact"] = rounded(boardFeetExact(board.outline, board.thicknessMm));
  } else {
    j["board_feet"] = nullptr;  // no thickness given
    j["board_feet_exact"] = nullptr;
  }
  return j;
}

std::string plusMinus(const Measured& m, const LengthStyle& style) {
  std::string text = formatLength(m.value, style) + " ± " + fixed(m.u95, 1) + " mm";
  if (m.u95Total > m.u95 * 1.05)
    text += " (± " + fixed(m.u95Total, 1) + " mm until the print of the cards is checked)";
  return text;
}

std::string edgeRemark(const Outline& outline) {
  double unsure = 0, bridged = 0, all = 0;
  const auto& v = outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const double length = norm(v[(i + 1) % v.size()].at - v[i].at);
    all += length;
    if (v[i].state == EdgeState::unsure) unsure += length;
    if (v[i].state == EdgeState::bridged) bridged += length;
  }
  if (all <= 0 || unsure + bridged <= 0) return {};
  return "  edge: " + fixed(100 * unsure / all, 1) + " % unsure, " + fixed(100 * bridged / all, 1) +
         " % bridged under cards";
}

}  // namespace

nlohmann::json scanJson(const ScanResult& result) {
  const Board& b = result.board;
  nlohmann::json j;
  j["board"] = {{"id", b.id.text},
                {"name", b.name},
                {"species", b.species},
                {"thickness_mm", b.thicknessMm > 0 ? nlohmann::json(b.thicknessMm) : nullptr},
                {"tag", b.tag ? nlohmann::json(*b.tag) : nullptr}};
  j["length_mm"] = {{"value", rounded(b.lengthMm.value)},
                    {"u95", rounded(b.lengthMm.u95)},
                    {"u95_total", rounded(b.lengthMm.u95Total)}};
  j["widths"] = widthsJson(b);
  j["outline_mm"] = outlineJson(b.outline);
  j["outline_state"] = statesJson(b.outline);
  j["area_mm2"] = rounded(area({b.outline.polygon()}), 1);
  j.update(tallyJson(b));
  j["crook_mm"] = rounded(crookMm(b.outline));
  j["taper_mm_per_m"] = rounded(taperMmPerM(b.outline));
  j["cards"] = nlohmann::json::array();
  for (const CardReport& c : result.cards)
    j["cards"].push_back({{"number", c.number},
                          {"name", c.name},
                          {"corners", c.corners},
                          {"rms_px", rounded(c.rmsPx)}});
  j["lens"] = {{"focal_px", rounded(result.lens.focalPx)},
               {"k1", rounded(result.lens.k1, 6)},
               {"source", result.lens.source}};
  const Picture* picture = b.pictures.empty() ? nullptr : &b.pictures.back();
  j["picture"] = {{"file", picture ? picture->file : ""},
                  {"mm_per_px", picture ? rounded(picture->mmPerPx, 4) : 0.0}};
  j["advice"] = result.advice;
  j["warnings"] = result.warnings;
  return j;
}

std::string scanSummary(const Board& b, const LengthStyle& style) {
  const auto middle = widthAt(b.outline, b.lengthMm.value / 2);
  std::string line = b.name + ": " + formatLength(b.lengthMm.value, style) + " long, " +
                     (middle ? formatLength(middle->value, style) + " wide in the middle" : "");
  if (b.thicknessMm > 0)
    line += ", " + fixed(boardFeetExact(b.outline, b.thicknessMm), 2) + " board feet";
  return line;
}

std::vector<std::string> scanLines(const ScanResult& result, const LengthStyle& style) {
  const Board& b = result.board;
  std::vector<std::string> lines{scanSummary(b, style), "  length " + plusMinus(b.lengthMm, style)};
  for (size_t i = 0; i < b.widthsMm.size(); ++i)
    lines.push_back("  width at " + formatLength(100.0 * double(i + 1), style) + ": " +
                    plusMinus(b.widthsMm[i], style));
  lines.push_back("  crook " + fixed(crookMm(b.outline), 1) + " mm, taper " +
                  fixed(taperMmPerM(b.outline), 1) + " mm per metre");
  if (const std::string remark = edgeRemark(b.outline); !remark.empty()) lines.push_back(remark);
  for (const std::string& a : result.advice) lines.push_back("  advice: " + a);
  return lines;
}

}  // namespace rackside::command
