// SPDX-License-Identifier: GPL-3.0-or-later
// A rack in a folder of its own, served on this machine, with a phone that was let in.
#pragma once

#include <functional>
#include <set>

#include "app/serve/phone_server.h"
#include "core/document/rack.h"
#include "tests/app/serve/browser.h"
#include "tests/core/support/temporary_folder.h"

namespace rackside::serve {

class Served {
 public:
  // `change` alters the options before the server starts.
  explicit Served(const Rack& rack = {},
                  const std::function<void(ServeOptions&)>& change = nullptr);
  void restart();  // as after a power cut: nothing is told to the old server

  std::filesystem::path folder() const { return folder_.path() / "rack"; }
  std::filesystem::path around() const { return folder_.path(); }
  Rack stored() const;  // what is in the rack's files
  PhoneServer& server() { return *server_; }
  Browser& phone() { return *phone_; }
  std::string code() const;

  // Sends a sample photograph as a job; waits until it is measured or has failed.
  std::string upload(const QByteArray& picture, const QByteArray& more = {});
  nlohmann::json job(const std::string& id);
  nlohmann::json waitFor(const std::string& id, int limitMs = 120000);

 private:
  void start();
  tests::TemporaryFolder folder_;
  std::function<void(ServeOptions&)> change_;
  std::unique_ptr<ServedRack> rack_;
  std::unique_ptr<PhoneServer> server_;
  std::unique_ptr<Browser> phone_;
};

QByteArray samplePhoto(const char* file);  // "photos/board-01.jpg"
double trueLengthMm(const char* file);     // "board-01.truth.json"
// Of everything below a folder.
std::set<std::string> namesBelow(const std::filesystem::path& folder);

}  // namespace rackside::serve
