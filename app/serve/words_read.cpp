// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/words_read.h"

#include <QByteArray>
#include <QString>
#include <algorithm>
#include <cmath>

#include "app/serve/phone_queue.h"
#include "core/base/number_text.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"

namespace rackside::serve {
namespace {

using nlohmann::json;

constexpr size_t kLongestField = 80;          // bytes
constexpr double kThickestMm = 200;           // as ScanOptions::validate()
constexpr double kDriest = 1, kWettest = 60;  // percent, as the verb scan takes

// No line breaks and the like: the text goes into names and lists.
Result<std::string> plainField(const std::string& text, const char* what) {
  const QString read = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
  const std::string trimmed = read.simplified().toStdString();
  const bool control = std::any_of(trimmed.begin(), trimmed.end(), [](char c) {
    return static_cast<unsigned char>(c) < ' ' || c == 127;
  });
  if (trimmed.size() <= kLongestField && !control) return trimmed;
  return Error{std::string("The field ") + what + " is too long: 80 letters are enough."};
}

Result<double> thickness(const std::string& text, UnitSystem bare) {
  if (text.empty()) return 0.0;
  const auto mm = parseLengthMm(text, bare);
  if (!mm) return mm.error();
  if (*mm > 0 && *mm <= kThickestMm) return *mm;
  return Error{"The thickness must lie between 0 and 200 mm."};
}

Result<double> moisture(const std::string& text) {
  if (text.empty()) return 0.0;
  const std::optional<double> percent = numberFrom(text);
  if (percent && *percent >= kDriest && *percent <= kWettest) return *percent;
  return Error{"The moisture is a number of percent between 1 and 60, as the meter shows it."};
}

json textsOf(const json& list) {
  json texts = json::array();
  if (!list.is_array()) return texts;
  for (const json& one : list)
    if (one.is_string() && texts.size() < 20) texts.push_back(one);
  return texts;
}

const json kBroken{{"ok", false}, {"say", "The photograph could not be measured. Retake it."}};

}  // namespace

Result<BoardWords> readWords(const std::function<std::string(const char*)>& field,
                             UnitSystem bare) {
  BoardWords words;
  for (auto [text, what] : {std::pair{&words.board, "board"}, std::pair{&words.species, "species"},
                            std::pair{&words.place, "place"}}) {
    auto read = plainField(field(what), what);
    if (!read) return read.error();
    *text = std::move(read).value();
  }
  const auto thick = plainField(field("thickness"), "thickness");
  const auto wet = plainField(field("moisture"), "moisture");
  if (!thick) return thick.error();
  if (!wet) return wet.error();
  const auto mm = thickness(*thick, bare);
  if (!mm) return mm.error();
  const auto percent = moisture(*wet);
  if (!percent) return percent.error();
  words.thicknessMm = *mm;
  words.moisturePercent = *percent;
  return words;
}

Result<BoardWords> readWords(const json& words, UnitSystem bare) {
  return readWords([&](const char* key) { return textOf(words, key); }, bare);
}

json objectOf(const QByteArray& body) {
  const auto read = parseJson({body.constData(), static_cast<size_t>(body.size())});
  return read && read->is_object() ? *read : json();
}

std::string textOf(const json& object, const char* key) {
  if (!object.is_object()) return {};
  const auto at = object.find(key);
  return at != object.end() && at->is_string() ? at->get<std::string>() : std::string();
}

json checkedResult(const json& result, PhoneJob::What what) {
  if (!result.value("ok", false)) {
    const std::string say = textOf(result, "say");
    return say.empty() ? kBroken : json{{"ok", false}, {"say", say}};
  }
  if (what == PhoneJob::What::find) {
    json tags = json::array();
    if (const auto at = result.find("tags"); at != result.end() && at->is_array())
      for (const json& tag : *at)
        if (tag.is_number_unsigned() && tags.size() < 20) tags.push_back(tag);
    return {{"ok", true}, {"tags", tags}};
  }
  const auto known = result.find("known");
  const auto photos = result.find("photos");
  const auto board = result.find("board");
  if (known == result.end() || !known->is_boolean() || photos == result.end() ||
      !photos->is_number_unsigned() || board == result.end() || !boardFromJson(*board))
    return kBroken;
  return {{"ok", true},
          {"known", *known},
          {"board", *board},
          {"photos", std::min<unsigned>(photos->get<unsigned>(), kMostPhotos)},
          {"advice", textsOf(result.value("advice", json()))},
          {"warnings", textsOf(result.value("warnings", json()))}};
}

}  // namespace rackside::serve
