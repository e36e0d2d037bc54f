// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/storage/rack_files.h"

#include "core/base/each_in_parallel.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"

namespace rackside {
namespace {

using Files = std::map<std::string, std::string>;

template <class Read>
Result<std::string> checkedBytes(const nlohmann::json& document, const std::string& what, Read read,
                                 const std::string* known = nullptr) {
  Result<std::string> text = jsonText(document);
  if (!text) return Error{what + " cannot be stored: " + text.error().message};
  if (known && *known == *text) return text;
  if (const auto back = read(document); !back)
    return Error{what + " cannot be stored: " + back.error().message};
  return text;
}

Result<std::string> bytesOf(const Board& board, const std::string* known) {
  return checkedBytes(toJson(board), "Board \"" + board.name + "\"", boardFromJson, known);
}

const std::string* find(const Files* known, const std::string& place) {
  if (!known) return nullptr;
  const auto found = known->find(place);
  return found == known->end() ? nullptr : &found->second;
}

}  // namespace

std::string boardPlace(const BoardId& board) {
  return "boards/" + board.text + "/" + kBoardFile;
}

Result<std::string> boardBytes(const Board& board) {
  return bytesOf(board, nullptr);
}
Result<std::string> partsBytes(const Rack& rack) {
  return checkedBytes(toJson(rack.parts, *rack.partsExtra), "The parts list", partsFromJson);
}
Result<std::string> shopBytes(const Shop& shop) {
  return checkedBytes(toJson(shop), "The shop", shopFromJson);
}
Result<std::string> planBytes(const Plan& plan) {
  return checkedBytes(toJson(plan), "The plan", planFromJson);
}

Result<Files> rackBytes(const Rack& rack, const Files* known) {
  Files all;
  std::string fault;
  const auto keep = [&](const std::string& place, Result<std::string> bytes) {
    if (bytes)
      all[place] = std::move(bytes).value();
    else if (fault.empty())
      fault = bytes.error().message;
  };
  std::vector<std::optional<Result<std::string>>> boards(rack.boards.size());
  eachInParallel(int(boards.size()), [&](int i, int) {
    const Board& board = rack.boards[size_t(i)];
    boards[size_t(i)].emplace(bytesOf(board, find(known, boardPlace(board.id))));
  });
  for (size_t i = 0; i < boards.size(); ++i) {
    const BoardId& id = rack.boards[i].id;
    if (all.count(boardPlace(id)) > 0)
      return Error{"Two boards of the rack have the id " + id.text + "."};
    keep(boardPlace(id), *std::move(boards[i]));
  }
  keep(kPartsFile, partsBytes(rack));
  keep(kShopFile, shopBytes(rack.shop));
  if (rack.plan) keep(kPlanFile, planBytes(*rack.plan));
  if (!fault.empty()) return Error{fault};
  return all;
}

}  // namespace rackside
