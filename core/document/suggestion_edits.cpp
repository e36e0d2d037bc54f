// SPDX-License-Identifier: GPL-3.0-or-later
// Edits of suggestions: finding, taking and refusing them. Each is one step of undo.
#include <algorithm>

#include "core/document/edit_faults.h"
#include "core/document/edits.h"
#include "core/wood/suggestion.h"

namespace rackside {
namespace {

class SuggestionEdit : public Edit {
 public:
  explicit SuggestionEdit(BoardId board) : board_(std::move(board)) {}

  Result<std::vector<ChangeEvent>> apply(Rack& rack) final {
    Board* board = rack.findBoard(board_);
    if (!board) return boardIsGone();
    Board after = *board;
    if (const Status changed = change(after); !changed) return changed.error();
    marksBefore_ = std::move(board->marks);
    refusedBefore_ = std::move(board->refused);
    stateBefore_ = board->state;
    board->marks = std::move(after.marks);
    board->refused = std::move(after.refused);
    board->state = after.state;
    return events(board->state != stateBefore_);
  }

  std::vector<ChangeEvent> revert(Rack& rack) final {
    Board& board = needBoard(rack, board_);
    const bool stateChanges = board.state != stateBefore_;
    board.marks = marksBefore_;
    board.refused = refusedBefore_;
    board.state = stateBefore_;
    return events(stateChanges);
  }

 protected:
  virtual Status change(Board& board) const = 0;

 private:
  std::vector<ChangeEvent> events(bool stateChanges) const {
    std::vector<ChangeEvent> all{{ChangeEvent::What::marks, board_}};
    if (stateChanges) all.push_back({ChangeEvent::What::boardFields, board_});
    return all;
  }

  BoardId board_;
  std::vector<Mark> marksBefore_, refusedBefore_;
  BoardState stateBefore_ = BoardState::onRack;
};

auto find(std::vector<Mark>& marks, const MarkId& id) {
  return std::find_if(marks.begin(), marks.end(), [&id](const Mark& m) { return m.id == id; });
}

class SuggestMarks final : public SuggestionEdit {
 public:
  SuggestMarks(BoardId board, MarkAuthor author, std::vector<Mark> found)
      : SuggestionEdit(std::move(board)), author_(author), found_(std::move(found)) {}
  std::string title() const override { return "Suggest marks"; }

 private:
  Status change(Board& board) const override {
    std::vector<Mark>& marks = board.marks;
    const auto outdated = [&](const Mark& m) { return !m.confirmed && m.author == author_; };
    marks.erase(std::remove_if(marks.begin(), marks.end(), outdated), marks.end());
    for (Mark& m : onlyNews(board, found_)) {
      m.author = author_;
      m.confirmed = false;
      if (const Status sound = validate(m); !sound) return sound;
      if (find(marks, m.id) != marks.end()) return Error{"The board has this mark already."};
      marks.push_back(std::move(m));
    }
    return success();
  }
  MarkAuthor author_;
  std::vector<Mark> found_;
};

class AcceptMarks final : public SuggestionEdit {
 public:
  AcceptMarks(BoardId board, std::vector<MarkId> ids)
      : SuggestionEdit(std::move(board)), ids_(std::move(ids)) {}
  std::string title() const override {
    return ids_.size() == 1 ? "Accept suggestion"
                            : "Accept " + std::to_string(ids_.size()) + " suggestions";
  }

 private:
  Status change(Board& board) const override {
    for (const MarkId& id : ids_) {
      const auto found = find(board.marks, id);
      if (found == board.marks.end()) return markIsGone();
      found->confirmed = true;
      found->confidence = 1;  // the maker's word now
      if (found->live) setAsideAlive(board);
    }
    return success();
  }
  std::vector<MarkId> ids_;
};

class RefuseMarks final : public SuggestionEdit {
 public:
  RefuseMarks(BoardId board, std::vector<MarkId> ids)
      : SuggestionEdit(std::move(board)), ids_(std::move(ids)) {}
  std::string title() const override {
    return ids_.size() == 1 ? "Refuse suggestion"
                            : "Refuse " + std::to_string(ids_.size()) + " suggestions";
  }

 private:
  Status change(Board& board) const override {
    for (const MarkId& id : ids_) {
      const auto found = find(board.marks, id);
      if (found == board.marks.end()) return markIsGone();
      if (found->confirmed)
        return Error{"This mark was taken already: remove it instead of refusing it."};
      board.refused.push_back(std::move(*found));
      board.marks.erase(found);
    }
    return success();
  }
  std::vector<MarkId> ids_;
};

}  // namespace

std::unique_ptr<Edit> suggestMarks(BoardId board, MarkAuthor author, std::vector<Mark> found) {
  return std::make_unique<SuggestMarks>(std::move(board), author, std::move(found));
}
std::unique_ptr<Edit> acceptMarks(BoardId board, std::vector<MarkId> ids) {
  return std::make_unique<AcceptMarks>(std::move(board), std::move(ids));
}
std::unique_ptr<Edit> refuseMarks(BoardId board, std::vector<MarkId> ids) {
  return std::make_unique<RefuseMarks>(std::move(board), std::move(ids));
}

}  // namespace rackside
