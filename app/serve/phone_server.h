// SPDX-License-Identifier: GPL-3.0-or-later
// The page for phones at the rack, served on one address of the local network for as long as this
// object lives. Off by default: nobody makes one unasked.
//
// What keeps strangers out: a code of 128 random bits that is good for one phone (admission.h), the
// gate (gate.h), which lets in only the routes below, from the page itself, with the phone's
// cookie; pictures decoded in a process apart (measure_worker.h). It speaks plain HTTP: who listens
// on the network can read what is sent. The page's help says so.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "app/serve/desk.h"
#include "app/serve/gate_limits.h"

namespace rackside::serve {

// A browser keeps what it holds under address and port: photographs that a phone could not send are
// sent when the same port serves again.
inline constexpr int kUsualPort = 8741;  // no meaning; above those that need rights

struct ServeOptions {
  std::string address;        // of this machine: "192.168.1.20"
  std::vector<int> ports{0};  // the first of them that is free; 0: any
  std::string workerProgram;  // one whose main() asks isWorker()
  int workers = 2;
  int measureSeconds = 90;
  size_t pictureBytes = 40'000'000;  // of one upload: 50 megapixels as JPEG take 25 MB
  // Of one phone: a page in use asks a few times a second, a list of thumbnails fills the burst.
  double requestsPerSecond = 30, requestsAtOnce = 200;
  double codesPerSecond = 0.1, codesAtOnce = 10;
  GateLimits gate;
  PhoneQueue::Limits queue;
};

class PhoneServer {
 public:
  // Fails when the address cannot be listened on or the queue's folder cannot be made. `rack` must
  // outlive the server.
  static Result<std::unique_ptr<PhoneServer>> start(ServedRack& rack, const ServeOptions& options);
  ~PhoneServer();
  PhoneServer(const PhoneServer&) = delete;
  PhoneServer& operator=(const PhoneServer&) = delete;

  int port() const;
  std::string address() const;  // "http://192.168.1.20:41234/"
  // With the code for the next phone, behind the # that no browser sends on.
  std::string entrance() const;
  size_t phones() const;  // let in so far
  const Desk& desk() const;

  std::function<void()> onNewEntrance;  // the code was used: the next phone needs the next one

 private:
  struct Route;
  class Inside;  // Qt's network is nobody else's business
  explicit PhoneServer(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace rackside::serve
