// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_serve.h"

#include <QCoreApplication>
#include <QTimer>
#include <atomic>
#include <csignal>
#include <iostream>
#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/serve/addresses.h"
#include "app/serve/phone_server.h"
#include "app/serve/qr_code.h"

namespace rackside::command {
namespace {

constexpr int kLookForInterruptMs = 200;

struct ServeVerb {
  CommonOptions common;
  std::string on;
  int port = 0;
};

std::atomic<bool> interrupted{false};

void interrupt(int) {
  interrupted = true;
}

void stopOnInterrupt(QCoreApplication& app, QTimer& look) {
  std::signal(SIGINT, interrupt);
  std::signal(SIGTERM, interrupt);
  QObject::connect(&look, &QTimer::timeout, &app, [] {
    if (interrupted) QCoreApplication::quit();
  });
  look.start(kLookForInterruptMs);
}

void showEntrance(const serve::PhoneServer& server, bool json) {
  if (json) {
    printJson({{"address", server.address()}, {"entrance", server.entrance()}});
    return void(std::cout << std::flush);
  }
  say(server.phones() == 0 ? "Open this on the phone, which must be on the same network:"
                           : "For one more phone, which needs a code of its own:");
  say("");
  say(serve::qrLines(server.entrance()) + server.entrance());
  say("");
  say("The code serves one phone. Ctrl+C stops the page; photographs that were not kept wait.");
  std::cout << std::flush;
}

Status makeFolder(const std::string& folder) {
  std::error_code failure;
  std::filesystem::create_directories(folder, failure);
  if (!failure) return success();
  return Error{"The folder " + folder + " cannot be made: " + failure.message() + "."};
}

int run(const ServeVerb& v) {
  const auto address = serve::addressToServe(v.on);
  if (!address)
    return inputAtFault({address.error().message + (v.on.empty() ? "\nChoose with --on." : "")});
  if (const Status made = makeFolder(v.common.rack); !made) return inputAtFault(made.error());
  if (const auto rack = openRack(v.common); !rack) return inputAtFault(rack.error());
  int argc = 1;
  char name[] = "rackside";
  char* argv[] = {name, nullptr};
  QCoreApplication app(argc, argv);
  const auto rack = serve::serveFolder(std::filesystem::absolute(v.common.rack));
  serve::ServeOptions options;
  options.address = *address;
  if (v.port != 0)
    options.ports = {v.port};
  else
    options.ports = {serve::kUsualPort, 0};
  options.workerProgram = QCoreApplication::applicationFilePath().toStdString();
  const auto server = serve::PhoneServer::start(*rack, options);
  if (!server) return inputAtFault(server.error());
  const auto show = [&] { showEntrance(**server, v.common.json); };
  (*server)->onNewEntrance = show;
  show();
  QTimer look;
  stopOnInterrupt(app, look);
  QCoreApplication::exec();
  return kDone;
}

}  // namespace

VerbRun setUpServe(CLI::App& app) {
  auto v = std::make_shared<ServeVerb>();
  addRack(app, v->common);
  app.add_option("--on", v->on,
                 "The address or network interface to serve on, when there are several");
  app.add_option("--port", v->port, "The port; when left out 8741, or any that is free")
      ->check(CLI::Range(1, 65535));
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
