// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/queue_test.h"

#include <sys/resource.h>
#include <unistd.h>

#include <QBuffer>
#include <QImage>
#include <QTest>
#include <csignal>
#include <fstream>

#include "app/serve/secret.h"
#include "tests/app/serve/served.h"

namespace rackside::serve {

using nlohmann::json;
namespace fs = std::filesystem;

namespace {

// Without a card: measured quickly, and found wanting.
QByteArray plainJpeg(int grey = 90) {
  QImage plain(320, 240, QImage::Format_RGB888);
  plain.fill(QColor(grey, grey, grey));
  QByteArray jpeg;
  QBuffer buffer(&jpeg);
  buffer.open(QIODevice::WriteOnly);
  plain.save(&buffer, "JPG");
  return jpeg;
}

// The server's own idea of a program that is no worker: it ends at once, or never.
void workWith(ServeOptions& options, const fs::path& script, const char* line) {
  std::ofstream(script) << "#!/bin/sh\n" << line << "\n";
  fs::permissions(script, fs::perms::owner_all);
  options.workerProgram = script.string();
}

// No file may grow beyond so many bytes: a write fails in its middle, as on a full disk.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    std::signal(SIGXFSZ, SIG_IGN);
    ::getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small{bytes, before_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
  }
  ~SmallDisk() { ::setrlimit(RLIMIT_FSIZE, &before_); }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;

 private:
  rlimit before_{};
};

double residentMb() {
  std::ifstream in("/proc/self/statm");
  double all = 0, resident = 0;
  in >> all >> resident;
  return resident * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1e6;
}

}  // namespace

void QueueTest::aRestartFindsEverything() {
  Served served;
  const std::string done = served.upload(samplePhoto("photos/board-01.jpg"), "&species=oak");
  QCOMPARE(served.waitFor(done)["state"].dump(), json("measured").dump());
  const std::string waiting = served.upload(samplePhoto("photos/board-03.jpg"));
  served.restart();  // while it is being measured
  QCOMPARE(served.job(done)["state"].dump(), json("measured").dump());
  QCOMPARE(served.job(done)["words"]["species"].dump(), json("oak").dump());
  QCOMPARE(served.waitFor(waiting)["state"].dump(), json("measured").dump());
  QCOMPARE(served.phone().post("/keep", json{{"job", done}}).status, 200);
  served.restart();
  QCOMPARE(served.job(done)["state"].dump(), json("kept").dump());
  QCOMPARE(served.stored().boards.size(), size_t(1));
}

void QueueTest::whatWasCutOffIsClearedAway() {
  Served served;
  const fs::path folder = served.folder() / ".phone" / newSecret();
  fs::create_directories(folder);
  std::ofstream(folder / "photo-1.jpg") << "half";
  served.restart();
  QVERIFY(!fs::exists(folder));
}

void QueueTest::damagedRecordsAreLeftWhereTheyAre() {
  Served served;
  const fs::path folder = served.folder() / ".phone" / newSecret();
  fs::create_directories(folder);
  for (const char* record : {"{", "[]", "{\"id\": \"x\"}", "{\"id\": 7, \"what\": []}"}) {
    std::ofstream(folder / "job.json") << record;
    served.restart();
    QVERIFY(fs::exists(folder / "job.json"));
    QVERIFY(served.phone().get("/state").json()["jobs"].empty());
  }
}

void QueueTest::aFullDiskTakesNothing() {
  Served served({}, [](ServeOptions& o) { o.queue.freeBytes = std::uintmax_t(1) << 60; });
  const auto before = namesBelow(served.around());
  const Reply reply = served.phone().post(
      "/photo?number=1&job=" + QByteArray::fromStdString(newSecret()), plainJpeg());
  QCOMPARE(reply.status, 507);
  QVERIFY(reply.say().find("disk is nearly full") != std::string::npos);
  QVERIFY(namesBelow(served.around()) == before);
}

void QueueTest::aDiskThatFillsUpLeavesNothingHalfWritten() {
  Served served;
  const QByteArray photo = samplePhoto("photos/board-01.jpg");
  const std::string id = served.upload(photo);
  QCOMPARE(served.waitFor(id)["state"].dump(), json("measured").dump());
  const auto before = namesBelow(served.around());
  {
    const SmallDisk full(100000);
    QCOMPARE(served.phone()
                 .post("/photo?number=1&job=" + QByteArray::fromStdString(newSecret()), photo)
                 .status,
             507);
    const Reply kept = served.phone().post("/keep", json{{"job", id}});
    QCOMPARE(kept.status, 409);
    QVERIFY(!kept.say().empty());
  }
  QVERIFY(served.stored().boards.empty());
  const auto after = namesBelow(served.around());
  for (const std::string& name : after)
    QVERIFY2(before.contains(name) || fs::is_directory(served.around() / name) ||
                 name == "rack/.rackside.lock",
             name.c_str());
  QCOMPARE(served.phone().post("/keep", json{{"job", id}}).status, 200);
  QCOMPARE(served.stored().boards.size(), size_t(1));
}

void QueueTest::tooManyWaitingAreRefused() {
  Served served({}, [](ServeOptions& o) { o.queue.jobs = 2; });
  QVERIFY(!served.upload(plainJpeg(1)).empty());
  const std::string second = served.upload(plainJpeg(2));
  QVERIFY(served.upload(plainJpeg(3)).empty());
  served.phone().post("/drop", json{{"job", second}});
  QVERIFY(!served.upload(plainJpeg(3)).empty());
}

void QueueTest::aWorkerThatDiesIsNotTriedForEver() {
  tests::TemporaryFolder scripts;
  Served served({}, [&](ServeOptions& o) {
    workWith(o, scripts.path() / "worker", "read line; kill -SEGV $$");
  });
  const json job = served.waitFor(served.upload(plainJpeg()), 20000);
  QCOMPARE(job["state"].dump(), json("failed").dump());
  QVERIFY(job["say"].get<std::string>().find("stop") != std::string::npos);
  QCOMPARE(served.phone().get("/state").status, 200);
  // The program itself was ended twice while this picture was being measured.
  fs::path record;
  for (const auto& entry : fs::directory_iterator(served.folder() / ".phone"))
    record = entry.path() / "job.json";
  std::ifstream in(record);
  json j = json::parse(in);
  j["state"] = "waiting";
  j["tries"] = 2;
  std::ofstream(record) << j.dump();
  served.restart();
  QCOMPARE(served.waitFor(j["id"].get<std::string>(), 20000)["state"].dump(),
           json("failed").dump());
}

void QueueTest::aWorkerThatHangsIsStopped() {
  tests::TemporaryFolder scripts;
  Served served({}, [&](ServeOptions& o) {
    workWith(o, scripts.path() / "worker", "read line; exec sleep 600");
    o.measureSeconds = 1;
  });
  const json job = served.waitFor(served.upload(plainJpeg()), 20000);
  QCOMPARE(job["state"].dump(), json("failed").dump());
  QVERIFY(job["say"].get<std::string>().find("too long") != std::string::npos);
}

void QueueTest::manyUploadsFromTwoPhones() {
  tests::TemporaryFolder scripts;
  // A worker that answers at once: what is looked at is the queue.
  Served served({}, [&](ServeOptions& o) {
    workWith(o, scripts.path() / "worker",
             "read line; echo '{\"ok\": false, \"say\": \"no card\"}'");
  });
  Browser second(served.phone().port());
  QCOMPARE(second.enter(served.code()).status, 200);
  const int wish = qEnvironmentVariableIntValue("RACKSIDE_UPLOADS");
  // As large as photographs of 12 to 24 megapixels where many are wished for.
  const qsizetype padding = wish > 0 ? 8'000'000 : 0;
  std::set<std::string> sent;
  double atFirst = 0;
  for (int i = 0; i < (wish > 0 ? wish : 40); ++i) {
    const std::string id = newSecret();
    Browser& phone = i % 2 ? second : served.phone();
    QCOMPARE(phone
                 .post("/photo?number=1&job=" + QByteArray::fromStdString(id),
                       plainJpeg(i % 200) + QByteArray(padding, ' '))
                 .status,
             200);
    sent.insert(id);
    if (i == 9) atFirst = residentMb();
  }
  qInfo("%zu uploads: memory grew by %.1f MB since the tenth", sent.size(), residentMb() - atFirst);
  QVERIFY(residentMb() - atFirst <= 50);
  for (const std::string& id : sent)
    QCOMPARE(served.waitFor(id)["state"].dump(), json("failed").dump());
  QCOMPARE(second.get("/state").json()["jobs"].size(), sent.size());
  served.restart();
  QCOMPARE(served.phone().get("/state").json()["jobs"].size(), sent.size());
}

}  // namespace rackside::serve
