// SPDX-License-Identifier: GPL-3.0-or-later
// The documents of a rack as the bytes of their files, by their place in the rack's folder.
#pragma once

#include <map>
#include <string>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside {

inline constexpr const char* kPartsFile = "parts.json";
inline constexpr const char* kShopFile = "shop.json";
inline constexpr const char* kPlanFile = "plan.json";
inline constexpr const char* kBoardFile = "board.json";
std::string boardPlace(const BoardId& board);  // "boards/<id>/board.json"

// Each reads its own bytes back before it gives them, so that nothing unreadable reaches a disk.
Result<std::string> boardBytes(const Board& board);
Result<std::string> partsBytes(const Rack& rack);
Result<std::string> shopBytes(const Shop& shop);
Result<std::string> planBytes(const Plan& plan);

// All of them; the plan only when there is one. Bytes that are as `known` were read or written
// before and are not read back once more.
Result<std::map<std::string, std::string>> rackBytes(
    const Rack& rack, const std::map<std::string, std::string>* known = nullptr);

}  // namespace rackside
