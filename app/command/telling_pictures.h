// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "vision/wood/rank/rack_pictures.h"

namespace rackside::command {

// The pictures of a rack; faces that cannot be read are told as messages.
RackPictures tellingPictures(const std::string& rackFolder);

}  // namespace rackside::command
