// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_board.h"

#include <memory>
#include <set>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/decimal_option.h"
#include "app/command/option_parser.h"
#include "app/command/rack_edit.h"
#include "core/base/name_table.h"
#include "core/document/edits.h"
#include "core/storage/atomic_file.h"
#include "core/trade/rack_totals.h"
#include "core/trade/tally.h"
#include "core/wood/taped_board.h"

namespace rackside::command {
namespace {

namespace fs = std::filesystem;

struct BoardVerb {
  CommonOptions common;
  std::string name, length, thickness, species, place, from, state, note, dried;
  std::vector<std::string> widths;
  double price = 0;
  bool airDried = false;
  CLI::App* add = nullptr;
  CLI::App* list = nullptr;
  CLI::App* remove = nullptr;
  CLI::App* dry = nullptr;
};

Result<TapedBoard> tapedBoard(const BoardVerb& v) {
  if (v.length.empty() || v.widths.empty())
    return Error{"A board by tape wants its --length and its --width."};
  TapedBoard t;
  t.name = v.name;
  t.species = v.species;
  t.place = v.place;
  t.lengthMm = lengthMm(v.length, v.common);
  for (const std::string& width : v.widths) t.widthsMm.push_back(lengthMm(width, v.common));
  if (!v.thickness.empty()) {
    const SaidThickness said = thickness(v.thickness, v.common);
    t.thicknessMm = said.mm;
    t.thicknessSaid = said.said;
  }
  t.pricePerBoardFoot = v.price;
  t.airDried = v.airDried;
  return t;
}

// A line of a list stands for so many boards: "12", or "12-1", "12-2" …
Result<std::vector<TapedBoard>> listedBoards(const BoardVerb& v) {
  const auto text = readFile(v.from);
  if (!text) return text.error();
  const auto lines = tallyFromCsv(*text, v.common.bareUnit());
  if (!lines) return Error{v.from + ": " + lines.error().message};
  std::vector<TapedBoard> boards;
  for (size_t i = 0; i < lines->size(); ++i) {
    const TallyLine& line = (*lines)[i];
    const std::string name = line.name.empty() ? std::to_string(i + 1) : line.name;
    for (int piece = 1; piece <= line.pieces; ++piece)
      boards.push_back({line.pieces > 1 ? name + "-" + std::to_string(piece) : name,
                        line.species.empty() ? v.species : line.species,
                        v.place,
                        line.lengthMm,
                        {line.widthMm},
                        line.thicknessMm,
                        line.thicknessSaid,
                        line.pricePerBoardFoot,
                        v.airDried});
  }
  return boards;
}

int runAdd(const BoardVerb& v, OpenedRack& open) {
  std::vector<TapedBoard> taped;
  if (v.from.empty()) {
    if (v.name.empty()) return usageAtFault("board add wants a NAME, or a list (--from).");
    const auto one = tapedBoard(v);
    if (!one) return usageAtFault(one.error().message);
    taped.push_back(*one);
  } else {
    const auto all = listedBoards(v);
    if (!all) return inputAtFault(all.error());
    taped = *all;
  }
  std::vector<std::unique_ptr<Edit>> edits;
  std::set<std::string> names;
  auto added = nlohmann::json::array();
  for (const TapedBoard& t : taped) {
    if (open.rack.findBoardNamed(t.name) || !names.insert(t.name).second)
      return inputAtFault({"A board called \"" + t.name +
                           "\" is on the rack already: give this one another name."});
    const auto board = boardByTape(t);
    if (!board) return inputAtFault(board.error());
    added.push_back({{"board", board->name}, {"id", board->id.text}});
    edits.push_back(addBoard(*board));
  }
  const Status done =
      performAndStore(open, together("Add boards", std::move(edits)), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json)
    printJson({{"added", added}});
  else
    say("Added " + std::to_string(taped.size()) + (taped.size() == 1 ? " board." : " boards."));
  std::set<std::string> told;
  for (const TapedBoard& t : taped)
    if (const std::string note = unknownWoodNote(t.species, open.rack.shop.ownSpecies);
        !note.empty() && told.insert(note).second)
      message(note);
  return kDone;
}

int runList(const BoardVerb& v, const Rack& rack) {
  const LengthStyle style = v.common.style(rack.shop.show);
  auto boards = nlohmann::json::array();
  for (const Board& b : rack.boards) {
    const double width = tallyWidthMm(b.outline);
    boards.push_back({{"board", b.name},
                      {"species", b.species},
                      {"place", b.place},
                      {"length_mm", rounded(b.lengthMm.value)},
                      {"width_mm", rounded(width)},
                      {"thickness_mm", rounded(b.thicknessMm)},
                      {"thickness_said", b.thicknessSaid},
                      {"state", b.cutUp ? "cut-up" : name(b.state)},
                      {"state_note", b.stateNote},
                      {"photographed", !b.pictures.empty()}});
    if (v.common.json) continue;
    std::string line = b.name + "  " + (b.species.empty() ? "?" : b.species) + "  " +
                       formatLength(b.lengthMm.value, style, false) + " × " +
                       formatLength(width, style, false) + " × " +
                       (b.thicknessMm > 0 ? thicknessText(b.thicknessMm, b.thicknessSaid, style)
                                          : std::string("?"));
    if (!b.place.empty()) line += "  " + b.place;
    if (b.pictures.empty()) line += "  by tape";
    if (b.cutUp) line += "  cut up";
    if (const std::string words = stateWords(b); !words.empty()) line += "  " + words;
    say(line);
  }
  if (v.common.json)
    printJson({{"boards", boards}});
  else if (rack.boards.empty())
    say("The rack holds no board.");
  return kDone;
}

int runRemove(const BoardVerb& v, OpenedRack& open) {
  const auto board = findBoard(open.rack, v.name);
  if (!board) return inputAtFault(board.error());
  const std::string name = (*board)->name;
  const Status done = performAndStore(open, removeBoard((*board)->id), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json)
    printJson({{"removed", name}});
  else
    say("Removed board " + name + "; its folder is kept in the rack's folder \"removed\".");
  return kDone;
}

int runState(const BoardVerb& v, OpenedRack& open) {
  const auto board = findBoard(open.rack, v.name);
  if (!board) return inputAtFault(board.error());
  Board changed = **board;
  changed.state = *boardStateFromName(v.state);
  changed.stateNote = changed.state == BoardState::onRack ? std::string() : v.note;
  const std::string words =
      changed.state == BoardState::onRack ? std::string("on the rack") : stateWords(changed);
  const Status done = performAndStore(open, changeBoard(changed), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json)
    printJson({{"board", changed.name}, {"state", v.state}, {"note", changed.stateNote}});
  else
    say("Board " + changed.name + " is " + words + ".");
  return kDone;
}

int runDried(const BoardVerb& v, OpenedRack& open) {
  const auto board = findBoard(open.rack, v.name);
  if (!board) return inputAtFault(board.error());
  Board changed = **board;
  changed.airDried = v.dried == "air";
  const Status done = performAndStore(open, changeBoard(changed), v.common.rack);
  if (!done) return inputAtFault(done.error());
  if (v.common.json)
    printJson({{"board", changed.name}, {"air_dried", changed.airDried}});
  else
    say("Board " + changed.name + " is " + v.dried + "-dried: it is graded and tallied " +
        (changed.airDried ? "at its full size." : "with the allowances of kiln-dried lumber."));
  return kDone;
}

int run(const BoardVerb& v) {
  if (v.list->parsed()) {
    const auto rack = openToRead(v.common, Needs::boards);
    return rack ? runList(v, rack->rack) : inputAtFault(rack.error());
  }
  auto open =
      v.add->parsed() ? openOrMake(v.common, Needs::boards) : openToChange(v.common, Needs::boards);
  if (!open) return inputAtFault(open.error());
  if (v.add->parsed()) return runAdd(v, open.value());
  if (v.dry->parsed()) return runDried(v, open.value());
  return v.remove->parsed() ? runRemove(v, open.value()) : runState(v, open.value());
}

void addTape(CLI::App& app, BoardVerb& v) {
  app.add_option("NAME", v.name, "What the board is to be called");
  app.add_option("--length", v.length, "Length")->check(lengthText());
  app.add_option("--width", v.widths,
                 "Width; several are those at even distances from the left end to the right one")
      ->check(lengthText());
  app.add_option("--thickness", v.thickness, "Rough thickness: a length, or 4/4, 8/4 …")
      ->check(thicknessText());
  app.add_option("--species", v.species, "Species, such as cherry");
  app.add_option("--place", v.place, "Where it stands");
  app.add_option("--price", v.price, "Price of a board foot")
      ->transform(decimalNumber())
      ->check(CLI::Range(0.0, 1e6));
  app.add_flag("--air-dried", v.airDried,
               "Never kiln-dried: no allowance for the kiln's shrinkage in grade and tally");
  app.add_option("--from", v.from,
                 "Add all boards of a CSV list: name, species, pieces (qty), length, width, "
                 "thickness, price");
}

}  // namespace

VerbRun setUpBoard(CLI::App& app) {
  auto v = std::make_shared<BoardVerb>();
  app.require_subcommand(1);
  v->add = app.add_subcommand("add", "Enter a board by tape, without a photograph");
  addTape(*v->add, *v);
  v->list = app.add_subcommand("list", "List the boards");
  v->remove = app.add_subcommand("remove", "Take a board off the rack; its folder is kept");
  CLI::App* state = app.add_subcommand("state", "Say that a board is sold, set aside or reserved");
  v->dry = app.add_subcommand("dried", "Say how a board was dried");
  for (CLI::App* sub : {v->remove, state, v->dry})
    sub->add_option("BOARD", v->name, "Name or tag of the board")->required();
  state->add_option("STATE", v->state, "on-rack, set-aside, sold or reserved")
      ->required()
      ->check(CLI::IsMember({"on-rack", "set-aside", "sold", "reserved"}));
  state->add_option("--note", v->note, "The reason, the buyer or the project");
  v->dry->add_option("HOW", v->dried, "air or kiln")
      ->required()
      ->check(CLI::IsMember({"air", "kiln"}));
  for (CLI::App* sub : {v->add, v->list, v->remove, state, v->dry}) {
    addRack(*sub, v->common);
    addUnits(*sub, v->common);
    addJson(*sub, v->common);
  }
  return [v] { return run(*v); };
}

}  // namespace rackside::command
