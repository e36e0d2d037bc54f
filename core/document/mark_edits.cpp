// SPDX-License-Identifier: GPL-3.0-or-later
// Edits of the marks of one board. A mark of live worms sets the board apart.
#include <algorithm>
#include <map>

#include "core/document/edit_faults.h"
#include "core/document/edits.h"

namespace rackside {
namespace {

class MarksEdit : public Edit {
 public:
  explicit MarksEdit(BoardId board) : board_(std::move(board)) {}

  Result<std::vector<ChangeEvent>> apply(Rack& rack) final {
    Board* board = rack.findBoard(board_);
    if (!board) return boardIsGone();
    std::vector<Mark> before = board->marks;
    if (const Status changed = change(board->marks); !changed) {
      board->marks = std::move(before);
      return changed.error();
    }
    marksBefore_ = std::move(before);
    stateBefore_ = board->state;
    const bool live = std::any_of(board->marks.begin(), board->marks.end(),
                                  [](const Mark& m) { return m.live && m.confirmed; });
    if (live) setAsideAlive(*board);
    return events(board->state != stateBefore_);
  }

  std::vector<ChangeEvent> revert(Rack& rack) final {
    Board& board = needBoard(rack, board_);
    const bool stateChanges = board.state != stateBefore_;
    board.marks = marksBefore_;
    board.state = stateBefore_;
    return events(stateChanges);
  }

 protected:
  // Changes the list, or fails; what it left half done is put back.
  virtual Status change(std::vector<Mark>& marks) const = 0;
  // Merged steps are redone as one, so a step that set the board apart stands alone.
  bool startsLike(const MarksEdit& other) const {
    return other.board_ == board_ && other.stateBefore_ == stateBefore_;
  }

 private:
  std::vector<ChangeEvent> events(bool stateChanges) const {
    std::vector<ChangeEvent> all{{ChangeEvent::What::marks, board_}};
    if (stateChanges) all.push_back({ChangeEvent::What::boardFields, board_});
    return all;
  }

  BoardId board_;
  std::vector<Mark> marksBefore_;
  BoardState stateBefore_ = BoardState::onRack;
};

auto find(std::vector<Mark>& marks, const MarkId& id) {
  return std::find_if(marks.begin(), marks.end(), [&id](const Mark& m) { return m.id == id; });
}

class AddMark final : public MarksEdit {
 public:
  AddMark(BoardId board, Mark mark) : MarksEdit(std::move(board)), mark_(std::move(mark)) {}
  std::string title() const override { return "Add " + std::string(name(mark_.kind)); }

 private:
  Status change(std::vector<Mark>& marks) const override {
    if (mark_.id.empty()) throw std::logic_error("a mark without an id");
    if (find(marks, mark_.id) != marks.end()) return Error{"The board has this mark already."};
    if (const Status sound = validate(mark_); !sound) return sound;
    marks.push_back(mark_);
    return success();
  }
  Mark mark_;
};

class ChangeMark final : public MarksEdit {
 public:
  ChangeMark(BoardId board, Mark mark) : MarksEdit(std::move(board)), mark_(std::move(mark)) {}
  std::string title() const override { return "Change " + std::string(name(mark_.kind)); }
  bool mergeWith(const Edit& next) override {
    const auto* later = dynamic_cast<const ChangeMark*>(&next);
    if (!later || !startsLike(*later) || later->mark_.id != mark_.id) return false;
    mark_ = later->mark_;
    return true;
  }

 private:
  Status change(std::vector<Mark>& marks) const override {
    const auto found = find(marks, mark_.id);
    if (found == marks.end()) return markIsGone();
    if (const Status sound = validate(mark_); !sound) return sound;
    *found = mark_;
    return success();
  }
  Mark mark_;
};

class LoadMarks final : public MarksEdit {
 public:
  LoadMarks(BoardId board, std::vector<Mark> marks)
      : MarksEdit(std::move(board)), marks_(std::move(marks)) {}
  std::string title() const override { return "Load marks"; }

 private:
  Status change(std::vector<Mark>& marks) const override {
    std::map<MarkId, size_t> known;
    for (size_t i = 0; i < marks.size(); ++i) known[marks[i].id] = i;
    for (const Mark& mark : marks_) {
      if (mark.id.empty()) throw std::logic_error("a mark without an id");
      if (const Status sound = validate(mark); !sound) return sound;
      const auto [at, fresh] = known.emplace(mark.id, marks.size());
      if (fresh)
        marks.push_back(mark);
      else
        marks[at->second] = mark;
    }
    return success();
  }
  std::vector<Mark> marks_;
};

class RemoveMark final : public MarksEdit {
 public:
  RemoveMark(BoardId board, MarkId mark) : MarksEdit(std::move(board)), mark_(std::move(mark)) {}
  std::string title() const override { return "Remove mark"; }

 private:
  Status change(std::vector<Mark>& marks) const override {
    const auto found = find(marks, mark_);
    if (found == marks.end()) return markIsGone();
    marks.erase(found);
    return success();
  }
  MarkId mark_;
};

}  // namespace

std::unique_ptr<Edit> addMark(BoardId board, Mark mark) {
  return std::make_unique<AddMark>(std::move(board), std::move(mark));
}
std::unique_ptr<Edit> changeMark(BoardId board, Mark replacement) {
  return std::make_unique<ChangeMark>(std::move(board), std::move(replacement));
}
std::unique_ptr<Edit> loadMarks(BoardId board, std::vector<Mark> marks) {
  return std::make_unique<LoadMarks>(std::move(board), std::move(marks));
}
std::unique_ptr<Edit> removeMark(BoardId board, MarkId mark) {
  return std::make_unique<RemoveMark>(std::move(board), std::move(mark));
}

}  // namespace rackside
