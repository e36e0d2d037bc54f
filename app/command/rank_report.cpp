// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/rank_report.h"

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

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& w : words) text += (text.empty() ? "" : "; ") + w;
  return text;
}

std::string plainName(const std::string& text) {
  std::string out;
  for (const char c : text) out += std::isalnum(static_cast<unsigned char>(c)) ? c : '-';
  return out;
}

}  // namespace

nlohmann::json rankJson(const Rack& rack, const Part& part, const Ranking& ranking) {
  nlohmann::json j{{"part", part.name}, {"wish", name(ranking.wish)}};
  j["ranked"] = j["not_ranked"] = nlohmann::json::array();
  int number = 0;
  for (const Placement& p : ranking.places) {
    auto outline = nlohmann::json::array();
    for (const Point q : p.outline) outline.push_back({rounded(q.x), rounded(q.y)});
    auto marks = nlohmann::json::array();
    for (const MarkId& m : p.marks) marks.push_back(m.text);
    const Rect box = bounds(p.outline);
    j["ranked"].push_back(
        {{"rank", ++number},
         {"board", boardName(rack, p.board)},
         {"face", name(p.face)},
         {"x_mm", rounded(box.x0)},
         {"y_mm", rounded(box.y0)},
         {"length_mm", rounded(part.lengthMm)},
         {"width_mm", rounded(part.widthMm)},
         {"angle_deg", rounded(p.boardFromPart.angleRad * 180 / std::numbers::pi)},
         {"outline_mm", std::move(outline)},
         {"score", rounded(p.score)},
         {"reasons", p.reasons},
         {"marks", std::move(marks)}});
  }
  for (const NotRanked& n : ranking.notRanked)
    j["not_ranked"].push_back({{"board", boardName(rack, n.board)}, {"why", n.why}});
  j["remarks"] = ranking.remarks;
  return j;
}

std::vector<std::string> rankLines(const Rack& rack, const Part& part, const Ranking& ranking,
                                   const LengthStyle& style) {
  std::vector<std::string> lines{part.name + ", " + formatLength(part.lengthMm, style, false) +
                                 " by " + formatLength(part.widthMm, style) +
                                 ", wished for: " + words(ranking.wish) + "."};
  int number = 0;
  for (const Placement& p : ranking.places) {
    const Rect box = bounds(p.outline);
    lines.push_back(std::to_string(++number) + ". board " + boardName(rack, p.board) + ", face " +
                    std::string(name(p.face)) + ", " + formatLength(box.x0, style) +
                    " from the left end, " + formatLength(box.y0, style) + " from the near edge (" +
                    fixed(100 * p.score, 0) + " of 100): " + joined(p.reasons) + ".");
  }
  if (ranking.places.empty()) lines.emplace_back("No board can be ranked for it.");
  for (const NotRanked& n : ranking.notRanked)
    lines.push_back("not ranked: board " + boardName(rack, n.board) + ": " + n.why + ".");
  for (const std::string& remark : ranking.remarks) lines.push_back(remark);
  return lines;
}

Result<std::vector<std::filesystem::path>> writeRankPictures(
    const Rack& rack, const Part& part, const Ranking& ranking,
    const std::filesystem::path& rackFolder, const std::filesystem::path& folder,
    RunControl& control) {
  std::error_code ec;
  std::filesystem::create_directories(folder, ec);
  if (ec) return Error{"The folder " + folder.string() + " cannot be made (" + ec.message() + ")."};
  const sheets::GuiSession session;
  const double mmPerPx = std::max(kFinestMm, part.lengthMm / kWidestPx);
  std::vector<std::filesystem::path> files;
  std::vector<sheets::Shown> shown;
  int number = 0;
  for (const Placement& p : ranking.places) {
    const Board* board = rack.findBoard(p.board);
    const auto looked = partPicture(*board, p, part, rackFolder, mmPerPx, control);
    if (!looked) return looked.error();
    const cv::Mat3b& picture = *looked;
    char prefix[16];
    std::snprintf(prefix, sizeof prefix, "%02d", ++number);
    files.push_back(folder / (std::string(prefix) + "-" + plainName(board->name) + "-" +
                              std::string(name(p.face)) + ".png"));
    if (const Status s = sheets::writePng(picture, mmPerPx, files.back()); !s) return s.error();
    shown.push_back(
        {picture,
         std::to_string(number) + ".  Board " + board->name + ", face " + std::string(name(p.face)),
         joined(p.reasons) + "."});
  }
  files.push_back(folder / "side-by-side.png");
  const std::string title = part.name + " – " + words(ranking.wish) + ", as it might look planed";
  if (const Status s = sheets::writePng(sheets::sideBySide(title, shown, mmPerPx), files.back());
      !s)
    return s.error();
  return files;
}

}  // namespace rackside::command
