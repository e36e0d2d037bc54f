// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/answer.h"

#include <nlohmann/json.hpp>

namespace rackside::serve {

std::string Question::get(const char* name) const {
  return query.queryItemValue(QString::fromLatin1(name), QUrl::FullyDecoded).toStdString();
}

Answer told(const nlohmann::json& document) {
  Answer answer;
  // Names on the rack may hold what is no UTF-8; the phone shows a mark for it.
  answer.body = QByteArray::fromStdString(
      document.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
  return answer;
}

Answer said(int status, const std::string& words) {
  Answer answer = told({{"say", words}});
  answer.status = status;
  return answer;
}

std::vector<std::pair<QByteArray, QByteArray>> headersOf(const Answer& answer) {
  std::vector<std::pair<QByteArray, QByteArray>> headers{
      {"Content-Type", answer.type},
      {"Content-Length", QByteArray::number(answer.body.size())},
      {"Connection", "close"},
      {"Cache-Control", answer.keepSeconds > 0
                            ? "private, max-age=" + QByteArray::number(answer.keepSeconds)
                            : QByteArray("no-store")},
      {"Content-Security-Policy", answer.policy},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
  };
  if (!answer.cookie.isEmpty()) headers.emplace_back("Set-Cookie", answer.cookie);
  return headers;
}

}  // namespace rackside::serve
