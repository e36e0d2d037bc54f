// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/kept_keys.h"

#include <nlohmann/json.hpp>

namespace rackside {
namespace {

const nlohmann::json& noKeys() {
  static const nlohmann::json none = nlohmann::json::object();
  return none;
}

}  // namespace

KeptKeys::KeptKeys() = default;

KeptKeys::KeptKeys(nlohmann::json keys) {
  if (keys.is_object() && !keys.empty()) keys_ = std::make_unique<nlohmann::json>(std::move(keys));
}

KeptKeys::KeptKeys(const KeptKeys& other)
    : keys_(other.keys_ ? std::make_unique<nlohmann::json>(*other.keys_) : nullptr) {}

KeptKeys::KeptKeys(KeptKeys&& other) noexcept = default;

KeptKeys& KeptKeys::operator=(const KeptKeys& other) {
  *this = KeptKeys(other);
  return *this;
}

KeptKeys& KeptKeys::operator=(KeptKeys&& other) noexcept = default;

KeptKeys::~KeptKeys() = default;

const nlohmann::json& KeptKeys::operator*() const {
  return keys_ ? *keys_ : noKeys();
}

nlohmann::json& KeptKeys::operator*() {
  if (!keys_) keys_ = std::make_unique<nlohmann::json>(noKeys());
  return *keys_;
}

}  // namespace rackside
