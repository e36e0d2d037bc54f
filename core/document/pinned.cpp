// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/pinned.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace rackside {

namespace {
constexpr auto kKey = "pinned";
}

std::vector<PieceId> pinnedPieces(const Plan& plan) {
  std::vector<PieceId> pins;
  const auto found = plan.extra->find(kKey);
  if (found == plan.extra->end() || !found->is_array()) return pins;
  for (const auto& id : *found) {
    if (!id.is_string()) continue;
    const PieceId piece{id.get<std::string>()};
    const bool there = std::any_of(plan.pieces.begin(), plan.pieces.end(),
                                   [&](const Piece& p) { return p.id == piece; });
    if (there) pins.push_back(piece);
  }
  return pins;
}

bool isPinned(const Plan& plan, const PieceId& piece) {
  const auto pins = pinnedPieces(plan);
  return std::find(pins.begin(), pins.end(), piece) != pins.end();
}

Plan withPin(Plan plan, const PieceId& piece, bool pinned) {
  auto pins = pinnedPieces(plan);
  std::erase(pins, piece);
  if (pinned) pins.push_back(piece);
  (*plan.extra)[kKey] = nlohmann::json::array();
  for (const PieceId& id : pins) (*plan.extra)[kKey].push_back(id.text);
  return plan;
}

}  // namespace rackside
