// SPDX-License-Identifier: GPL-3.0-or-later
// The edits a maker can make. Each returns a fresh Edit for History::perform.
#pragma once

#include <memory>

#include "core/document/edit.h"

namespace rackside {

std::unique_ptr<Edit> addMark(BoardId board, Mark mark);
std::unique_ptr<Edit> changeMark(BoardId board,
                                 Mark replacement);  // same id as the mark it replaces
std::unique_ptr<Edit> removeMark(BoardId board, MarkId mark);
// Each takes the place of the mark of its id, or is added.
std::unique_ptr<Edit> loadMarks(BoardId board, std::vector<Mark> marks);
// What a look at the board found (core/wood/suggestion.h): takes the place of what the same author
// suggested before and nobody took; what is marked or was refused is left out.
std::unique_ptr<Edit> suggestMarks(BoardId board, MarkAuthor author, std::vector<Mark> found);
std::unique_ptr<Edit> acceptMarks(BoardId board, std::vector<MarkId> ids);
std::unique_ptr<Edit> refuseMarks(BoardId board, std::vector<MarkId> ids);
std::unique_ptr<Edit> changeOutline(BoardId board, Outline outline);  // measured figures follow
std::unique_ptr<Edit> changeBoard(Board replacement);  // name, place, species, … ; same id
std::unique_ptr<Edit> addBoard(Board board);
std::unique_ptr<Edit> removeBoard(BoardId board);
std::unique_ptr<Edit> changeParts(std::vector<Part> parts);
std::unique_ptr<Edit> changePartsExtra(KeptKeys extra);  // what lies beside the parts in parts.json
std::unique_ptr<Edit> changeShop(Shop shop);
std::unique_ptr<Edit> setPlan(std::optional<Plan> plan);
// Several edits as one step (all marks above a threshold accepted at once).
std::unique_ptr<Edit> together(std::string title, std::vector<std::unique_ptr<Edit>> edits);

}  // namespace rackside
