// SPDX-License-Identifier: GPL-3.0-or-later
// What a route is asked and what it answers, whatever carries it.
#pragma once

#include <QByteArray>
#include <QUrlQuery>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>
#include <vector>

namespace rackside::serve {

struct Question {
  QUrlQuery query;
  QByteArray body;
  std::string caller;  // the phone's address
  std::string get(const char* name) const;
};

struct Answer {
  int status = 200;
  QByteArray type = "application/json";
  QByteArray body;
  int keepSeconds = 0;  // so long may the phone go by its copy
  QByteArray cookie;
  QByteArray policy = "default-src 'none'; frame-ancestors 'none'";
};

Answer told(const nlohmann::json& document);
// {"say": words}: for people. 200 when all went well.
Answer said(int status, const std::string& words);

// All headers of an answer, those for safety among them.
std::vector<std::pair<QByteArray, QByteArray>> headersOf(const Answer& answer);

}  // namespace rackside::serve
