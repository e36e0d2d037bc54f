// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/phone_server.h"

#include <QHttpServer>
#include <QTcpSocket>
#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/serve/admission.h"
#include "app/serve/gate.h"
#include "app/serve/page.h"
#include "app/serve/rate_limit.h"
#include "app/serve/words_read.h"

namespace rackside::serve {
namespace {

using Method = QHttpServerRequest::Method;

constexpr size_t kFormBytes = 4096;
constexpr size_t kCodeBytes = 200;
const char* const kNewCode =
    "This code is used up or wrong. Look at the computer: scan the code that stands there now. If "
    "none is there, start serving again.";

void send(QHttpServerResponder& responder, const Answer& answer) {
  responder.writeStatusLine(static_cast<QHttpServerResponder::StatusCode>(answer.status));
  for (const auto& [name, value] : headersOf(answer)) responder.writeHeader(name, value);
  responder.writeBody(answer.body);
  responder.socket()->disconnectFromHost();  // once all is written
}

}  // namespace

// Nothing but these is answered.
struct PhoneServer::Route {
  const char* path;
  Method method;
  size_t bodyBytes;
  bool open;  // without a token
  std::function<Answer(PhoneServer::Inside&, const Question&)> answer;
};

class PhoneServer::Inside {
 public:
  Inside(ServedRack& rack, PhoneQueue queue, const ServeOptions& options);
  Status listen();

  Admission admission;
  const std::string& host() const { return host_; }
  int port() const { return port_; }
  const Desk& desk() const { return desk_; }

 private:
  static const std::vector<Route>& routes();
  void addRoute(const Route& route);
  std::optional<Refusal> judge(const RequestHead& head, const QHostAddress& peer);
  std::optional<Refusal> judgeOrigin(const RequestHead& head) const;
  Answer enter(const Question& q);

  ServeOptions options_;
  RateLimit requests_, codes_;
  Desk desk_;
  std::string host_;  // "192.168.1.20:41234"
  int port_ = 0;
  QHttpServer http_;
};

const std::vector<PhoneServer::Route>& PhoneServer::Inside::routes() {
  const auto desk = [](Answer (Desk::*answer)(const Question&)) {
    return [answer](Inside& s, const Question& q) { return (s.desk_.*answer)(q); };
  };
  const auto pictures = size_t(-1);  // as the options say
  static const std::vector<Route> all{
      {"/", Method::Get, 0, true, [](Inside&, const Question&) { return page(); }},
      {"/enter", Method::Post, kCodeBytes, true,
       [](Inside& s, const Question& q) { return s.enter(q); }},
      {"/state", Method::Get, 0, false, desk(&Desk::state)},
      {"/photo", Method::Post, pictures, false, desk(&Desk::photo)},
      {"/seen", Method::Get, 0, false, desk(&Desk::seen)},
      {"/again", Method::Post, kFormBytes, false, desk(&Desk::again)},
      {"/keep", Method::Post, kFormBytes, false, desk(&Desk::keep)},
      {"/drop", Method::Post, kFormBytes, false, desk(&Desk::drop)},
      {"/board", Method::Get, 0, false, desk(&Desk::board)},
      {"/face", Method::Get, 0, false, desk(&Desk::face)},
      {"/fields", Method::Post, kFormBytes, false, desk(&Desk::fields)},
      {"/mark", Method::Post, kFormBytes, false, desk(&Desk::mark)},
      {"/unmark", Method::Post, kFormBytes, false, desk(&Desk::unmark)},
      {"/tick", Method::Post, kFormBytes, false, desk(&Desk::tick)},
  };
  return all;
}

PhoneServer::Inside::Inside(ServedRack& rack, PhoneQueue queue, const ServeOptions& options)
    : options_(options),
      requests_(options.requestsPerSecond, options.requestsAtOnce),
      codes_(options.codesPerSecond, options.codesAtOnce),
      desk_(rack, std::move(queue),
            std::make_unique<MeasurePool>(QString::fromStdString(options.workerProgram),
                                          options.workers, options.measureSeconds)) {
  for (const Route& route : routes()) addRoute(route);
}

Status PhoneServer::Inside::listen() {
  auto gate = std::make_unique<Gate>(
      options_.gate,
      [this](const RequestHead& head, const QHostAddress& peer) { return judge(head, peer); },
      nullptr);
  const QHostAddress address(QString::fromStdString(options_.address));
  const auto listens = [&](int port) { return gate->listen(address, static_cast<quint16>(port)); };
  if (address.isNull() || std::none_of(options_.ports.begin(), options_.ports.end(), listens))
    return Error{"The page cannot be served on " + options_.address + ": " +
                 gate->errorString().toStdString() + "."};
  port_ = gate->serverPort();
  host_ = options_.address + ":" + std::to_string(port_);
  http_.bind(gate.release());  // owns it from here on
  return success();
}

void PhoneServer::Inside::addRoute(const Route& route) {
  http_.route(QString::fromLatin1(route.path), route.method,
              [this, &route](const QHttpServerRequest& request, QHttpServerResponder&& responder) {
                Answer answer;
                try {
                  const Question question{request.query(), request.body(),
                                          request.remoteAddress().toString().toStdString()};
                  answer = route.answer(*this, question);
                } catch (const std::exception&) {
                  answer = said(500, "The program met a fault with this. Nothing was changed.");
                }
                send(responder, answer);
              });
}

// Asked once a request, before its body is read.
std::optional<Refusal> PhoneServer::Inside::judge(const RequestHead& head,
                                                  const QHostAddress& peer) {
  if (!requests_.allows(peer.toString().toStdString()))
    return Refusal{429, "Too many requests at once. Wait a moment."};
  // A page elsewhere that has this address under a name of its own gets nothing.
  if (head.host != host_)
    return Refusal{421, "Open the page by the address that stands on the computer's screen."};
  if (auto refusal = judgeOrigin(head)) return refusal;
  const Method method = head.method == "GET" ? Method::Get : Method::Post;
  for (const Route& route : routes()) {
    if (head.path != route.path) continue;
    if (method != route.method) return Refusal{405, "This address is not asked in this way."};
    if (!route.open && !admission.knows(head.token)) return Refusal{403, kNewCode};
    if (head.bodyBytes > std::min(route.bodyBytes, options_.pictureBytes))
      return Refusal{
          413, "The photograph is too large: " + std::to_string(options_.pictureBytes / 1'000'000) +
                   " MB at most. Choose fewer megapixels in the phone's camera."};
    return std::nullopt;
  }
  return Refusal{404, "There is nothing under this address."};
}

// What writes must come from our page; what reads must not come from another's.
std::optional<Refusal> PhoneServer::Inside::judgeOrigin(const RequestHead& head) const {
  const Refusal refusal{403, "Only the page of this computer may do that."};
  const bool ours = head.origin == "http://" + host_;
  if (head.method == "POST" && !ours) return refusal;
  if (head.origin && !ours) return refusal;
  // The page itself may be opened from anywhere: from a camera that read the code, from a message.
  if (head.path != "/" && head.fetchSite && *head.fetchSite != "same-origin") return refusal;
  return std::nullopt;
}

Answer PhoneServer::Inside::enter(const Question& q) {
  if (!codes_.allows(q.caller))
    return said(429, "Too many wrong codes. Wait a minute, then scan the code anew.");
  const auto token = admission.enter(textOf(objectOf(q.body), "code"));
  if (!token) return said(403, kNewCode);
  Answer answer = said(200, "Welcome.");
  answer.cookie = QByteArray(kCookie) + "=" + QByteArray::fromStdString(*token) +
                  "; Path=/; HttpOnly; SameSite=Strict";
  return answer;
}

PhoneServer::PhoneServer(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {
  inside_->admission.onNewCode = [this] {
    if (onNewEntrance) onNewEntrance();
  };
}

PhoneServer::~PhoneServer() = default;

Result<std::unique_ptr<PhoneServer>> PhoneServer::start(ServedRack& rack,
                                                        const ServeOptions& options) {
  auto queue = PhoneQueue::open(rack.folder(), options.queue);
  if (!queue) return queue.error();
  auto inside = std::make_unique<Inside>(rack, std::move(queue).value(), options);
  if (const Status listening = inside->listen(); !listening) return listening.error();
  return std::unique_ptr<PhoneServer>(new PhoneServer(std::move(inside)));
}

int PhoneServer::port() const {
  return inside_->port();
}

std::string PhoneServer::address() const {
  return "http://" + inside_->host() + "/";
}

std::string PhoneServer::entrance() const {
  return address() + "#" + inside_->admission.code();
}

size_t PhoneServer::phones() const {
  return inside_->admission.phones();
}

const Desk& PhoneServer::desk() const {
  return inside_->desk();
}

}  // namespace rackside::serve
