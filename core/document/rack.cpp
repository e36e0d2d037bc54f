// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/rack.h"

#include <algorithm>

#include "core/base/name_table.h"

namespace rackside {
namespace {

template <class List, class Wanted>
auto* findById(List& list, const Wanted& id) {
  const auto found =
      std::find_if(list.begin(), list.end(), [&id](const auto& item) { return item.id == id; });
  return found == list.end() ? nullptr : &*found;
}

}  // namespace

Board* Rack::findBoard(const BoardId& id) {
  return findById(boards, id);
}
const Board* Rack::findBoard(const BoardId& id) const {
  return findById(boards, id);
}
Part* Rack::findPart(const PartId& id) {
  return findById(parts, id);
}
const Part* Rack::findPart(const PartId& id) const {
  return findById(parts, id);
}

const Board* Rack::findBoardNamed(std::string_view nameOrTag) const {
  const auto first = [this](auto matches) -> const Board* {
    const auto found = std::find_if(boards.begin(), boards.end(), matches);
    return found == boards.end() ? nullptr : &*found;
  };
  if (const Board* b = first([&](const Board& x) { return x.name == nameOrTag; })) return b;
  if (const Board* b = first([&](const Board& x) { return sameName(x.name, nameOrTag); })) return b;
  if (const Board* b =
          first([&](const Board& x) { return x.tag && std::to_string(*x.tag) == nameOrTag; }))
    return b;
  return first([&](const Board& x) { return x.id.text == nameOrTag; });
}

}  // namespace rackside
