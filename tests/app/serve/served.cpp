// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/served.h"

#include <QCoreApplication>
#include <QFile>
#include <QTest>

#include "app/serve/secret.h"
#include "core/storage/rack_folder.h"

namespace rackside::serve {

Served::Served(const Rack& rack, const std::function<void(ServeOptions&)>& change)
    : change_(change) {
  std::filesystem::create_directories(folder());
  if (const Status saved = saveRack(rack, folder()); !saved)
    qFatal("%s", saved.error().message.c_str());
  rack_ = serveFolder(folder());
  start();
}

void Served::start() {
  ServeOptions options;
  options.address = "127.0.0.1";
  options.workerProgram = QCoreApplication::applicationFilePath().toStdString();
  options.requestsPerSecond = options.requestsAtOnce = 1e6;
  if (change_) change_(options);
  auto server = PhoneServer::start(*rack_, options);
  if (!server) qFatal("%s", server.error().message.c_str());
  server_ = std::move(server).value();
  phone_ = std::make_unique<Browser>(quint16(server_->port()));
  if (phone_->enter(code()).status != 200) qFatal("the phone was not let in");
}

void Served::restart() {
  server_.reset();
  rack_ = serveFolder(folder());
  start();
}

Rack Served::stored() const {
  auto rack = loadRack(folder());
  if (!rack) qFatal("%s", rack.error().message.c_str());
  return std::move(rack).value();
}

std::string Served::code() const {
  const std::string entrance = server_->entrance();
  return entrance.substr(entrance.find('#') + 1);
}

std::string Served::upload(const QByteArray& picture, const QByteArray& more) {
  const std::string id = newSecret();
  const Reply reply =
      phone().post("/photo?number=1&job=" + QByteArray::fromStdString(id) + more, picture);
  if (reply.status != 200) qWarning("%d %s", reply.status, reply.say().c_str());
  return reply.status == 200 ? id : std::string();
}

nlohmann::json Served::job(const std::string& id) {
  const nlohmann::json state = phone().get("/state").json();
  for (const auto& job : state.at("jobs"))
    if (job["id"] == id) return job;
  return {};
}

nlohmann::json Served::waitFor(const std::string& id, int limitMs) {
  (void)QTest::qWaitFor(
      [&] {
        const PhoneJob* job = server_->desk().queue().find(id);
        return !job || job->state != PhoneJob::State::waiting;
      },
      limitMs);
  return job(id);
}

QByteArray samplePhoto(const char* file) {
  QFile in(QStringLiteral(RACKSIDE_SOURCE_DIR "/samples/") + QLatin1String(file));
  if (!in.open(QIODevice::ReadOnly)) qFatal("no sample photograph %s", file);
  return in.readAll();
}

double trueLengthMm(const char* file) {
  QFile in(QStringLiteral(RACKSIDE_SOURCE_DIR "/samples/truth/") + QLatin1String(file));
  if (!in.open(QIODevice::ReadOnly)) qFatal("no truth %s", file);
  const QByteArray bytes = in.readAll();
  return nlohmann::json::parse(bytes.begin(), bytes.end())["board"]["faces"]["A"]["length_mm"];
}

std::set<std::string> namesBelow(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
    names.insert(std::filesystem::relative(entry.path(), folder).string());
  return names;
}

}  // namespace rackside::serve
