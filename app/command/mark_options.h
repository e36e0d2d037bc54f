// SPDX-License-Identifier: GPL-3.0-or-later
// A mark as typed on the command line.
#pragma once

#include <string>

#include "app/command/common_options.h"
#include "app/command/mark_shape.h"

namespace rackside::command {

struct MarkOptions {
  std::string kind, face = "A", depth, depthFrom, soundness = "unknown", note;
  bool through = false, live = false;
  ShapeText shape{{}, {}, {}, "1mm"};
};

void addMarkOptions(CLI::App& app, MarkOptions& options);

// A fresh mark; fails on a shape or depth that makes no sense.
Result<Mark> markFrom(const MarkOptions& options, const CommonOptions& common);

}  // namespace rackside::command
