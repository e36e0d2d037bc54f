// SPDX-License-Identifier: GPL-3.0-or-later
// What the page is told of boards and of what is on its way: words and figures ready to show,
// lengths as the shop shows them, places in millimetres of the board frame.
#pragma once

#include <nlohmann/json.hpp>

#include "app/serve/phone_job.h"
#include "core/document/rack.h"

namespace rackside::serve {

// One line of a list: name, size, what is missing, how much is marked and planned.
nlohmann::json boardLine(const Rack& rack, const Board& board);
// All of one board: outline, marks, planned pieces, cuts in working order.
nlohmann::json boardSheet(const Rack& rack, const Board& board);
// A job with what was measured, advice in words.
nlohmann::json jobLine(const Rack& rack, const PhoneJob& job, bool measuring);

}  // namespace rackside::serve
