// SPDX-License-Identifier: GPL-3.0-or-later
// What `rackside rank --panel` prints and the pictures it writes.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/base/length.h"
#include "core/document/rack.h"
#include "vision/wood/rank/panel.h"

namespace rackside::command {

nlohmann::json panelJson(const Rack& rack, const Part& part, const Panel& panel);
std::vector<std::string> panelLines(const Rack& rack, const Part& part, const Panel& panel,
                                    const LengthStyle& style);

// One picture an order and all of them one under another, panels.png, which is returned.
Result<std::filesystem::path> writePanelPictures(const Rack& rack, const Part& part,
                                                 const Panel& panel,
                                                 const std::filesystem::path& rackFolder,
                                                 const std::filesystem::path& folder,
                                                 RunControl& control);

}  // namespace rackside::command
