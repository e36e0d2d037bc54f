// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/panel_report.h"

#include <algorithm>
#include <numbers>

#include "app/command/console.h"
#include "app/command/rack_names.h"
#include "app/sheets/gui_session.h"
#include "app/sheets/side_by_side.h"
#include "vision/wood/rank/part_picture.h"

namespace rackside::command {
namespace {

constexpr double kFinestMm = 0.5, kWidestPx = 2400;

// "2, 1 end for end, 3 turned over"
std::string orderWords(const PanelOrder& order) {
  std::string text;
  for (const LaidStrip& s : order.strips)
    text += (text.empty() ? "" : ", ") + std::to_string(s.strip + 1) +
            (s.turned ? " end for end" : "") + (s.over ? " turned over" : "");
  return text;
}

std::string seamWords(const PanelOrder& order) {
  std::string text;
  for (size_t i = 0; i < order.seams.size(); ++i)
    text += (i ? "; " : "") + std::string("seam ") + std::to_string(i + 1) + ": " +
            words(order.seams[i]);
  return text;
}

}  // namespace

nlohmann::json panelJson(const Rack& rack, const Part& part, const Panel& panel) {
  nlohmann::json j{{"part", part.name},
                   {"strip_length_mm", rounded(panel.strip.lengthMm)},
                   {"strip_width_mm", rounded(panel.strip.widthMm)}};
  j["strips"] = j["orders"] = nlohmann::json::array();
  int number = 0;
  for (const PanelStrip& s : panel.strips) {
    const Rect box = bounds(s.place.outline);
    j["strips"].push_back(
        {{"strip", ++number},
         {"board", boardName(rack, s.place.board)},
         {"face", name(s.place.face)},
         {"x_mm", rounded(box.x0)},
         {"y_mm", rounded(box.y0)},
         {"angle_deg", rounded(s.place.boardFromPart.angleRad * 180 / std::numbers::pi)},
         {"score", rounded(s.place.score)},
         {"reasons", s.place.reasons}});
  }
  for (const PanelOrder& o : panel.orders) {
    nlohmann::json order{{"cost", rounded(o.cost)}};
    order["strips"] = order["seams"] = nlohmann::json::array();
    for (const LaidStrip& s : o.strips)
      order["strips"].push_back({{"strip", s.strip + 1}, {"turned", s.turned}, {"over", s.over}});
    for (const Seam& s : o.seams)
      order["seams"].push_back({{"colour_step", rounded(s.colourStep)},
                                {"grain_deg", rounded(s.slopeRad * 180 / std::numbers::pi)},
                                {"cost", rounded(s.cost())}});
    j["orders"].push_back(std::move(order));
  }
  return j;
}

std::vector<std::string> panelLines(const Rack& rack, const Part& part, const Panel& panel,
                                    const LengthStyle& style) {
  std::vector<std::string> lines{part.name + ": " + std::to_string(panel.strips.size()) +
                                 " strips of " + formatLength(panel.strip.lengthMm, style, false) +
                                 " by " + formatLength(panel.strip.widthMm, style) + "."};
  int number = 0;
  for (const PanelStrip& s : panel.strips) {
    const Rect box = bounds(s.place.outline);
    lines.push_back("strip " + std::to_string(++number) + ": board " +
                    boardName(rack, s.place.board) + ", face " + std::string(name(s.place.face)) +
                    ", " + formatLength(box.x0, style) + " from the left end, " +
                    formatLength(box.y0, style) + " from the near edge");
  }
  number = 0;
  for (const PanelOrder& o : panel.orders)
    lines.push_back(std::to_string(++number) + ". order " + orderWords(o) + ": " + seamWords(o));
  return lines;
}

Result<std::filesystem::path> writePanelPictures(const Rack& rack, const Part& part,
                                                 const Panel& panel,
                                                 const std::filesystem::path& rackFolder,
                                                 const std::filesystem::path& folder,
                                                 RunControl& control) {
  std::error_code ec;
  std::filesystem::create_directories(folder, ec);
  if (ec) return Error{"The folder " + folder.string() + " cannot be made (" + ec.message() + ")."};
  const sheets::GuiSession session;
  const double mmPerPx = std::max(kFinestMm, part.lengthMm / kWidestPx);
  const auto strips = stripPictures(rack.boards, panel, rackFolder, mmPerPx, control);
  if (!strips) return strips.error();
  std::vector<sheets::Shown> shown;
  for (size_t i = 0; i < panel.orders.size(); ++i) {
    const PanelOrder& o = panel.orders[i];
    shown.push_back({panelPicture(*strips, o),
                     std::to_string(i + 1) + ".  From the near edge: " + orderWords(o),
                     seamWords(o) + "."});
    const auto file = folder / ("panel-" + std::to_string(i + 1) + ".png");
    if (const Status s = sheets::writePng(shown.back().picture, mmPerPx, file); !s)
      return s.error();
  }
  const auto all = folder / "panels.png";
  const std::string title = part.name + " – as it might look glued up and planed";
  if (const Status s = sheets::writePng(sheets::sideBySide(title, shown, mmPerPx), all); !s)
    return s.error();
  return all;
}

}  // namespace rackside::command
