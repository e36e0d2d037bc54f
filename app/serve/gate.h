// SPDX-License-Identifier: GPL-3.0-or-later
// The gate before the HTTP server, which by itself takes bodies of any size for as long as anyone
// likes to send them. The gate sees every byte first: it judges the head of each request before the
// body is read, counts the body, bounds connections and times. One connection carries one request.
#pragma once

#include <QHostAddress>
#include <QTcpServer>
#include <functional>
#include <map>
#include <optional>

#include "app/serve/gate_limits.h"
#include "app/serve/request_head.h"

namespace rackside::serve {

class Gate : public QTcpServer {
 public:
  // Says why a request with this head is not let in.
  using Judge = std::function<std::optional<Refusal>(const RequestHead&, const QHostAddress&)>;
  Gate(const GateLimits& limits, Judge judge, QObject* parent);
  ~Gate() override;

 protected:
  void incomingConnection(qintptr handle) override;

 private:
  friend class Visit;
  GateLimits limits_;
  Judge judge_;
  std::map<QString, int> open_;
  int openInAll_ = 0;
  int longBodies_ = 0;
};

// A whole answer, by hand, for requests that the HTTP server never sees.
QByteArray refusalBytes(const Refusal& refusal);

}  // namespace rackside::serve
