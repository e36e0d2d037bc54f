// SPDX-License-Identifier: GPL-3.0-or-later
// What the phone says, checked: nothing of it is taken on trust.
#pragma once

#include <QByteArray>
#include <functional>
#include <nlohmann/json.hpp>

#include "app/serve/phone_job.h"
#include "core/base/length.h"

namespace rackside::serve {

// `field` gives the text typed for board, species, place, thickness, moisture.
Result<BoardWords> readWords(const std::function<std::string(const char*)>& field, UnitSystem bare);
Result<BoardWords> readWords(const nlohmann::json& words, UnitSystem bare);

// The body of a request as an object; null when it is none.
nlohmann::json objectOf(const QByteArray& body);
std::string textOf(const nlohmann::json& object, const char* key);

// A worker's result with nothing but what it promises; {"ok": false, …} when it broke the promise.
nlohmann::json checkedResult(const nlohmann::json& result, PhoneJob::What what);

}  // namespace rackside::serve
