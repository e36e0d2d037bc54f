// SPDX-License-Identifier: GPL-3.0-or-later
// Racks as the verbs open them: what is damaged is named on standard error.
#pragma once

#include "app/command/common_options.h"
#include "core/storage/open_rack.h"

namespace rackside::command {

// What a verb cannot do without: a damaged board is named and passed over, a damaged list (parts,
// shop, plan) only by verbs that work on boards alone.
enum class Needs { boards, lists };

Result<OpenedRack> openToRead(const CommonOptions& o, Needs needs = Needs::lists);
// Waits for whoever works on the rack, then holds it until the result goes. Fails when the folder
// is not there.
Result<OpenedRack> openToChange(const CommonOptions& o, Needs needs = Needs::lists);
// The same, but makes the folder.
Result<OpenedRack> openOrMake(const CommonOptions& o, Needs needs = Needs::lists);

}  // namespace rackside::command
