// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/phone_job.h"

#include <QDate>
#include <array>

#include "app/serve/secret.h"

namespace rackside::serve {
namespace {

constexpr std::array<const char*, 4> kStates{"waiting", "measured", "failed", "kept"};

nlohmann::json wordsJson(const BoardWords& w) {
  return {{"board", w.board},
          {"species", w.species},
          {"place", w.place},
          {"thickness_mm", w.thicknessMm},
          {"moisture_percent", w.moisturePercent}};
}

BoardWords wordsFromJson(const nlohmann::json& j) {
  return {j.at("board").get<std::string>(), j.at("species").get<std::string>(),
          j.at("place").get<std::string>(), j.at("thickness_mm").get<double>(),
          j.at("moisture_percent").get<double>()};
}

PhoneJob::State stateFromName(const std::string& text) {
  for (size_t i = 0; i < kStates.size(); ++i)
    if (text == kStates[i]) return static_cast<PhoneJob::State>(i);
  return PhoneJob::State::waiting;
}

PhoneJob jobFromJson(const nlohmann::json& j) {
  PhoneJob job;
  job.id = j.at("id").get<std::string>();
  job.what = j.at("what") == "find" ? PhoneJob::What::find : PhoneJob::What::measure;
  job.face = j.at("face") == "B" ? Face::B : Face::A;
  job.words = wordsFromJson(j.at("words"));
  job.photos = j.at("photos").get<int>();
  job.state = stateFromName(j.at("state").get<std::string>());
  job.tries = j.at("tries").get<int>();
  job.said = j.at("said").get<std::string>();
  job.keptBoard = j.at("kept_board").get<std::string>();
  job.day = j.at("day").get<std::string>();
  job.result = j.at("result");
  return job;
}

}  // namespace

const char* name(PhoneJob::State state) {
  return kStates.at(static_cast<size_t>(state));
}

nlohmann::json toJson(const PhoneJob& job) {
  return {{"id", job.id},
          {"what", job.what == PhoneJob::What::find ? "find" : "measure"},
          {"face", name(job.face)},
          {"words", wordsJson(job.words)},
          {"photos", job.photos},
          {"state", name(job.state)},
          {"tries", job.tries},
          {"said", job.said},
          {"kept_board", job.keptBoard},
          {"day", job.day},
          {"result", job.result}};
}

Result<PhoneJob> phoneJobFromJson(const nlohmann::json& j) {
  try {
    PhoneJob job = jobFromJson(j);
    if (isSecretForm(job.id)) return job;
  } catch (const nlohmann::json::exception&) {
    // falls through to the message
  }
  return Error{"This is no record of a photograph on its way."};
}

std::string today() {
  return QDate::currentDate().toString(Qt::ISODate).toStdString();
}

}  // namespace rackside::serve
