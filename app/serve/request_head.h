// SPDX-License-Identifier: GPL-3.0-or-later
// The head of a request, read more strictly than the grammar of HTTP (RFC 9110, RFC 9112) asks:
// what our page never sends is refused before anything else looks at it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace rackside::serve {

struct Refusal {
  int status = 400;
  std::string words;  // what is wrong and what to do
};

struct RequestHead {
  std::string method;  // GET or POST
  std::string path;    // without the query
  std::string host;
  std::optional<std::string> origin;
  std::optional<std::string> fetchSite;  // Sec-Fetch-Site
  std::string token;                     // of our cookie, may be empty
  size_t bodyBytes = 0;
};

inline constexpr const char* kCookie = "rackside";

// `bytes` ends with the empty line. Refused: other methods, bodies of unknown length, a line that
// is no header, one that decides something twice, an upgrade to another protocol.
std::variant<RequestHead, Refusal> readRequestHead(std::string_view bytes);

}  // namespace rackside::serve
