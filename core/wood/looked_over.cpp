// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/looked_over.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace rackside {
namespace {

constexpr auto kKey = "looked_over";

}  // namespace

bool lookedOver(const Board& board, Face face) {
  const auto found = board.extra->find(kKey);
  return found != board.extra->end() && found->is_array() &&
         std::find(found->begin(), found->end(), std::string(name(face))) != found->end();
}

void setLookedOver(Board& board, Face face, bool over) {
  nlohmann::json faces = nlohmann::json::array();
  for (const Face f : {Face::A, Face::B})
    if (f == face ? over : lookedOver(board, f)) faces.push_back(std::string(name(f)));
  if (faces.empty())
    (*board.extra).erase(kKey);
  else
    (*board.extra)[kKey] = std::move(faces);
}

std::vector<Face> facesToLookOver(const Board& board) {
  std::vector<Face> faces;
  for (const Face f : {Face::A, Face::B})
    if (board.seen(f) && !lookedOver(board, f)) faces.push_back(f);
  return faces;
}

}  // namespace rackside
