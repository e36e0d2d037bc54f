// SPDX-License-Identifier: GPL-3.0-or-later
// Reads one JSON object key by key: checks what is there, keeps the first fault in words, and knows
// afterwards which keys nobody asked for.
#pragma once

#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/geometry/shapes.h"

namespace rackside {

class JsonReader {
 public:
  // `path` names the object in messages; `fault` holds the first one and outlives the reader, as
  // does `json`. After a fault every reader gives fallbacks, and the caller discards the result.
  JsonReader(const nlohmann::json& json, std::string path, std::string& fault);

  bool has(const char* key);  // present and not null; counts as asked for
  double number(const char* key);
  double number(const char* key, double fallback) { return has(key) ? number(key) : fallback; }
  std::optional<double> maybeNumber(const char* key);
  long long integer(const char* key, long long least, long long greatest);
  long long integer(const char* key, long long least, long long greatest, long long fallback) {
    return has(key) ? integer(key, least, greatest) : fallback;
  }
  unsigned long long wholeNumber(const char* key, unsigned long long fallback);
  bool flag(const char* key, bool fallback);
  std::string text(const char* key);
  std::string text(const char* key, const std::string& fallback) {
    return has(key) ? text(key) : fallback;
  }
  // A word that `fromName` knows; `expected` says what it should be: "a kind of mark".
  template <class Enum>
  Enum choice(const char* key, const char* expected,
              std::optional<Enum> (*fromName)(std::string_view), std::optional<Enum> fallback = {});
  std::vector<double> numbers(const char* key);
  std::vector<std::string> texts(const char* key);
  std::vector<std::vector<double>> rows(const char* key);
  Point point(const char* key);
  Polygon points(const char* key);

  // The object under `key`; an empty one, with a fault, when it is none. Lives as long as this.
  JsonReader& object(const char* key);
  // One reader per element of the list under `key`; none when the key is absent.
  std::vector<JsonReader> list(const char* key);

  // Keys not asked for, here and in the objects read from here; null when there are none.
  nlohmann::json extra() const;

  bool failed() const { return !fault_->empty(); }
  // Records "`path`.`key` should be `expected`." unless something failed before.
  void fail(const char* key, const std::string& expected) const;
  const std::string& path() const { return path_; }

 private:
  const nlohmann::json* take(const char* key);
  std::string pathOf(const char* key) const;

  const nlohmann::json* json_;
  std::string path_;
  std::string* fault_;
  std::set<std::string, std::less<>> asked_;
  std::map<std::string, std::unique_ptr<JsonReader>> objects_;
};

template <class Enum>
Enum JsonReader::choice(const char* key, const char* expected,
                        std::optional<Enum> (*fromName)(std::string_view),
                        std::optional<Enum> fallback) {
  if (fallback && !has(key)) return *fallback;
  const std::optional<Enum> value = fromName(text(key));
  if (!value) fail(key, expected);
  return value.value_or(Enum{});
}

// Adds kept unknown keys to a written object; a key that is written already wins, and unknown keys
// of a nested object that is no longer written go with it.
void addExtra(nlohmann::json& written, const nlohmann::json& extra);

}  // namespace rackside
