// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_fill.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/plan_holds.h"
#include "app/sheets/board_work.h"
#include "core/trade/fill_words.h"
#include "core/trade/safety_words.h"

namespace rackside::command {
namespace {

struct FillVerb {
  CommonOptions common;
};

struct Job {
  const Rack& rack;
  const FillHabits& habits;
  LengthStyle style;
  std::map<PieceId, std::string> codes;  // as on the boards' sheets

  std::string partName(const PartId& id) const {
    const Part* part = rack.findPart(id);
    return part ? part->name : id.text;
  }
  std::string boardName(const BoardId& id) const {
    const Board* board = rack.findBoard(id);
    return board ? board->name : id.text;
  }
};

std::map<PieceId, std::string> pieceCodes(const Rack& rack, const LengthStyle& style) {
  std::map<PieceId, std::string> codes;
  for (const Board& board : rack.boards)
    for (const auto& line : sheets::boardWork(rack, board, style).pieces)
      codes[line.piece->id] = line.code;
  return codes;
}

nlohmann::json spotJson(const Job& job, const FillSpot& s) {
  nlohmann::json j{{"mark", s.mark.text},
                   {"kind", name(s.kind)},
                   {"board", job.boardName(s.board)},
                   {"piece", job.codes.at(s.piece)},
                   {"part", job.partName(s.part)},
                   {"copy", s.copy},
                   {"face", name(s.face)},
                   {"area_mm2", rounded(area(s.area), 1)},
                   {"take_off_mm", rounded(s.takeOffHereMm)},
                   {"depth_unknown", s.depthUnknown},
                   {"needs_dam", s.needsDam},
                   {"dug_out", s.dugOut},
                   {"filler", nullptr}};
  if (s.depthUnknown) return j;
  j["depth_mm"] = rounded(s.depthMm);
  j["width_mm"] = rounded(s.widthMm, 2);
  j["drop"] = s.drop;
  j["volume_ml"] = {{"value", rounded(s.volumeMl.value)}, {"u95", rounded(s.volumeMl.u95)}};
  if (s.filler) {
    j["filler"] = job.habits.fillers[*s.filler].name;
    j["pours"] = s.pours;
  }
  return j;
}

nlohmann::json fillJson(const Job& job, const FillList& list) {
  auto spots = nlohmann::json::array(), parts = nlohmann::json::array(),
       fillers = nlohmann::json::array();
  for (const FillSpot& s : list.spots) spots.push_back(spotJson(job, s));
  for (const auto& [id, p] : fillByPart(list))
    parts.push_back({{"part", job.partName(id)},
                     {"spots", p.spots},
                     {"volume_ml", rounded(p.volumeMl.value)},
                     {"u95_ml", rounded(p.volumeMl.u95)},
                     {"depth_unknown", p.depthUnknown}});
  for (const FillerNeed& n : list.needs)
    fillers.push_back({{"name", job.habits.fillers[n.filler].name},
                       {"in_holes_ml", rounded(n.volumeMl)},
                       {"mix_ml", rounded(n.mixedMl)},
                       {"mass_g", rounded(n.massG)},
                       {"pours", n.pours},
                       {"cups", n.cups},
                       {"turned_between", n.turned},
                       {"hours_before_next_step", rounded(n.hours)}});
  return {{"spots", spots},
          {"parts", parts},
          {"fillers", fillers},
          {"drops", list.drops},
          {"caution", fillCaution() + " " + finishCaution()}};
}

std::string spotLine(const Job& job, const FillSpot& s) {
  std::string line = "board " + job.boardName(s.board) + ", piece " + job.codes.at(s.piece) + " (" +
                     job.partName(s.part) + " " + std::to_string(s.copy) + "), face " +
                     std::string(name(s.face)) + ": " + std::string(name(s.kind));
  if (!s.depthUnknown)
    line += ", " + formatLength(s.depthMm, job.style) + " deep once milled, " +
            fixed(s.volumeMl.value, 2) + " ± " + fixed(s.volumeMl.u95, 2) + " ml, " +
            fillerWord(s, job.habits);
  const std::string remark = fillRemark(s);
  return remark.empty() ? line : line + " (" + remark + ")";
}

void sayAll(const Job& job, const FillList& list) {
  for (const FillSpot& s : list.spots) say(spotLine(job, s));
  for (const auto& [id, p] : fillByPart(list))
    say("part " + job.partName(id) + ": " + std::to_string(p.spots) + " to fill, " +
        fixed(p.volumeMl.value, 2) + " ± " + fixed(p.volumeMl.u95, 2) + " ml" +
        (p.depthUnknown ? ", and what was not measured" : ""));
  for (const FillerNeed& n : list.needs)
    say("in all " + job.habits.fillers[n.filler].name + ": " + fixed(n.volumeMl, 1) +
        " ml in the holes, mix " + fixed(n.mixedMl, 1) + " ml (" + fixed(n.massG, 0) + " g) in " +
        std::to_string(n.pours) + (n.pours == 1 ? " pour, " : " pours, ") + std::to_string(n.cups) +
        (n.cups == 1 ? " cup, " : " cups, ") +
        (n.turned ? "the work turned between the faces, " : "") + fixed(n.hours, 0) +
        " h before the next step");
  if (list.drops > 0)
    say(std::to_string(list.drops) + (list.drops == 1 ? " hole wants" : " holes want") +
        " a drop of thin glue, no batch");
  if (list.spots.empty()) say("Nothing to fill: no hole reaches the parts once they are milled.");
  message(fillCaution());
  message(finishCaution());
}

int run(const FillVerb& v) {
  const auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  if (!rack->plan)
    return inputAtFault(
        {"What has to be filled depends on where the parts lie: plan first (rackside plan)."});
  if (const Status holds = planHolds(*rack); !holds) message("warning: " + holds.error().message);
  const auto habits = fillHabits(rack->shop);
  if (!habits) return inputAtFault(habits.error());
  const LengthStyle style = v.common.style(rack->shop.show);
  const Job job{*rack, *habits, style, pieceCodes(*rack, style)};
  const FillList list = fillList(*rack, *rack->plan, *habits);
  if (v.common.json) {
    printJson(fillJson(job, list));
  } else {
    sayAll(job, list);
  }
  return kDone;
}

}  // namespace

VerbRun setUpFill(CLI::App& app) {
  auto v = std::make_shared<FillVerb>();
  addRack(app, v->common);
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
