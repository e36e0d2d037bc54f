// SPDX-License-Identifier: GPL-3.0-or-later
// Edits of boards as wholes, and of their outline.
#include <algorithm>

#include "core/document/edit_faults.h"
#include "core/document/edits.h"
#include "core/wood/board_limits.h"
#include "core/wood/measure.h"

namespace rackside {
namespace {

using What = ChangeEvent::What;

constexpr double kWidthStepMm = 100;  // as Board::widthsMm says

bool samePictures(const Board& a, const Board& b) {
  return std::equal(a.pictures.begin(), a.pictures.end(), b.pictures.begin(), b.pictures.end(),
                    [](const Picture& p, const Picture& q) {
                      return p.id == q.id && p.file == q.file && p.face == q.face &&
                             p.boardFromPicture == q.boardFromPicture;
                    });
}

bool sameOutline(const Outline& a, const Outline& b) {
  return std::equal(a.vertices.begin(), a.vertices.end(), b.vertices.begin(), b.vertices.end(),
                    [](const OutlineVertex& v, const OutlineVertex& w) {
                      return v.at == w.at && v.sigmaMm == w.sigmaMm && v.state == w.state;
                    });
}

class ChangeBoard final : public Edit {
 public:
  explicit ChangeBoard(Board replacement) : after_(std::move(replacement)) {}
  std::string title() const override { return "Change board " + after_.name; }

  Result<std::vector<ChangeEvent>> apply(Rack& rack) override {
    Board* board = rack.findBoard(after_.id);
    if (!board) return boardIsGone();
    if (const Status sound = validate(after_); !sound) return sound.error();
    before_ = *board;
    *board = after_;
    return events();
  }
  std::vector<ChangeEvent> revert(Rack& rack) override {
    needBoard(rack, after_.id) = before_;
    return events();
  }
  bool mergeWith(const Edit& next) override {
    const auto* later = dynamic_cast<const ChangeBoard*>(&next);
    if (!later || later->after_.id != after_.id) return false;
    after_ = later->after_;
    return true;
  }

 private:
  std::vector<ChangeEvent> events() const {
    std::vector<ChangeEvent> all{{What::boardFields, after_.id}, {What::marks, after_.id}};
    if (!sameOutline(before_.outline, after_.outline)) all.push_back({What::outline, after_.id});
    if (!samePictures(before_, after_)) all.push_back({What::pictures, after_.id});
    return all;
  }
  Board after_;
  Board before_;
};

// Turned round, the stretch after a vertex is the one that was before it.
void makeCounterClockwise(Outline& outline) {
  if (signedArea(outline.polygon()) >= 0) return;
  auto& v = outline.vertices;
  std::reverse(v.begin(), v.end());
  const EdgeState first = v.front().state;
  for (size_t i = 0; i + 1 < v.size(); ++i) v[i].state = v[i + 1].state;
  v.back().state = first;
}

struct MeasuredOutline {
  Outline outline;
  std::vector<Measured> widthsMm;
  Measured lengthMm;
};

MeasuredOutline takeMeasures(Board& board) {
  return {std::move(board.outline), std::move(board.widthsMm), board.lengthMm};
}
void giveMeasures(Board& board, const MeasuredOutline& measures) {
  board.outline = measures.outline;
  board.widthsMm = measures.widthsMm;
  board.lengthMm = measures.lengthMm;
}

class ChangeOutline final : public Edit {
 public:
  ChangeOutline(BoardId board, Outline outline)
      : board_(std::move(board)), outline_(std::move(outline)) {}
  std::string title() const override { return "Change outline"; }

  Result<std::vector<ChangeEvent>> apply(Rack& rack) override {
    Board* board = rack.findBoard(board_);
    if (!board) return boardIsGone();
    if (!isSimple(outline_.polygon()))
      return Error{
          "The outline crosses itself or has fewer than three corners; draw that stretch "
          "again without crossing."};
    Board changed = *board;
    changed.outline = outline_;
    if (const Status sound = validate(changed); !sound) return sound.error();
    makeCounterClockwise(outline_);
    before_ = takeMeasures(*board);
    giveMeasures(*board, {outline_, widthsEvery(outline_, kWidthStepMm), lengthOf(outline_)});
    return events();
  }
  std::vector<ChangeEvent> revert(Rack& rack) override {
    giveMeasures(needBoard(rack, board_), before_);
    return events();
  }
  bool mergeWith(const Edit& next) override {
    const auto* later = dynamic_cast<const ChangeOutline*>(&next);
    if (!later || later->board_ != board_) return false;
    outline_ = later->outline_;
    return true;
  }

 private:
  std::vector<ChangeEvent> events() const { return {{What::outline, board_}}; }
  BoardId board_;
  Outline outline_;
  MeasuredOutline before_;
};

class AddBoard final : public Edit {
 public:
  explicit AddBoard(Board board) : board_(std::move(board)) {}
  std::string title() const override { return "Add board " + board_.name; }

  Result<std::vector<ChangeEvent>> apply(Rack& rack) override {
    if (board_.id.empty()) throw std::logic_error("a board without an id");
    if (rack.findBoard(board_.id)) return Error{"The board is in the rack already."};
    if (const Status sound = validate(board_); !sound) return sound.error();
    rack.boards.push_back(board_);
    return std::vector<ChangeEvent>{{What::boardAdded, board_.id}};
  }
  std::vector<ChangeEvent> revert(Rack& rack) override {
    needBoard(rack, board_.id);
    rack.boards.pop_back();
    return {{What::boardRemoved, board_.id}};
  }

 private:
  Board board_;
};

class RemoveBoard final : public Edit {
 public:
  explicit RemoveBoard(BoardId board) : id_(std::move(board)) {}
  std::string title() const override { return "Remove board " + removed_.name; }

  Result<std::vector<ChangeEvent>> apply(Rack& rack) override {
    Board* board = rack.findBoard(id_);
    if (!board) return boardIsGone();
    place_ = board - rack.boards.data();
    removed_ = std::move(*board);
    rack.boards.erase(rack.boards.begin() + place_);
    return std::vector<ChangeEvent>{{What::boardRemoved, id_}};
  }
  std::vector<ChangeEvent> revert(Rack& rack) override {
    rack.boards.insert(rack.boards.begin() + place_, removed_);
    return {{What::boardAdded, id_}};
  }

 private:
  BoardId id_;
  Board removed_;
  std::ptrdiff_t place_ = 0;
};

}  // namespace

std::unique_ptr<Edit> changeOutline(BoardId board, Outline outline) {
  return std::make_unique<ChangeOutline>(std::move(board), std::move(outline));
}
std::unique_ptr<Edit> changeBoard(Board replacement) {
  return std::make_unique<ChangeBoard>(std::move(replacement));
}
std::unique_ptr<Edit> addBoard(Board board) {
  return std::make_unique<AddBoard>(std::move(board));
}
std::unique_ptr<Edit> removeBoard(BoardId board) {
  return std::make_unique<RemoveBoard>(std::move(board));
}

}  // namespace rackside
