// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_mark.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/mark_file.h"
#include "app/command/mark_line.h"
#include "app/command/mark_options.h"
#include "app/command/option_parser.h"
#include "app/command/rack_edit.h"
#include "app/command/verb_mark_suggest.h"
#include "core/document/edits.h"
#include "core/storage/json_forms.h"
#include "core/wood/mark_place.h"
#include "vision/wood/propose/mark_crops.h"

namespace rackside::command {
namespace {

struct MarkVerb {
  CommonOptions common;
  std::string board, markId, file;
  MarkOptions mark;
  CLI::App* add = nullptr;
  CLI::App* list = nullptr;
  CLI::App* remove = nullptr;
  CLI::App* load = nullptr;
  CLI::App* suggest = nullptr;
  CLI::App* exported = nullptr;
  std::string crops;
  VerbRun runSuggest;
};

int runAdd(const MarkVerb& v, OpenedRack& open) {
  const Rack& rack = open.rack;
  auto board = findBoard(rack, v.board);
  if (!board) return inputAtFault(board.error());
  auto mark = markFrom(v.mark, v.common);
  if (!mark) return inputAtFault(mark.error());
  if (const Status on = liesOn(**board, *mark); !on) return inputAtFault(on.error());
  const Status done = performAndStore(open, addMark((*board)->id, *mark), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json) {
    printJson({{"board", v.board}, {"mark", toJson(*mark)}});
  } else {
    say("Added " + v.mark.kind + " " + mark->id.text + ".");
  }
  return kDone;
}

int runRemove(const MarkVerb& v, OpenedRack& open) {
  const Rack& rack = open.rack;
  auto board = findBoard(rack, v.board);
  if (!board) return inputAtFault(board.error());
  if (!(*board)->findMark(MarkId{v.markId}))
    return inputAtFault(
        {"Board " + (*board)->name + " has no mark " + v.markId + ": see rackside mark list."});
  const Status done =
      performAndStore(open, removeMark((*board)->id, MarkId{v.markId}), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json) {
    printJson({{"board", v.board}, {"removed", v.markId}});
  } else {
    say("Removed " + v.markId + ".");
  }
  return kDone;
}

int runList(const MarkVerb& v, const Rack& rack) {
  auto board = findBoard(rack, v.board);
  if (!board) return inputAtFault(board.error());
  auto marks = nlohmann::json::array();
  for (const Mark& m : (*board)->marks) marks.push_back(toJson(m));
  if (v.common.json) {
    printJson({{"board", (*board)->name}, {"marks", marks}});
    return kDone;
  }
  for (const Mark& m : (*board)->marks) say(markLine(m, v.common.style(rack.shop.show)));
  if ((*board)->marks.empty()) say("Board " + (*board)->name + " has no marks.");
  return kDone;
}

int runLoad(const MarkVerb& v, OpenedRack& open) {
  auto edit = marksFromFile(v.file, open.rack);
  if (!edit) return inputAtFault(edit.error());
  const size_t count = edit->marks;
  const Status done = performAndStore(open, std::move(edit.value().edit), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json) {
    printJson({{"loaded", count}});
  } else {
    say(std::to_string(count) + " marks loaded.");
  }
  return kDone;
}

// What was accepted, refused and drawn, as pictures to learn from.
int runExport(const MarkVerb& v, const Rack& rack) {
  int count = 0;
  for (const Board& board : rack.boards) {
    auto written = writeMarkCrops(board, boardFolder(v.common.rack, board.id), v.crops);
    if (!written) return inputAtFault(written.error());
    count += written.value();
  }
  if (v.common.json) {
    printJson({{"crops", count}, {"folder", v.crops}});
  } else {
    say(std::to_string(count) + " crops written in " + v.crops + ".");
  }
  return kDone;
}

int run(const MarkVerb& v) {
  if (v.suggest->parsed()) return v.runSuggest();
  if (v.list->parsed()) {
    const auto open = openToRead(v.common, Needs::boards);
    return open ? runList(v, open->rack) : inputAtFault(open.error());
  }
  if (v.exported->parsed()) {
    const auto open = openToRead(v.common, Needs::boards);
    return open ? runExport(v, open->rack) : inputAtFault(open.error());
  }
  auto open = openToChange(v.common, Needs::boards);
  if (!open) return inputAtFault(open.error());
  if (v.add->parsed()) return runAdd(v, open.value());
  return v.remove->parsed() ? runRemove(v, open.value()) : runLoad(v, open.value());
}

void addCommon(CLI::App& app, MarkVerb& v) {
  addRack(app, v.common);
  addUnits(app, v.common);
  addJson(app, v.common);
}

}  // namespace

VerbRun setUpMark(CLI::App& app) {
  auto v = std::make_shared<MarkVerb>();
  app.require_subcommand(1);
  v->add = app.add_subcommand("add",
                              "Add a mark, in board lengths: x from the left end, y from "
                              "the near edge");
  v->add->add_option("BOARD", v->board, "Name or tag of the board")->required();
  addMarkOptions(*v->add, v->mark);
  v->list = app.add_subcommand("list", "List the marks of a board");
  v->list->add_option("BOARD", v->board, "Name or tag of the board")->required();
  v->remove = app.add_subcommand("remove", "Remove a mark");
  v->remove->add_option("BOARD", v->board, "Name or tag of the board")->required();
  v->remove->add_option("MARK", v->markId, "Id of the mark, as listed")->required();
  v->suggest =
      app.add_subcommand("suggest", "Look at the pictures and suggest marks; take or refuse them");
  v->runSuggest = setUpMarkSuggest(*v->suggest);
  v->load = app.add_subcommand("load", "Load marks of many boards from a file");
  v->load->add_option("FILE", v->file, "JSON file of marks")->required();
  v->exported = app.add_subcommand(
      "export", "Write what was accepted, refused and drawn as pictures to learn from");
  v->exported->add_option("--crops", v->crops, "Folder for them")->required();
  for (CLI::App* sub : {v->add, v->list, v->remove, v->load, v->exported}) addCommon(*sub, *v);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
