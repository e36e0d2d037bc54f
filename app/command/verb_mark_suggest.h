// SPDX-License-Identifier: GPL-3.0-or-later
// mark suggest: looks at the pictures of boards and suggests marks; takes or refuses suggestions.
#pragma once

#include "app/command/verb.h"

namespace CLI {
class App;
}

namespace rackside::command {

VerbRun setUpMarkSuggest(CLI::App& app);

}  // namespace rackside::command
