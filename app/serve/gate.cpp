// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/gate.h"

#include <sys/socket.h>
#include <unistd.h>

#include <QTcpSocket>
#include <QTimer>

#include "app/serve/answer.h"

namespace rackside::serve {

namespace {
constexpr int kLingerMs = 1500;  // a refused phone may still be sending: it reads the answer after
constexpr qint64 kLingerBytes = 8'000'000;
}  // namespace

QByteArray refusalBytes(const Refusal& refusal) {
  const Answer answer = said(refusal.status, refusal.words);
  QByteArray bytes = "HTTP/1.1 " + QByteArray::number(refusal.status) + " Refused\r\n";
  for (const auto& [name, value] : headersOf(answer)) bytes += name + ": " + value + "\r\n";
  return bytes + "\r\n" + answer.body;
}

// One connection, watched from its first byte to its end. It is connected to the socket before the
// HTTP server is, so it sees bytes first and can keep them from it.
class Visit : public QObject {
 public:
  Visit(Gate& gate, QTcpSocket* socket)
      : QObject(socket), gate_(gate), socket_(socket), peer_(socket->peerAddress()) {
    connect(socket, &QTcpSocket::readyRead, this, &Visit::look);
    connect(&patience_, &QTimer::timeout, this, &Visit::end);
    connect(&whole_, &QTimer::timeout, this, &Visit::end);
    patience_.setSingleShot(true);
    whole_.setSingleShot(true);
    patience_.start(gate.limits_.headSeconds * 1000);
    ++gate_.openInAll_;
    ++gate_.open_[peer_.toString()];
  }
  ~Visit() override {
    freeLongBody();
    --gate_.openInAll_;
    const auto at = gate_.open_.find(peer_.toString());
    if (at != gate_.open_.end() && --at->second == 0) gate_.open_.erase(at);
  }
  Visit(const Visit&) = delete;
  Visit& operator=(const Visit&) = delete;

 private:
  enum class State { head, body, answer };

  void look() {
    QByteArray fresh = socket_->peek(socket_->bytesAvailable());
    if (state_ == State::head) {
      fresh = readHead(fresh);
      if (state_ == State::head || refused_) return;
    }
    if (state_ == State::body) countBody(fresh.size());
    // A second request on one connection, or a body longer than was said.
    else if (!fresh.isEmpty())
      end();
  }

  // Gives back what follows the head.
  QByteArray readHead(const QByteArray& fresh) {
    head_ += fresh;
    const qsizetype end = head_.indexOf("\r\n\r\n");
    if (end < 0 || end + 4 > static_cast<qsizetype>(gate_.limits_.headBytes)) {
      if (head_.size() > static_cast<qsizetype>(gate_.limits_.headBytes))
        refuse({431, "The head of the request is too long."});
      return {};
    }
    const QByteArray after = head_.mid(end + 4);
    const auto read = readRequestHead({head_.constData(), static_cast<size_t>(end + 4)});
    if (const auto* refusal = std::get_if<Refusal>(&read)) {
      refuse(*refusal);
      return {};
    }
    judge(std::get<RequestHead>(read));
    return after;
  }

  void judge(const RequestHead& head) {
    if (const auto refusal = gate_.judge_(head, peer_)) return refuse(*refusal);
    if (head.bodyBytes >= gate_.limits_.longBody) {
      if (gate_.longBodies_ >= gate_.limits_.longBodies)
        return refuse(
            {503, "Others are sending photographs just now; this one is sent again soon."});
      ++gate_.longBodies_;
      long_ = true;
    }
    left_ = static_cast<qint64>(head.bodyBytes);
    state_ = State::body;
    patience_.start(gate_.limits_.idleSeconds * 1000);
    whole_.start(gate_.limits_.bodySeconds * 1000);
  }

  void countBody(qint64 bytes) {
    left_ -= bytes;
    if (left_ < 0) return end();
    patience_.start(gate_.limits_.idleSeconds * 1000);
    if (left_ > 0) return;
    state_ = State::answer;
    patience_.stop();
    whole_.start(gate_.limits_.answerSeconds * 1000);
  }

  void refuse(const Refusal& refusal) {
    refused_ = true;
    state_ = State::answer;
    QObject::disconnect(socket_, &QTcpSocket::readyRead, nullptr, nullptr);
    connect(socket_, &QTcpSocket::readyRead, this, &Visit::discard);
    connect(socket_, &QTcpSocket::disconnected, socket_, &QObject::deleteLater);
    socket_->readAll();
    socket_->write(refusalBytes(refusal));
    patience_.stop();
    whole_.stop();
    QTimer::singleShot(kLingerMs, this, &Visit::end);
    socket_->flush();
    ::shutdown(static_cast<int>(socket_->socketDescriptor()), SHUT_WR);
  }

  void discard() {
    discarded_ += socket_->readAll().size();
    if (discarded_ > kLingerBytes) end();
  }

  void end() {
    QObject::disconnect(socket_, &QTcpSocket::readyRead, nullptr, nullptr);
    socket_->abort();
    socket_->deleteLater();
  }

  void freeLongBody() {
    if (long_) --gate_.longBodies_;
    long_ = false;
  }

  Gate& gate_;
  QTcpSocket* socket_;
  QHostAddress peer_;
  QTimer patience_, whole_;
  QByteArray head_;
  State state_ = State::head;
  qint64 left_ = 0, discarded_ = 0;
  bool refused_ = false, long_ = false;
};

Gate::Gate(const GateLimits& limits, Judge judge, QObject* parent)
    : QTcpServer(parent), limits_(limits), judge_(std::move(judge)) {}

// The visits look at the gate until they are gone, so they go first.
Gate::~Gate() {
  qDeleteAll(findChildren<QTcpSocket*>(Qt::FindDirectChildrenOnly));
}

void Gate::incomingConnection(qintptr handle) {
  auto* socket = new QTcpSocket(this);
  if (!socket->setSocketDescriptor(handle)) {
    ::close(static_cast<int>(handle));
    delete socket;
    return;
  }
  const auto at = open_.find(socket->peerAddress().toString());
  const int ofThis = at == open_.end() ? 0 : at->second;
  if (openInAll_ >= limits_.connections || ofThis >= limits_.connectionsOfOne) {
    socket->abort();
    delete socket;
    return;
  }
  new Visit(*this, socket);  // NOLINT(cppcoreguidelines-owning-memory): the socket's child
  addPendingConnection(socket);
}

}  // namespace rackside::serve
