// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/browser.h"

#include <QElapsedTimer>
#include <QHostAddress>
#include <QTcpSocket>
#include <QTest>

namespace rackside::serve {
namespace {

Reply parsed(const QByteArray& bytes) {
  Reply reply;
  const qsizetype end = bytes.indexOf("\r\n\r\n");
  if (!bytes.startsWith("HTTP/1.1 ") || end < 0) return reply;
  reply.status = bytes.mid(9, 3).toInt();
  for (const QByteArray& line : bytes.left(end).split('\n').mid(1)) {
    const qsizetype colon = line.indexOf(':');
    reply.headers[line.left(colon).trimmed().toLower()] = line.mid(colon + 1).trimmed();
  }
  reply.body = bytes.mid(end + 4);
  return reply;
}

}  // namespace

Reply sendBytes(quint16 port, const QByteArray& bytes, int limitMs) {
  QTcpSocket socket;
  socket.connectToHost(QHostAddress::LocalHost, port);
  if (!QTest::qWaitFor([&] { return socket.state() == QAbstractSocket::ConnectedState; }, 5000))
    return {};
  socket.write(bytes);
  QByteArray got;
  QElapsedTimer clock;
  clock.start();
  while (clock.elapsed() < limitMs && socket.state() != QAbstractSocket::UnconnectedState) {
    QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents | QEventLoop::AllEvents, 10);
    got += socket.readAll();
  }
  return parsed(got + socket.readAll());
}

QByteArray Browser::request(const QByteArray& method, const QByteArray& target,
                            const QByteArray& body,
                            const std::map<QByteArray, QByteArray>& headers) const {
  const QByteArray host = "127.0.0.1:" + QByteArray::number(port_);
  std::map<QByteArray, QByteArray> all{{"Host", host}};
  if (!cookie_.isEmpty()) all["Cookie"] = cookie_;
  if (method == "POST") {
    all["Origin"] = "http://" + host;
    all["Content-Length"] = QByteArray::number(body.size());
  }
  for (const auto& [name, value] : headers) all[name] = value;
  QByteArray bytes = method + " " + target + " HTTP/1.1\r\n";
  for (const auto& [name, value] : all)
    if (!value.isNull()) bytes += name + ": " + value + "\r\n";
  return bytes + "\r\n" + body;
}

Reply Browser::get(const QByteArray& target) {
  return sendBytes(port_, request("GET", target, {}));
}

Reply Browser::post(const QByteArray& target, const QByteArray& body) {
  return sendBytes(port_, request("POST", target, body));
}

Reply Browser::post(const QByteArray& target, const nlohmann::json& body) {
  return post(target, QByteArray::fromStdString(body.dump()));
}

Reply Browser::enter(const std::string& code) {
  Reply reply = post("/enter", nlohmann::json{{"code", code}});
  const auto cookie = reply.headers.find("set-cookie");
  if (cookie != reply.headers.end()) cookie_ = cookie->second.left(cookie->second.indexOf(';'));
  return reply;
}

}  // namespace rackside::serve
