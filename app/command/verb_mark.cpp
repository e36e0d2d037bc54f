// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_mark.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/mark_file.h"
#include "app/command/mark_line.h"
#include "app/command/mark_shape.h"
#include "app/command/option_parser.h"
#include "app/command/verb_mark_suggest.h"
#include "core/document/edits.h"
#include "core/storage/json_forms.h"

namespace rackside::command {
namespace {

struct MarkVerb {
  CommonOptions common;
  std::string board, markId, file;
  std::string kind, face = "A", depth, depthFrom, soundness = "unknown", note;
  bool through = false, live = false;
  ShapeText shape{{}, {}, {}, "1mm"};
  CLI::App* add = nullptr;
  CLI::App* list = nullptr;
  CLI::App* remove = nullptr;
  CLI::App* load = nullptr;
  CLI::App* suggest = nullptr;
  VerbRun runSuggest;
};

struct OpenRack {
  Rack rack;
  RackSnapshot snapshot;
};

// Does the edits as one step and stores the boards it touched; nothing is stored when one fails.
Status performAndStore(OpenRack& open, std::unique_ptr<Edit> edit, const std::string& folder) {
  History history;
  auto events = history.perform(open.rack, std::move(edit));
  if (!events) return events.error();
  return saveRack(open.rack, folder, &open.snapshot);
}

Result<Mark> markFrom(const MarkVerb& v) {
  auto shape = shapeFrom(v.shape, v.common.bareUnit());
  if (!shape) return shape.error();
  Mark mark;
  mark.id = MarkId{newIdText("mk")};
  mark.kind = *markKindFromName(v.kind);
  if (v.face != "B") mark.onA = *shape;
  if (v.face != "A") mark.onB = *shape;
  mark.through = v.through;
  if (!v.depth.empty()) mark.depthMm = lengthMm(v.depth, v.common);
  mark.depthFrom =
      v.depthFrom.empty() ? (v.face == "B" ? Face::B : Face::A) : *faceFromName(v.depthFrom);
  mark.soundness = v.soundness == "sound"   ? Soundness::sound
                   : v.soundness == "loose" ? Soundness::loose
                                            : Soundness::unknown;
  mark.live = v.live;
  mark.note = v.note;
  if (const Status s = validate(mark); !s) return s.error();
  return mark;
}

int runAdd(const MarkVerb& v, OpenRack& open) {
  const Rack& rack = open.rack;
  auto board = findBoard(rack, v.board);
  if (!board) return inputAtFault(board.error());
  auto mark = markFrom(v);
  if (!mark) return inputAtFault(mark.error());
  const Status done = performAndStore(open, addMark((*board)->id, *mark), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json) {
    printJson({{"board", v.board}, {"mark", toJson(*mark)}});
  } else {
    say("Added " + v.kind + " " + mark->id.text + ".");
  }
  return kDone;
}

int runRemove(const MarkVerb& v, OpenRack& open) {
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

int runLoad(const MarkVerb& v, OpenRack& open) {
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

int run(const MarkVerb& v) {
  if (v.suggest->parsed()) return v.runSuggest();
  OpenRack open;
  auto rack = openRack(v.common, &open.snapshot);
  if (!rack) return inputAtFault(rack.error());
  open.rack = std::move(rack).value();
  if (v.add->parsed()) return runAdd(v, open);
  if (v.remove->parsed()) return runRemove(v, open);
  if (v.load->parsed()) return runLoad(v, open);
  return runList(v, open.rack);
}

void setUpAdd(CLI::App& app, MarkVerb& v) {
  std::vector<std::string> kinds;
  for (const MarkKind k : allMarkKinds()) kinds.emplace_back(name(k));
  app.add_option("BOARD", v.board, "Name or tag of the board")->required();
  app.add_option("--kind", v.kind, "Kind of mark")->required()->check(CLI::IsMember(kinds));
  app.add_option("--face", v.face, "Face it shows on")->check(CLI::IsMember({"A", "B", "both"}));
  app.add_option("--ellipse", v.shape.ellipse,
                 "x y of its middle, size along and across, and perhaps degrees")
      ->expected(4, 5);
  app.add_option("--polygon", v.shape.polygon, "x y of each corner")->expected(6, 4000);
  app.add_option("--line", v.shape.line, "x y of each point along it")->expected(4, 4000);
  app.add_option("--line-width", v.shape.lineWidth, "Width of the line")->check(lengthText());
  app.add_option("--depth", v.depth, "How deep it goes")->check(lengthText());
  app.add_option("--depth-from", v.depthFrom, "Face the depth is measured from")
      ->check(CLI::IsMember({"A", "B"}));
  app.add_flag("--through", v.through, "Goes right through the board");
  app.add_option("--soundness", v.soundness, "Of a knot; of worm holes sound means old")
      ->check(CLI::IsMember({"unknown", "sound", "loose"}));
  app.add_flag("--live", v.live, "Worm holes with living insects: sets the board apart");
  app.add_option("--note", v.note, "A note");
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
  setUpAdd(*v->add, *v);
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
  for (CLI::App* sub : {v->add, v->list, v->remove, v->load}) addCommon(*sub, *v);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
