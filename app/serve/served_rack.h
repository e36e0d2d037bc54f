// SPDX-License-Identifier: GPL-3.0-or-later
// The rack that the phones work on, wherever it is open: in a folder, or in a window.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include "core/base/result.h"
#include "core/document/edit.h"

namespace rackside::serve {

class ServedRack {
 public:
  virtual ~ServedRack() = default;
  virtual std::filesystem::path folder() const = 0;
  // As it is now; valid until the next call of either function.
  virtual Result<const Rack*> rack() = 0;
  // One edit of the rack as it is at that moment, stored before this returns or soon after; one
  // step of undo where there is a window. Fails, with nothing changed, when the edit cannot be made
  // or another program keeps the rack locked.
  using MakeEdit = std::function<Result<std::unique_ptr<Edit>>(const Rack&)>;
  virtual Status perform(const MakeEdit& make) = 0;
  // Is a new plan being made, which would lose what is ticked meanwhile?
  virtual bool planning() const { return false; }
};

// A rack that no window of this program has open: read when its files change, written at once.
std::unique_ptr<ServedRack> serveFolder(std::filesystem::path folder);

}  // namespace rackside::serve
