// SPDX-License-Identifier: GPL-3.0-or-later
// A verb of the command line: `rackside VERB …`. One file pair a verb; main.cpp holds the table.
#pragma once

#include <functional>

namespace CLI {
class App;  // CLI/App.hpp is slow to read: only the verbs themselves include it
}

namespace rackside::command {

enum ExitCode : int { kDone = 0, kInputAtFault = 1, kUsage = 2 };

// Runs the verb once its options are parsed; returns an ExitCode.
using VerbRun = std::function<int()>;

struct Verb {
  const char* name;
  const char* summary;
  // Adds the verb's options and returns what to run.
  VerbRun (*setUp)(CLI::App& app);
};

}  // namespace rackside::command
