// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/keep.h"

#include "core/document/edits.h"
#include "core/storage/json_forms.h"

namespace rackside::serve {
namespace {

Picture ownPicture(Picture picture, Face face) {
  picture.id.text = newIdText("picture");
  picture.face = face;
  picture.file = "face-" + std::string(name(face)) + "-" +
                 picture.id.text.substr(picture.id.text.find('-') + 1) + ".jpg";
  picture.heldBy.reset();
  return picture;
}

std::string freeName(const Rack& rack) {
  for (size_t n = 1;; ++n) {
    std::string name = "new " + std::to_string(n);
    if (!rack.findBoardNamed(name)) return name;
  }
}

Result<Kept> onto(const Board& stored, Board measured, const PhoneJob& job) {
  Board board = stored;
  board.pictures.push_back(ownPicture(measured.pictures.back(), job.face));
  if (job.face == Face::B) {
    board.faceB = measured.faceB;
  } else {
    board.outline = std::move(measured.outline);
    board.lengthMm = measured.lengthMm;
    board.widthsMm = std::move(measured.widthsMm);
  }
  if (!board.tag) board.tag = measured.tag;
  putWords(board, job.words);
  return Kept{std::move(board), false};
}

Result<Kept> fresh(const Rack& rack, Board board, const PhoneJob& job) {
  board.id.text = newIdText("board");
  board.pictures = {ownPicture(board.pictures.back(), job.face)};
  if (!job.words.board.empty()) board.name = job.words.board;
  if (board.name.empty()) board.name = board.tag ? std::to_string(*board.tag) : freeName(rack);
  putWords(board, job.words);
  return Kept{std::move(board), true};
}

}  // namespace

void putWords(Board& board, const BoardWords& words) {
  if (!words.species.empty()) board.species = words.species;
  if (!words.place.empty()) board.place = words.place;
  if (words.thicknessMm > 0) {
    board.thicknessMm = words.thicknessMm;
    board.thicknessSaid.clear();
  }
  if (words.moisturePercent <= 0) return;
  MoistureReading reading;
  reading.percent = words.moisturePercent;
  reading.date = today();
  // A second reading on one day puts the first right, as in the window.
  if (!board.moisture.empty() && board.moisture.back().date == reading.date)
    board.moisture.back() = std::move(reading);
  else
    board.moisture.push_back(std::move(reading));
}

Result<Kept> keptBoard(const Rack& rack, const PhoneJob& job, bool& stale) {
  stale = false;
  const auto read = boardFromJson(job.result.value("board", nlohmann::json()));
  if (!read || read->pictures.empty())
    return Error{"What was measured cannot be read. Retake the photograph."};
  Board board = *read;
  if (job.result.value("known", false)) {
    const Board* stored = rack.findBoard(board.id);
    if (stored) return onto(*stored, std::move(board), job);
    stale = true;
    return Error{
        "The board has been taken off the rack meanwhile; it is measured again as a new "
        "one."};
  }
  const std::string wanted = !job.words.board.empty() ? job.words.board
                             : board.tag              ? std::to_string(*board.tag)
                                                      : board.name;
  if (wanted.empty() || !rack.findBoardNamed(wanted)) return fresh(rack, std::move(board), job);
  stale = true;
  return Error{
      "Board " + wanted +
      " has come onto the rack meanwhile; this photograph is measured again as one of it."};
}

std::unique_ptr<Edit> keepEdit(const Kept& kept) {
  return kept.isNew ? addBoard(kept.board) : changeBoard(kept.board);
}

}  // namespace rackside::serve
