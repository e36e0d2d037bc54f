// SPDX-License-Identifier: GPL-3.0-or-later
// What a browser sends, byte for byte, and what comes back.
#pragma once

#include <QByteArray>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

namespace rackside::serve {

struct Reply {
  int status = 0;                            // 0: the connection ended without an answer
  std::map<QByteArray, QByteArray> headers;  // names in lower case
  QByteArray body;
  nlohmann::json json() const {
    return nlohmann::json::parse(body.begin(), body.end(), nullptr, false);
  }
  std::string say() const { return json().value("say", std::string()); }
};

// Sends the bytes to the port of this machine and reads until the other side closes.
Reply sendBytes(quint16 port, const QByteArray& bytes, int limitMs = 20000);

// A phone with our page open.
class Browser {
 public:
  explicit Browser(quint16 port) : port_(port) {}
  Reply get(const QByteArray& target);
  Reply post(const QByteArray& target, const QByteArray& body);
  Reply post(const QByteArray& target, const nlohmann::json& body);
  // As get() and post() send it; headers of that name replace ours.
  QByteArray request(const QByteArray& method, const QByteArray& target, const QByteArray& body,
                     const std::map<QByteArray, QByteArray>& headers = {}) const;
  Reply enter(const std::string& code);
  void forgetCookie() { cookie_.clear(); }
  quint16 port() const { return port_; }

 private:
  quint16 port_;
  QByteArray cookie_;
};

}  // namespace rackside::serve
