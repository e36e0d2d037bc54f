// SPDX-License-Identifier: GPL-3.0-or-later
// What a phone has sent: photographs of one board with what the maker said of it, on their way to a
// measured board that waits for keep or retake.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "core/base/result.h"
#include "core/wood/board.h"

namespace rackside::serve {

// Typed on the phone; empty where nothing was said.
struct BoardWords {
  std::string board;  // its number or name; empty: the tag in the picture tells
  std::string species, place;
  double thicknessMm = 0;
  double moisturePercent = 0;
};

// NOLINTNEXTLINE(bugprone-exception-escape): moving JSON throws nothing, and says so
struct PhoneJob {
  enum class What { measure, find };  // find: which board is it, by its tag
  enum class State { waiting, measured, failed, kept };
  std::string id;  // made by the phone: the same picture sent twice is one
  What what = What::measure;
  Face face = Face::A;
  BoardWords words;
  int photos = 0;
  State state = State::waiting;
  int tries = 0;          // of measuring; a picture that ends the worker is not tried for ever
  std::string said;       // why it failed, or what was kept
  std::string keptBoard;  // id, once kept
  std::string day;        // ISO 8601, when it came
  nlohmann::json result;  // of the worker (measure_worker.h), once measured
};

const char* name(PhoneJob::State state);

nlohmann::json toJson(const PhoneJob& job);
Result<PhoneJob> phoneJobFromJson(const nlohmann::json& j);

// The local day, ISO 8601.
std::string today();

}  // namespace rackside::serve
