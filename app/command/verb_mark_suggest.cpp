// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_mark_suggest.h"

#include <algorithm>
#include <atomic>
#include <future>
#include <memory>
#include <mutex>
#include <thread>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/decimal_option.h"
#include "app/command/interrupt.h"
#include "app/command/mark_line.h"
#include "app/command/option_parser.h"
#include "app/command/rack_edit.h"
#include "core/document/edits.h"
#include "core/geometry/polygon.h"
#include "core/storage/json_forms.h"
#include "vision/wood/suggest_board.h"

namespace rackside::command {
namespace {

struct SuggestVerb {
  CommonOptions common;
  std::vector<std::string> boards;  // none: all
  std::string crayon, accept, refuse, model;
  bool crayonOnly = false;
  double above = 0;
};

Result<std::vector<BoardId>> boardsOf(const SuggestVerb& v, const Rack& rack) {
  std::vector<BoardId> ids;
  for (const std::string& wanted : v.boards) {
    auto board = findBoard(rack, wanted);
    if (!board) return board.error();
    ids.push_back((*board)->id);
  }
  if (v.boards.empty())
    for (const Board& b : rack.boards) ids.push_back(b.id);
  return ids;
}

// Length and width of what shows, the larger of both faces.
nlohmann::json sizeJson(const Mark& m) {
  double along = 0, across = 0;
  for (const Face f : {Face::A, Face::B}) {
    if (!m.on(f)) continue;
    for (const Polygon& p : polygonsOf(*m.on(f))) {
      const Rect box = bounds(p);
      along = std::max(along, box.width());
      across = std::max(across, box.height());
    }
  }
  return {rounded(along, 1), rounded(across, 1)};
}

nlohmann::json suggestionsJson(const Board& board) {
  auto list = nlohmann::json::array();
  for (const Mark& m : board.marks) {
    if (m.confirmed) continue;
    nlohmann::json j = toJson(m);
    j["size_mm"] = sizeJson(m);
    list.push_back(std::move(j));
  }
  return list;
}

void sayBoard(const SuggestVerb& v, const Rack& rack, const Board& board) {
  size_t count = 0;
  for (const Mark& m : board.marks) {
    if (m.confirmed) continue;
    if (++count == 1) say("Board " + board.name + ":");
    say("  " + markLine(m, v.common.style(rack.shop.show)));
  }
  if (count == 0) say("Board " + board.name + ": nothing to suggest.");
}

SuggestOptions optionsOf(const SuggestVerb& v) {
  SuggestOptions options;
  options.wood = !v.crayonOnly;
  options.model = v.model;
  if (!v.crayon.empty()) options.crayon = crayonColourFromName(v.crayon);
  return options;
}

// Looks at the boards, as many at once as there are cores; Ctrl+C ends it.
std::vector<Result<BoardSuggestions>> lookAtAll(const SuggestVerb& v, const Rack& rack,
                                                const std::vector<BoardId>& ids) {
  std::vector<Result<BoardSuggestions>> found(ids.size(), Error{});
  std::atomic<size_t> next{0};
  RunControl run, shown;
  const StopOnInterrupt interrupt(run);
  showProgress(shown, "Looking for marks");
  std::mutex telling;
  size_t done = 0;
  const auto work = [&] {
    for (size_t i = next++; i < ids.size(); i = next++) {
      const Board& board = *rack.findBoard(ids[i]);
      found[i] = suggestForBoard(board, boardFolder(v.common.rack, ids[i]), optionsOf(v), run);
      const std::lock_guard lock(telling);
      shown.report(double(++done) / double(ids.size()), "board " + board.name);
    }
  };
  std::vector<std::future<void>> workers;
  const size_t cores = std::max(1U, std::thread::hardware_concurrency());
  for (size_t i = 0; i < std::min(cores, ids.size()); ++i)
    workers.push_back(std::async(std::launch::async, work));
  for (auto& w : workers) w.get();
  return found;
}

// Of the boards wanted, those that there is a picture of; a board named by the maker is looked at
// in any case, so that its want of one is told.
std::vector<BoardId> withPictures(const SuggestVerb& v, const Rack& rack,
                                  const std::vector<BoardId>& wanted) {
  std::vector<BoardId> ids;
  for (const BoardId& id : wanted) {
    const Board& board = *rack.findBoard(id);
    if (v.boards.empty() && board.pictures.empty()) {
      message("Board " + board.name + " has no picture; it was passed over.");
    } else {
      ids.push_back(id);
    }
  }
  return ids;
}

// Looking takes long, so that the rack is held only while what was found is laid on it.
int runLook(const SuggestVerb& v) {
  const auto seenRack = openToRead(v.common, Needs::boards);
  if (!seenRack) return inputAtFault(seenRack.error());
  const Rack& rack = seenRack->rack;
  const auto ids = boardsOf(v, rack);
  if (!ids) return inputAtFault(ids.error());
  const std::vector<BoardId> seen = withPictures(v, rack, *ids);
  auto found = lookAtAll(v, rack, seen);
  std::vector<std::unique_ptr<Edit>> edits;
  for (size_t i = 0; i < seen.size(); ++i) {
    if (!found[i]) return inputAtFault(found[i].error());
    for (const std::string& remark : found[i]->remarks) message(remark);
    edits.push_back(editOf(*rack.findBoard(seen[i]), optionsOf(v), std::move(found[i]).value()));
  }
  auto open = openToChange(v.common, Needs::boards);
  if (!open) return inputAtFault(open.error());
  const Status stored =
      performAndStore(open.value(), together("Suggest marks", std::move(edits)), v.common.rack);
  if (!stored) return inputAtFault(stored.error());
  const Rack& now = open->rack;
  if (v.common.json) {
    auto boards = nlohmann::json::array();
    for (const BoardId& id : seen)
      boards.push_back({{"board", now.findBoard(id)->name},
                        {"suggestions", suggestionsJson(*now.findBoard(id))}});
    printJson({{"boards", boards}});
    return kDone;
  }
  for (const BoardId& id : *ids)
    if (const Board* board = now.findBoard(id)) sayBoard(v, now, *board);
  say("Nothing counts before it is taken: mark suggest --accept ID, or --accept all --above 0.8.");
  return kDone;
}

// The suggestions of a board that `which` names: an id, or "all" of those above the bar.
std::vector<MarkId> named(const Board& board, const std::string& which, double above) {
  std::vector<MarkId> ids;
  for (const Mark& m : board.marks)
    if (!m.confirmed && m.confidence >= above && (which == "all" || m.id.text == which))
      ids.push_back(m.id);
  return ids;
}

int runSettle(const SuggestVerb& v) {
  auto open = openToChange(v.common, Needs::boards);
  if (!open) return inputAtFault(open.error());
  const auto ids = boardsOf(v, open->rack);
  if (!ids) return inputAtFault(ids.error());
  const bool accept = !v.accept.empty();
  const std::string& which = accept ? v.accept : v.refuse;
  auto settled = nlohmann::json::array();
  std::vector<std::unique_ptr<Edit>> edits;
  for (const BoardId& id : *ids) {
    const auto marks = named(*open.value().rack.findBoard(id), which, v.above);
    if (marks.empty()) continue;
    edits.push_back(accept ? acceptMarks(id, marks) : refuseMarks(id, marks));
    for (const MarkId& m : marks) settled.push_back(m.text);
  }
  if (settled.empty() && which != "all")
    return inputAtFault({"There is no suggestion " + which + ": see rackside mark list."});
  const Status stored = performAndStore(
      open.value(), together("Settle suggestions", std::move(edits)), v.common.rack);
  if (!stored) return inputAtFault(stored.error());
  if (v.common.json) {
    printJson({{accept ? "accepted" : "refused", settled}});
  } else {
    say(std::to_string(settled.size()) +
        (accept ? " accepted." : " refused: not suggested again."));
  }
  return kDone;
}

int run(const SuggestVerb& v) {
  if (v.crayonOnly && v.crayon.empty())
    return usageAtFault("--crayon-only wants --crayon with a colour.");
  return v.accept.empty() && v.refuse.empty() ? runLook(v) : runSettle(v);
}

}  // namespace

VerbRun setUpMarkSuggest(CLI::App& app) {
  auto v = std::make_shared<SuggestVerb>();
  app.add_option("BOARD", v->boards, "Names or tags of boards; none: all of the rack");
  auto* crayon = app.add_option("--crayon", v->crayon, "Read crayon strokes of this colour too")
                     ->check(CLI::IsMember({"white", "yellow", "red", "blue"}));
  auto* only = app.add_flag("--crayon-only", v->crayonOnly, "Read crayon strokes and nothing else");
  auto* accept =
      app.add_option("--accept", v->accept, "Take a suggestion by its id, or all; does not look");
  auto* refuse =
      app.add_option("--refuse", v->refuse, "Refuse one by its id, or all: it does not come back");
  accept->excludes(refuse)->excludes(crayon)->excludes(only);
  refuse->excludes(crayon)->excludes(only);
  app.add_option("--model", v->model, "Propose by this model, a shop's own, not the built-in one");
  app.add_option("--above", v->above, "With all: only those at least so sure, 0 to 1")
      ->transform(decimalNumber())
      ->check(CLI::Range(0.0, 1.0));
  addRack(app, v->common);
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
