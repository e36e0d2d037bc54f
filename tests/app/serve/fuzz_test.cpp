// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/fuzz_test.h"

#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <QBuffer>
#include <QImage>
#include <QTest>
#include <atomic>
#include <random>
#include <thread>

#include "app/serve/secret.h"
#include "core/storage/json_forms.h"
#include "tests/app/bench_rack.h"
#include "tests/app/serve/served.h"

namespace rackside::serve {

namespace {

int wished(const char* variable, int usual) {
  const int wish = qEnvironmentVariableIntValue(variable);
  return wish > 0 ? wish : usual;
}

// Bytes flipped, cut, doubled, moved, and pieces that parsers stumble over put in.
QByteArray mutated(QByteArray bytes, std::mt19937& random) {
  static const char* const pieces[] = {"\r\n",
                                       "\r\n\r\n",
                                       "\n",
                                       "\r",
                                       ":",
                                       " ",
                                       "\t",
                                       "%00",
                                       "%2e%2e%2f",
                                       "../",
                                       "Content-Length: 9",
                                       "Content-Length: -1",
                                       "Transfer-Encoding: chunked",
                                       "Host: x",
                                       "HTTP/9.9",
                                       "0",
                                       "18446744073709551616",
                                       "Upgrade: websocket",
                                       "Cookie: rackside=",
                                       "[[[[",
                                       "{\"a\":",
                                       "\xff\xfe",
                                       "POST",
                                       "GET /"};
  const auto below = [&](size_t n) {
    return n == 0 ? 0 : std::uniform_int_distribution<size_t>(0, n - 1)(random);
  };
  for (size_t steps = 1 + below(6); steps > 0; --steps) {
    const auto at = qsizetype(below(size_t(bytes.size()) + 1));
    switch (below(6)) {
      case 0:
        if (at < bytes.size()) bytes[at] = char(below(256));
        break;
      case 1:
        bytes.remove(at, qsizetype(below(20)));
        break;
      case 2:
        bytes.insert(at, pieces[below(std::size(pieces))]);
        break;
      case 3:
        bytes.truncate(at);
        break;
      case 4:
        bytes.insert(at,
                     bytes.mid(qsizetype(below(size_t(bytes.size()) + 1)), qsizetype(below(60))));
        break;
      default:
        if (at < bytes.size()) bytes[at] = char(bytes[at] ^ (1 << below(8)));
    }
  }
  return bytes;
}

// A blocking client of its own, so that the server's loop stays free for the server. A request that
// was cut short is closed by its sender, as a phone that went out of reach.
void sendRaw(quint16 port, const QByteArray& bytes) {
  const int s = ::socket(AF_INET, SOCK_STREAM, 0);
  const timeval patience{2, 0};
  ::setsockopt(s, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(port);
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  char answer[4096];
  if (::connect(s, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0 &&
      ::send(s, bytes.constData(), size_t(bytes.size()), MSG_NOSIGNAL) >= 0) {
    ::shutdown(s, SHUT_WR);
    while (::recv(s, answer, sizeof answer, 0) > 0) {
    }
  }
  ::close(s);
}

// What a phone sends, one of each.
std::vector<QByteArray> examples(Served& served) {
  const Board board = served.stored().boards[1];
  const auto id = QByteArray::fromStdString(board.id.text);
  const QByteArray job(32, 'a');
  Browser& phone = served.phone();
  const QByteArray boardJson = "{\"board\":\"" + id + "\",";
  return {
      phone.request("GET", "/", {}),
      phone.request("GET", "/state?since=1", {}),
      phone.request("GET", "/board?id=" + id, {}),
      phone.request("GET", "/seen?number=1&job=" + job, {}),
      phone.request("GET", "/face?wide=300&picture=p&board=" + id, {}),
      phone.request("POST", "/enter", "{\"code\":\"" + job + "\"}"),
      phone.request("POST", "/photo?number=1&board=7&job=" + job,
                    QByteArray("\xFF\xD8\xFF\xE0", 4) + QByteArray(300, 'x')),
      phone.request("POST", "/again", "{\"job\":\"" + job + "\",\"words\":{\"board\":\"8\"}}"),
      phone.request("POST", "/keep", "{\"job\":\"" + job + "\",\"words\":{}}"),
      phone.request("POST", "/drop", "{\"job\":\"" + job + "\"}"),
      phone.request("POST", "/fields", boardJson + "\"words\":{\"moisture\":\"999\"}}"),
      phone.request("POST", "/mark",
                    boardJson + "\"kind\":\"none\",\"x0\":1,\"y0\":1,\"x1\":2,\"y1\":2}"),
      phone.request("POST", "/unmark", boardJson + "\"mark\":\"mark-0\"}"),
      phone.request("POST", "/tick", boardJson + "\"cut\":999,\"made\":true}"),
  };
}

QByteArray smallPicture(const char* format) {
  QImage photo =
      QImage::fromData(samplePhoto("photos/board-01.jpg")).scaledToWidth(2000);  // still measured
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  photo.save(&buffer, format);
  return bytes;
}

// Beside the queue's own folder.
std::set<std::string> outsideTheQueue(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const std::string& name : namesBelow(folder))
    if (name.find("rack/.phone/") != 0) names.insert(name);
  return names;
}

}  // namespace

void FuzzTest::requests() {
  Served served(tests::benchRack(), [](ServeOptions& o) {
    o.workerProgram = "/bin/true";  // what is looked at are the requests
    o.gate.connections = o.gate.connectionsOfOne = 1000;
    o.codesPerSecond = o.codesAtOnce = 1e6;
  });
  const auto around = outsideTheQueue(served.around());
  const Rack before = served.stored();
  const std::vector<QByteArray> all = examples(served);
  const int wish = wished("RACKSIDE_FUZZ_REQUESTS", 1000);
  std::atomic<int> left = wish, done = 0;
  std::vector<std::thread> senders;
  for (unsigned seed = 0; seed < 4; ++seed)
    senders.emplace_back([&, seed, port = served.phone().port()] {
      std::mt19937 random(seed);
      while (left-- > 0) {
        sendRaw(port, mutated(all[random() % all.size()], random));
        ++done;
      }
    });
  while (done < wish) QCoreApplication::processEvents(QEventLoop::AllEvents, 20);
  for (std::thread& sender : senders) sender.join();
  QCOMPARE(served.phone().get("/state").status, 200);
  QVERIFY(outsideTheQueue(served.around()) == around);
  const Rack after = served.stored();
  QCOMPARE(after.boards.size(), before.boards.size());
  for (const Board& board : before.boards) QVERIFY(after.findBoard(board.id));
}

void FuzzTest::pictures() {
  Served served({}, [](ServeOptions& o) { o.queue.jobs = 100000; });
  const auto around = outsideTheQueue(served.around());
  const std::vector<QByteArray> whole{smallPicture("JPG"), smallPicture("PNG")};
  std::mt19937 random(7);
  int failed = 0, measured = 0;
  for (int i = wished("RACKSIDE_FUZZ_PICTURES", 3); i > 0; --i) {
    QByteArray bytes = whole[random() % whole.size()];
    for (size_t k = random() % 8; k > 0; --k) bytes = mutated(bytes, random);
    // The first bytes decide whether it is looked at at all; that is not what is asked here.
    bytes.replace(0, 8, whole[bytes.startsWith("\x89") ? 1 : 0].left(8));
    const std::string id = served.upload(bytes);
    QVERIFY(!id.empty());
    const auto job = served.waitFor(id);
    QVERIFY(job["state"] == "failed" || job["state"] == "measured");
    job["state"] == "failed" ? ++failed : ++measured;
    QCOMPARE(served.phone().post("/drop", nlohmann::json{{"job", id}}).status, 200);
  }
  qInfo("%d measured, %d refused", measured, failed);
  QVERIFY(outsideTheQueue(served.around()) == around);
  QVERIFY(served.stored().boards.empty());
  QVERIFY(std::filesystem::is_empty(served.folder() / ".phone"));
}

}  // namespace rackside::serve
