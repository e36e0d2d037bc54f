// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/telling_pictures.h"

#include "app/command/console.h"

namespace rackside::command {

RackPictures tellingPictures(const std::string& rackFolder) {
  return RackPictures(rackFolder, [](const std::string& remark) { message("note: " + remark); });
}

}  // namespace rackside::command
