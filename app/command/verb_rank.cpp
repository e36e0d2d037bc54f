// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_rank.h"

#include <algorithm>
#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/panel_report.h"
#include "app/command/rank_report.h"
#include "vision/wood/rank/rack_pictures.h"

namespace rackside::command {
namespace {

struct RankVerb {
  CommonOptions common;
  std::string part, wish, pictures;
  std::vector<std::string> boards;
  size_t most = 0;     // 0: all
  bool panel = false;  // preview a glued-up panel instead
};

Result<const Part*> partNamed(const Rack& rack, const std::string& text) {
  if (const Part* p = rack.findPart(PartId{text})) return p;
  for (const Part& p : rack.parts)
    if (p.name == text) return &p;
  std::string known;
  for (const Part& p : rack.parts) known += (known.empty() ? "" : ", ") + p.name;
  return Error{"No part is called \"" + text + "\". " +
               (known.empty() ? "The rack has no parts list yet: import one (rackside parts)."
                              : "The list holds: " + known + ".")};
}

Result<std::vector<Board>> boardsOf(const Rack& rack, const std::vector<std::string>& names) {
  if (rack.boards.empty())
    return Error{"The rack holds no boards: scan some first (rackside scan)."};
  if (names.empty()) return rack.boards;
  std::vector<Board> boards;
  for (const std::string& n : names) {
    const auto board = findBoard(rack, n);
    if (!board) return board.error();
    boards.push_back(**board);
  }
  return boards;
}

int runPanel(const RankVerb& v, const Rack& rack, const Part& part,
             const std::vector<Board>& boards, const Wish& wish, const FigureSource& figures) {
  RunControl control;
  const auto panel = panelOf(boards, part, rack.shop, wish, figures, control);
  if (!panel) return inputAtFault(panel.error());
  nlohmann::json j = panelJson(rack, part, *panel);
  std::string written;
  if (!v.pictures.empty()) {
    const auto file = writePanelPictures(rack, part, *panel, v.common.rack, v.pictures, control);
    if (!file) return inputAtFault(file.error());
    written = file->string();
    j["picture"] = written;
  }
  if (v.common.json) {
    printJson(j);
    return kDone;
  }
  for (const std::string& line : panelLines(rack, part, *panel, v.common.style(rack.shop.show)))
    say(line);
  if (!written.empty()) say("Pictures: " + written);
  return kDone;
}

int run(RankVerb& v) {
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  const auto part = partNamed(*rack, v.part);
  if (!part) return inputAtFault(part.error());
  const auto boards = boardsOf(*rack, v.boards);
  if (!boards) return inputAtFault(boards.error());
  const Wish wish = v.wish.empty() ? wishOf(**part) : *wishFromName(v.wish);
  RunControl control;
  const FigureSource figures = figuresIn(v.common.rack);
  if (v.panel) return runPanel(v, *rack, **part, *boards, wish, figures);
  auto ranking = rankBoards(*boards, **part, rack->shop, wish, figures, control);
  if (!ranking) return inputAtFault(ranking.error());
  if (v.most > 0 && ranking.value().places.size() > v.most) ranking.value().places.resize(v.most);
  std::vector<std::filesystem::path> files;
  if (!v.pictures.empty() && !ranking->places.empty()) {
    auto written = writeRankPictures(*rack, **part, *ranking, v.common.rack, v.pictures, control);
    if (!written) return inputAtFault(written.error());
    files = *written;
  }
  if (v.common.json) {
    nlohmann::json j = rankJson(*rack, **part, *ranking);
    for (size_t i = 0; i + 1 < files.size(); ++i) j["ranked"][i]["picture"] = files[i].string();
    if (!files.empty()) j["side_by_side"] = files.back().string();
    printJson(j);
    return kDone;
  }
  for (const std::string& line :
       rankLines(*rack, **part, *ranking, v.common.style(rack->shop.show)))
    say(line);
  if (!files.empty()) say("Pictures: " + files.back().string());
  return kDone;
}

}  // namespace

VerbRun setUpRank(CLI::App& app) {
  auto v = std::make_shared<RankVerb>();
  app.add_option("PART", v->part, "Name of the part")->required();
  addRack(app, v->common);
  app.add_option("--wish", v->wish, "What it should look like; else as the parts list says")
      ->check(CLI::IsMember(wishNames()));
  app.add_flag("--panel", v->panel,
               "Preview the part as a panel glued up from strips, the best orders first");
  app.add_option("--board", v->boards, "Only these boards");
  app.add_option("--most", v->most, "Show no more than the best so many");
  app.add_option("--pictures", v->pictures,
                 "Folder for pictures of the finished part out of each board");
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
