// SPDX-License-Identifier: GPL-3.0-or-later
// Result<T>: a value, or an error that a person can act on. Expected failures (bad input, a missing
// card, an unreadable file) travel this way; a programmer's error throws.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <variant>

namespace rackside {

// `message` says what is wrong and what to do about it, in plain words, without a trailing newline.
struct Error {
  std::string message;
};

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::move(value)) {}      // NOLINT: implicit by design
  Result(Error error) : held_(std::move(error)) {}  // NOLINT: implicit by design

  bool ok() const { return std::holds_alternative<T>(held_); }
  explicit operator bool() const { return ok(); }

  // Throws std::logic_error when there is no value: check ok() first.
  const T& value() const& { return need(); }
  T& value() & { return const_cast<T&>(need()); }
  T value() && { return std::move(const_cast<T&>(need())); }
  const T* operator->() const { return &need(); }
  const T& operator*() const& { return need(); }

  const Error& error() const {
    if (ok()) throw std::logic_error("Result::error() of a success");
    return std::get<Error>(held_);
  }

 private:
  const T& need() const {
    if (!ok()) throw std::logic_error("Result::value() of a failure: " + error().message);
    return std::get<T>(held_);
  }
  std::variant<T, Error> held_;
};

// For work that returns nothing but may fail.
using Status = Result<std::monostate>;
inline Status success() {
  return std::monostate{};
}

}  // namespace rackside
