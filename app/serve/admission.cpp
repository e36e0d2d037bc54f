// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/admission.h"

#include "app/serve/secret.h"

namespace rackside::serve {

namespace {
constexpr size_t kMostPhones = 8;  // a workshop's hands; with one more the first has to come anew
}

Admission::Admission() : code_(newSecret()) {}

std::optional<std::string> Admission::enter(std::string_view code) {
  if (!sameSecret(code, code_)) return std::nullopt;
  code_ = newSecret();
  if (tokens_.size() == kMostPhones) tokens_.erase(tokens_.begin());
  tokens_.push_back(newSecret());
  if (onNewCode) onNewCode();
  return tokens_.back();
}

bool Admission::knows(std::string_view token) const {
  bool known = false;
  for (const std::string& t : tokens_) known = sameSecret(t, token) || known;
  return known;
}

}  // namespace rackside::serve
