// SPDX-License-Identifier: GPL-3.0-or-later
// Who may come in. A one-time code stands on the screen; the phone that brings it gets a token of
// its own for it, and the next phone needs the next code. All of it ends with the object.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rackside::serve {

class Admission {
 public:
  Admission();
  const std::string& code() const { return code_; }  // for the next phone
  // The token for the right code, which is spent by that.
  std::optional<std::string> enter(std::string_view code);
  bool knows(std::string_view token) const;
  size_t phones() const { return tokens_.size(); }

  std::function<void()> onNewCode;

 private:
  std::string code_;
  std::vector<std::string> tokens_;  // the oldest first
};

}  // namespace rackside::serve
