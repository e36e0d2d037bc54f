// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/board.h"

#include <algorithm>

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 4> kEdgeStates = {"sure", "unsure", "bridged", "drawn"};
constexpr std::array<std::string_view, 4> kFaceStages = {"grey-rough", "window-planed", "skimmed",
                                                         "planed"};
constexpr std::array<std::string_view, 4> kSawn = {"unknown", "flat", "rift", "quarter"};
constexpr std::array<std::string_view, 2> kFaces = {"A", "B"};
constexpr std::array<std::string_view, 4> kStates = {"on-rack", "set-aside", "sold", "reserved"};

}  // namespace

Polygon Outline::polygon() const {
  Polygon p;
  p.reserve(vertices.size());
  for (const OutlineVertex& v : vertices) p.push_back(v.at);
  return p;
}

const Picture* Board::newestPicture(Face f) const {
  const auto found = std::find_if(pictures.rbegin(), pictures.rend(),
                                  [f](const Picture& p) { return p.face == f; });
  return found == pictures.rend() ? nullptr : &*found;
}

const Mark* Board::findMark(const MarkId& markId) const {
  const auto found =
      std::find_if(marks.begin(), marks.end(), [&markId](const Mark& m) { return m.id == markId; });
  return found == marks.end() ? nullptr : &*found;
}

std::string stateWords(const Board& board) {
  const bool alive = std::any_of(board.marks.begin(), board.marks.end(),
                                 [](const Mark& m) { return m.confirmed && m.live; });
  const std::string note =
      board.stateNote.empty() && alive ? std::string("live insects") : board.stateNote;
  switch (board.state) {
    case BoardState::onRack:
      return {};
    case BoardState::setAside:
      return note.empty() ? "set aside" : "set aside (" + note + ")";
    case BoardState::sold:
      return note.empty() ? "sold" : "sold (" + note + ")";
    case BoardState::reserved:
      return note.empty() ? "reserved" : "reserved for " + note;
  }
  return {};
}

void setAsideAlive(Board& board) {
  if (board.state == BoardState::onRack) board.state = BoardState::setAside;
}

std::string_view name(EdgeState s) {
  return nameIn(kEdgeStates, s);
}
std::string_view name(FaceStage s) {
  return nameIn(kFaceStages, s);
}
std::string_view name(Sawn s) {
  return nameIn(kSawn, s);
}
std::string_view name(Face f) {
  return nameIn(kFaces, f);
}
std::string_view name(BoardState s) {
  return nameIn(kStates, s);
}
std::optional<EdgeState> edgeStateFromName(std::string_view s) {
  return valueIn<EdgeState>(kEdgeStates, s);
}
std::optional<FaceStage> faceStageFromName(std::string_view s) {
  return valueIn<FaceStage>(kFaceStages, s);
}
std::optional<Sawn> sawnFromName(std::string_view s) {
  return valueIn<Sawn>(kSawn, s);
}
std::optional<Face> faceFromName(std::string_view s) {
  return valueIn<Face>(kFaces, s);
}
std::optional<BoardState> boardStateFromName(std::string_view s) {
  return valueIn<BoardState>(kStates, s);
}

}  // namespace rackside
