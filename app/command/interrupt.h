// SPDX-License-Identifier: GPL-3.0-or-later
// Ctrl+C ends long work early and keeps what it has; a second one ends the program.
#pragma once

#include <memory>

#include "core/base/run_control.h"

namespace rackside::command {

// While it lives, the first SIGINT or SIGTERM stops `control` (within a tenth of a second).
class StopOnInterrupt {
 public:
  explicit StopOnInterrupt(RunControl& control);
  ~StopOnInterrupt();
  StopOnInterrupt(const StopOnInterrupt&) = delete;
  StopOnInterrupt& operator=(const StopOnInterrupt&) = delete;

 private:
  struct Watch;
  std::unique_ptr<Watch> watch_;
};

// Shows a running percentage and the stage on standard error, when that is a terminal.
void showProgress(RunControl& control, const char* what);

}  // namespace rackside::command
