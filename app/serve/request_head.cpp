// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/request_head.h"

#include <algorithm>
#include <charconv>
#include <map>

namespace rackside::serve {
namespace {

constexpr size_t kMostLines = 64;
constexpr size_t kLongestTarget = 2000;
constexpr std::string_view kTokenMarks = "!#$%&'*+-.^_`|~";  // RFC 9110, 5.6.2, beside letters

using Headers = std::map<std::string, std::string>;

bool isLetterOrDigit(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool isToken(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return isLetterOrDigit(c) || kTokenMarks.find(c) != std::string_view::npos;
  });
}

bool isPrintable(std::string_view text, bool spaces) {
  return std::all_of(text.begin(), text.end(),
                     [spaces](char c) { return (c > ' ' && c < 127) || (spaces && c == ' '); });
}

std::string lower(std::string_view text) {
  std::string low(text);
  for (char& c : low)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return low;
}

std::string_view trimmed(std::string_view text) {
  const size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<std::string_view> nextLine(std::string_view& rest) {
  const size_t end = rest.find("\r\n");
  if (end == std::string_view::npos) return std::nullopt;
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(end + 2);
  return line;
}

std::optional<Refusal> readRequestLine(std::string_view line, RequestHead& head) {
  const size_t first = line.find(' '), last = line.rfind(' ');
  if (first == std::string_view::npos || first == last)
    return Refusal{400, "This is no request of a browser."};
  const std::string_view target = line.substr(first + 1, last - first - 1);
  const std::string_view version = line.substr(last + 1);
  if (version != "HTTP/1.1" && version != "HTTP/1.0")
    return Refusal{505, "Only HTTP 1.1 is spoken here."};
  if (target.size() > kLongestTarget) return Refusal{414, "The address is too long."};
  if (target.empty() || target.front() != '/' || !isPrintable(target, false))
    return Refusal{400, "The address is no path of this page."};
  head.method = std::string(line.substr(0, first));
  head.path = std::string(target.substr(0, target.find('?')));
  if (head.method != "GET" && head.method != "POST")
    return Refusal{405, "Only GET and POST are understood here."};
  return std::nullopt;
}

std::optional<Refusal> readHeaders(std::string_view rest, Headers& headers) {
  size_t lines = 0;
  while (const auto line = nextLine(rest)) {
    if (line->empty())
      return rest.empty() ? std::nullopt
                          : std::optional(Refusal{400, "There is something behind the head."});
    const size_t colon = line->find(':');
    if (++lines > kMostLines) return Refusal{431, "The request has too many headers."};
    if (colon == std::string_view::npos || !isToken(line->substr(0, colon)) ||
        !isPrintable(line->substr(colon + 1), true))
      return Refusal{400, "A line of the request is no header."};
    const auto [at, fresh] = headers.try_emplace(lower(line->substr(0, colon)),
                                                 std::string(trimmed(line->substr(colon + 1))));
    if (!fresh) return Refusal{400, "The header " + at->first + " stands twice."};
  }
  return Refusal{400, "The head has no end."};
}

std::optional<std::string> find(const Headers& headers, const char* name) {
  const auto at = headers.find(name);
  return at == headers.end() ? std::nullopt : std::optional(at->second);
}

std::optional<Refusal> readLength(const Headers& headers, RequestHead& head) {
  if (headers.contains("transfer-encoding") ||
      (head.method == "POST" && !headers.contains("content-length")))
    return Refusal{411, "The length of what is sent must be said first."};
  const std::string text = find(headers, "content-length").value_or("0");
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), head.bodyBytes);
  if (fault != std::errc() || end != text.data() + text.size())
    return Refusal{400, "The length of what is sent is no number."};
  if (head.method == "GET" && head.bodyBytes > 0) return Refusal{400, "A GET carries nothing."};
  return std::nullopt;
}

// "a=1; rackside=…; b=2"
std::string tokenOf(std::string_view cookies) {
  const std::string name = std::string(kCookie) + "=";
  while (!cookies.empty()) {
    const size_t end = std::min(cookies.find(';'), cookies.size());
    const std::string_view one = trimmed(cookies.substr(0, end));
    if (one.substr(0, name.size()) == name) return std::string(one.substr(name.size()));
    cookies.remove_prefix(std::min(end + 1, cookies.size()));
  }
  return {};
}

}  // namespace

std::variant<RequestHead, Refusal> readRequestHead(std::string_view bytes) {
  RequestHead head;
  std::string_view rest = bytes;
  const auto line = nextLine(rest);
  if (!line) return Refusal{400, "This is no request of a browser."};
  if (auto refusal = readRequestLine(*line, head)) return *refusal;
  Headers headers;
  if (auto refusal = readHeaders(rest, headers)) return *refusal;
  if (headers.contains("upgrade") || headers.contains("expect"))
    return Refusal{417, "Nothing but plain requests is answered here."};
  if (auto refusal = readLength(headers, head)) return *refusal;
  head.host = find(headers, "host").value_or("");
  head.origin = find(headers, "origin");
  head.fetchSite = find(headers, "sec-fetch-site");
  head.token = tokenOf(find(headers, "cookie").value_or(""));
  return head;
}

}  // namespace rackside::serve
