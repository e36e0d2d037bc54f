// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/command/verb.h"

namespace rackside::command {

VerbRun setUpServe(CLI::App& app);

}  // namespace rackside::command
