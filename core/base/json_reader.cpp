// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/json_reader.h"

#include <algorithm>
#include <cmath>

namespace rackside {
namespace {

const nlohmann::json& emptyObject() {
  static const nlohmann::json empty = nlohmann::json::object();
  return empty;
}
const nlohmann::json& nothing() {
  static const nlohmann::json null;
  return null;
}

// Far beyond every length, area and price that a file may hold, and small enough to be summed.
constexpr double kGreatestNumber = 1e15;
// A kilometre: beyond every board, and small enough for polygons in 1/1000 mm.
constexpr double kFarthestMm = 1e6;

bool isNumber(const nlohmann::json& j, double greatest) {
  return j.is_number() && std::abs(j.get<double>()) <= greatest;
}

bool isNumbers(const nlohmann::json& j, double greatest = kGreatestNumber) {
  return j.is_array() && std::all_of(j.begin(), j.end(), [greatest](const auto& element) {
           return isNumber(element, greatest);
         });
}

bool isPoint(const std::vector<double>& xy) {
  return xy.size() == 2 && std::abs(xy[0]) <= kFarthestMm && std::abs(xy[1]) <= kFarthestMm;
}

}  // namespace

JsonReader::JsonReader(const nlohmann::json& json, std::string path, std::string& fault)
    : json_(&json), path_(std::move(path)), fault_(&fault) {
  if (json.is_object()) return;
  if (fault_->empty()) *fault_ = (path_.empty() ? "The file" : path_) + " should be an object {…}.";
  json_ = &emptyObject();
}

std::string JsonReader::pathOf(const char* key) const {
  return path_.empty() ? std::string(key) : path_ + "." + key;
}

void JsonReader::fail(const char* key, const std::string& expected) const {
  if (fault_->empty()) *fault_ = pathOf(key) + " should be " + expected + ".";
}

bool JsonReader::has(const char* key) {
  const nlohmann::json* j = take(key);
  return j && !j->is_null();
}

const nlohmann::json* JsonReader::take(const char* key) {
  asked_.insert(key);
  const auto found = json_->find(key);
  return found == json_->end() ? nullptr : &*found;
}

double JsonReader::number(const char* key) {
  const nlohmann::json* j = take(key);
  if (j && isNumber(*j, kGreatestNumber)) return j->get<double>();
  fail(key, j && j->is_number() ? "a number within 1e15" : "a number");
  return 0;
}

std::optional<double> JsonReader::maybeNumber(const char* key) {
  if (!has(key)) return std::nullopt;
  return number(key);
}

long long JsonReader::integer(const char* key, long long least, long long greatest) {
  const nlohmann::json* j = take(key);
  if (j && j->is_number_integer()) {
    const bool tooLarge = j->is_number_unsigned() &&
                          j->get<unsigned long long>() > static_cast<unsigned long long>(greatest);
    const auto value = tooLarge ? least : j->get<long long>();
    if (!tooLarge && value >= least && value <= greatest) return value;
  }
  fail(key, "a whole number from " + std::to_string(least) + " to " + std::to_string(greatest));
  return least;
}

unsigned long long JsonReader::wholeNumber(const char* key, unsigned long long fallback) {
  const nlohmann::json* j = take(key);
  if (!j || j->is_null()) return fallback;
  if (j->is_number_unsigned()) return j->get<unsigned long long>();
  fail(key, "a whole number, 0 or more");
  return fallback;
}

bool JsonReader::flag(const char* key, bool fallback) {
  const nlohmann::json* j = take(key);
  if (!j || j->is_null()) return fallback;
  if (!j->is_boolean()) {
    fail(key, "true or false");
    return fallback;
  }
  return j->get<bool>();
}

std::string JsonReader::text(const char* key) {
  const nlohmann::json* j = take(key);
  if (j && j->is_string()) return j->get<std::string>();
  fail(key, "a text in quotes");
  return {};
}

std::vector<double> JsonReader::numbers(const char* key) {
  const nlohmann::json* j = take(key);
  if (!j || j->is_null()) return {};
  if (isNumbers(*j)) return j->get<std::vector<double>>();
  fail(key, "a list of numbers");
  return {};
}

std::vector<std::string> JsonReader::texts(const char* key) {
  const nlohmann::json* j = take(key);
  std::vector<std::string> all;
  if (!j || j->is_null()) return all;
  bool good = j->is_array();
  if (good)
    for (const auto& element : *j) {
      good = good && element.is_string();
      if (good) all.push_back(element.get<std::string>());
    }
  if (!good) fail(key, "a list of texts");
  return all;
}

std::vector<std::vector<double>> JsonReader::rows(const char* key) {
  const nlohmann::json* j = take(key);
  std::vector<std::vector<double>> all;
  if (!j || j->is_null()) return all;
  bool good = j->is_array();
  if (good)
    for (const auto& element : *j) {
      good = good && isNumbers(element);
      if (good) all.push_back(element.get<std::vector<double>>());
    }
  if (!good) fail(key, "a list of lists of numbers");
  return all;
}

Point JsonReader::point(const char* key) {
  const std::vector<double> xy = numbers(key);
  if (isPoint(xy)) return {xy[0], xy[1]};
  fail(key, "a point [x, y] within 1 km");
  return {};
}

Polygon JsonReader::points(const char* key) {
  Polygon all;
  for (const std::vector<double>& xy : rows(key)) {
    if (!isPoint(xy)) {
      fail(key, "a list of points [[x, y], …] within 1 km");
      return {};
    }
    all.push_back({xy[0], xy[1]});
  }
  return all;
}

JsonReader& JsonReader::object(const char* key) {
  const nlohmann::json* j = take(key);
  auto& reader = objects_[key];
  if (!reader) reader = std::make_unique<JsonReader>(j ? *j : nothing(), pathOf(key), *fault_);
  return *reader;
}

std::vector<JsonReader> JsonReader::list(const char* key) {
  const nlohmann::json* j = take(key);
  std::vector<JsonReader> all;
  if (!j || j->is_null()) return all;
  if (!j->is_array()) {
    fail(key, "a list [...]");
    return all;
  }
  for (size_t i = 0; i < j->size(); ++i)
    all.emplace_back((*j)[i], pathOf(key) + "[" + std::to_string(i) + "]", *fault_);
  return all;
}

nlohmann::json JsonReader::extra() const {
  nlohmann::json kept;
  for (const auto& [key, value] : json_->items())
    if (asked_.find(key) == asked_.end()) kept[key] = value;
  for (const auto& [key, reader] : objects_) {
    nlohmann::json inner = reader->extra();
    if (!inner.is_null()) kept[key] = std::move(inner);
  }
  return kept;
}

void addExtra(nlohmann::json& written, const nlohmann::json& extra) {
  if (!extra.is_object()) return;
  for (const auto& [key, value] : extra.items()) {
    const auto found = written.find(key);
    if (found == written.end())
      written[key] = value;
    else if (found->is_object())
      addExtra(*found, value);
  }
}

}  // namespace rackside
