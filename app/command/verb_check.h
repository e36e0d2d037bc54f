// SPDX-License-Identifier: GPL-3.0-or-later
// rackside check: what of a rack is damaged, and, when asked, mended.
#pragma once

#include "app/command/verb.h"

namespace CLI {
class App;
}

namespace rackside::command {

VerbRun setUpCheck(CLI::App& app);

}  // namespace rackside::command
