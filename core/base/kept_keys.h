// SPDX-License-Identifier: GPL-3.0-or-later
// The keys of a file that this version does not know: kept beside the object they came with and
// written back, so that a newer program's data survives an older one. Declared apart from the JSON
// library, whose header is slow to compile and would otherwise reach every file.
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>

namespace rackside {

// Holds one JSON object, empty at first; a value that is copied and compared as such.
class KeptKeys {
 public:
  KeptKeys();
  KeptKeys(
      nlohmann::json keys);  // NOLINT: implicit by design; anything but an object counts as empty
  KeptKeys(const KeptKeys& other);
  KeptKeys(KeptKeys&& other) noexcept;
  KeptKeys& operator=(const KeptKeys& other);
  KeptKeys& operator=(KeptKeys&& other) noexcept;
  ~KeptKeys();

  const nlohmann::json& operator*() const;
  nlohmann::json& operator*();
  const nlohmann::json* operator->() const { return &**this; }

 private:
  std::unique_ptr<nlohmann::json> keys_;  // null: no keys
};

}  // namespace rackside
