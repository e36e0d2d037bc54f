// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/suggest_session.h"

#include <algorithm>

#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "core/storage/rack_folder.h"
#include "core/wood/looked_over.h"

namespace rackside {

namespace {

// A fault while looking ends the look, not the program with the maker's work in it.
Result<BoardSuggestions> lookOrFail(const Board& board, const std::filesystem::path& folder,
                                    const SuggestOptions& options, RunControl& control) {
  try {
    return suggestForBoard(board, folder, options, control);
  } catch (const std::exception& fault) {
    return Error{std::string("Looking for marks could not go on (") + fault.what() +
                 "). Nothing was changed; please report this."};
  }
}

}  // namespace

SuggestSession::SuggestSession(Document& document, QObject* parent)
    : QObject(parent), document_(document) {
  pool_.setMaxThreadCount(1);
}

SuggestSession::~SuggestSession() {
  stop();
  pool_.waitForDone();
}

void SuggestSession::look(const BoardId& id, const SuggestOptions& options) {
  const Board* board = document_.rack().findBoard(id);
  if (!board || running()) return;
  control_ = std::make_shared<RunControl>();
  emit started();
  inBackground(
      pool_, this,
      [board = *board, folder = boardFolder(document_.folder(), id), options, control = control_] {
        return lookOrFail(board, folder, options, *control);
      },
      [this, id, options](Result<BoardSuggestions>& found) { end(id, options, std::move(found)); });
}

void SuggestSession::lookAtAll(const SuggestOptions& options) {
  if (running()) return;
  queue_.clear();
  for (const Board& board : document_.rack().boards) {
    const bool open = std::any_of(board.marks.begin(), board.marks.end(),
                                  [](const Mark& m) { return !m.confirmed; });
    if (!open && !board.cutUp && !facesToLookOver(board).empty()) queue_.push_back(board.id);
  }
  if (!lookAtNext(options)) emit finished(0);
}

bool SuggestSession::lookAtNext(const SuggestOptions& options) {
  while (!queue_.empty()) {
    const BoardId next = queue_.front();
    queue_.pop_front();
    look(next, options);
    if (running()) return true;
  }
  return false;
}

void SuggestSession::stop() {
  queue_.clear();
  if (control_) control_->stop();
}

void SuggestSession::end(const BoardId& id, const SuggestOptions& options,
                         Result<BoardSuggestions> found) {
  control_.reset();
  const Board* board = document_.rack().findBoard(id);
  if (!board) return emit failed(tr("The board is no longer in the rack; nothing was changed."));
  if (!found) return emit failed(qt(found.error().message));
  if (!document_.perform(editOf(*board, options, std::move(found).value())))
    return emit failed(tr("The suggestions could not be laid on the board."));
  if (lookAtNext(options)) return;
  board = document_.rack().findBoard(id);
  emit finished(static_cast<int>(std::count_if(board->marks.begin(), board->marks.end(),
                                               [](const Mark& m) { return !m.confirmed; })));
}

}  // namespace rackside
