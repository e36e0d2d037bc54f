// SPDX-License-Identifier: GPL-3.0-or-later
// Part of a longer piece of work, so that its own progress from 0 to 1 is reported as its share.
#pragma once

#include "core/base/run_control.h"

namespace rackside {

// While it lives, what `run` is told of progress goes on as between `from` and `to`, with `where`
// before the stage. One at a time for each RunControl, on the worker's thread.
class ProgressPart {
 public:
  ProgressPart(RunControl& run, double from, double to, const std::string& where)
      : run_(run), whole_(run.onProgress) {
    if (!whole_) return;
    run_.onProgress = [whole = whole_, from, to, where](double part, const std::string& stage) {
      whole(from + part * (to - from), where + stage);
    };
  }
  ~ProgressPart() {
    if (whole_) run_.onProgress = whole_;
  }
  ProgressPart(const ProgressPart&) = delete;
  ProgressPart& operator=(const ProgressPart&) = delete;

 private:
  RunControl& run_;
  std::function<void(double, const std::string&)> whole_;
};

}  // namespace rackside
