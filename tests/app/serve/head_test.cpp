// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/head_test.h"

#include <QTest>
#include <set>

#include "app/serve/admission.h"
#include "app/serve/phone_queue.h"
#include "app/serve/qr_code.h"
#include "app/serve/rate_limit.h"
#include "app/serve/request_head.h"
#include "app/serve/secret.h"
#include "app/serve/words_read.h"

namespace rackside::serve {

namespace {

int statusOf(const QByteArray& bytes) {
  const auto read = readRequestHead({bytes.constData(), size_t(bytes.size())});
  const auto* refusal = std::get_if<Refusal>(&read);
  return refusal ? refusal->status : 200;
}

}  // namespace

void HeadTest::readsWhatABrowserSends() {
  const auto read = readRequestHead(
      "POST /photo?job=1&board=a%20b HTTP/1.1\r\nHost: 10.0.0.5:4000\r\nOrigin:  http://x \r\n"
      "content-length: 123\r\nSec-Fetch-Site: same-origin\r\nCookie: a=1; rackside=tok; b=2\r\n"
      "\r\n");
  const auto* head = std::get_if<RequestHead>(&read);
  QVERIFY(head);
  QCOMPARE(head->method, std::string("POST"));
  QCOMPARE(head->path, std::string("/photo"));
  QCOMPARE(head->host, std::string("10.0.0.5:4000"));
  QCOMPARE(head->origin.value_or(""), std::string("http://x"));
  QCOMPARE(head->fetchSite.value_or(""), std::string("same-origin"));
  QCOMPARE(head->token, std::string("tok"));
  QCOMPARE(head->bodyBytes, size_t(123));
}

void HeadTest::refuses_data() {
  QTest::addColumn<QByteArray>("bytes");
  QTest::addColumn<int>("status");
  const auto row = [](const char* name, const QByteArray& bytes, int status) {
    QTest::newRow(name) << bytes << status;
  };
  row("nothing", "", 400);
  row("no request line", "\r\n\r\n", 400);
  row("other method", "DELETE / HTTP/1.1\r\n\r\n", 405);
  row("whole address", "GET http://x/ HTTP/1.1\r\n\r\n", 400);
  row("old protocol", "GET / HTTP/0.9\r\n\r\n", 505);
  row("control in the path", QByteArray("GET /a\x01 HTTP/1.1\r\n\r\n"), 400);
  row("zero in the path", QByteArray("GET /a\0b HTTP/1.1\r\n\r\n", 22), 400);
  row("long path", "GET /" + QByteArray(3000, 'a') + " HTTP/1.1\r\n\r\n", 414);
  row("chunked", "POST /keep HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\n", 411);
  row("no length", "POST /keep HTTP/1.1\r\n\r\n", 411);
  row("length twice", "POST /keep HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n", 400);
  row("length signed", "POST /keep HTTP/1.1\r\nContent-Length: +1\r\n\r\n", 400);
  row("length beyond numbers",
      "POST /keep HTTP/1.1\r\nContent-Length: 99999999999999999999999\r\n\r\n", 400);
  row("body of a GET", "GET / HTTP/1.1\r\nContent-Length: 1\r\n\r\n", 400);
  row("host twice", "GET / HTTP/1.1\r\nHost: a\r\nhost: b\r\n\r\n", 400);
  row("folded header", "GET / HTTP/1.1\r\nHost: a\r\n b\r\n\r\n", 400);
  row("space before the colon", "GET / HTTP/1.1\r\nHost : a\r\n\r\n", 400);
  row("bare line feed", "GET / HTTP/1.1\nHost: a\r\n\r\n", 505);  // part of the version
  row("line feed in a header", "GET / HTTP/1.1\r\nHost: a\nX: b\r\n\r\n", 400);
  row("upgrade", "GET / HTTP/1.1\r\nUpgrade: websocket\r\n\r\n", 417);
  row("something behind", "GET / HTTP/1.1\r\n\r\nGET / HTTP/1.1\r\n\r\n", 400);
  QByteArray many = "GET / HTTP/1.1\r\n";
  for (int i = 0; i < 100; ++i) many += "X" + QByteArray::number(i) + ": 1\r\n";
  row("too many headers", many + "\r\n", 431);
}

void HeadTest::refuses() {
  QFETCH(QByteArray, bytes);
  QFETCH(int, status);
  QCOMPARE(statusOf(bytes), status);
}

void HeadTest::findsTheTokenAmongCookies() {
  for (const auto& [cookies, token] : {std::pair<const char*, const char*>{"rackside=a", "a"},
                                       {"x=1;rackside=a", "a"},
                                       {"xrackside=b; rackside=a; rackside=c", "a"},
                                       {"rackside", ""},
                                       {";;;", ""},
                                       {"rackside=", ""}}) {
    const auto read =
        readRequestHead("GET / HTTP/1.1\r\nCookie: " + std::string(cookies) + "\r\n\r\n");
    QCOMPARE(std::get<RequestHead>(read).token, std::string(token));
  }
}

void HeadTest::secretsAreRandomAndCompared() {
  std::set<std::string> seen;
  std::array<int, 4> ones{};
  for (int i = 0; i < 1000; ++i) {
    const std::string secret = newSecret();
    QVERIFY(isSecretForm(secret));
    seen.insert(secret);
    for (size_t word = 0; word < 4; ++word)
      if (secret[word * 8] >= '8') ++ones[word];
  }
  QCOMPARE(seen.size(), size_t(1000));
  // A fair coin thrown 1000 times lies within 6 standard deviations (95) of 500.
  for (const int count : ones) QVERIFY(std::abs(count - 500) < 95);
  const std::string a = newSecret();
  std::string b = a;
  QVERIFY(sameSecret(a, b));
  b.back() = b.back() == '0' ? '1' : '0';
  QVERIFY(!sameSecret(a, b));
  QVERIFY(!sameSecret(a, a.substr(1)));
  QVERIFY(!isSecretForm("../../../../etc/passwd0123456789"));
}

void HeadTest::aCodeServesOnce() {
  Admission admission;
  const std::string code = admission.code();
  int news = 0;
  admission.onNewCode = [&] { ++news; };
  QVERIFY(!admission.enter("0123"));
  QVERIFY(!admission.enter(""));
  const auto token = admission.enter(code);
  QVERIFY(token);
  QCOMPARE(news, 1);
  QVERIFY(admission.knows(*token));
  QVERIFY(!admission.knows(code));
  QVERIFY(!admission.knows(""));
  QVERIFY(!admission.enter(code));
  QVERIFY(admission.enter(admission.code()));
  QCOMPARE(admission.phones(), size_t(2));
  QVERIFY(admission.knows(*token));
}

void HeadTest::bucketsFillAgain() {
  RateLimit limit(2, 3);
  const auto start = RateLimit::Clock::now();
  for (int i = 0; i < 3; ++i) QVERIFY(limit.allows("a", start));
  QVERIFY(!limit.allows("a", start));
  QVERIFY(limit.allows("b", start));
  QVERIFY(limit.allows("a", start + std::chrono::milliseconds(600)));
  QVERIFY(!limit.allows("a", start + std::chrono::milliseconds(600)));
}

void HeadTest::picturesAreKnownByTheirBytes() {
  QCOMPARE(pictureEnding("\xFF\xD8\xFF\xE0 and so on"), std::string(".jpg"));
  QCOMPARE(pictureEnding("\x89PNG\r\n\x1A\n and so on"), std::string(".png"));
  QCOMPARE(pictureEnding("RIFF\x01\x02\x03\x04WEBPVP8 "), std::string(".webp"));
  QCOMPARE(pictureEnding(QByteArray("\0\0\0\x18"
                                    "ftypheic",
                                    12)),
           std::string(".heic"));
  for (const char* other : {"", "GIF89a", "<svg>", "#!/bin/sh", "%PDF-1.7", "\xFF\xD8"})
    QVERIFY(pictureEnding(other).empty());
}

void HeadTest::wordsAreChecked() {
  const auto read = [](const nlohmann::json& words) {
    return readWords(words, UnitSystem::millimetres);
  };
  const auto good = read({{"board", "  7 b "}, {"thickness", "1 1/8 in"}, {"moisture", "11,5"}});
  QVERIFY(good.ok());
  QCOMPARE(good->board, std::string("7 b"));
  QCOMPARE(good->thicknessMm, 28.575);
  QCOMPARE(good->moisturePercent, 11.5);
  QVERIFY(!read({{"thickness", "thick"}}));
  QVERIFY(!read({{"thickness", "900"}}));
  QVERIFY(!read({{"moisture", "400"}}));
  QVERIFY(!read({{"board", std::string(200, 'x')}}));
  QCOMPARE(read({{"place", "a\nb"}})->place, std::string("a b"));
  QVERIFY(read(nullptr).ok());
  QVERIFY(read({{"board", 7}}).ok());  // no text: as if nothing was said
}

void HeadTest::codesForTheTerminalHaveTheirQuietZone() {
  const QImage image = qrImage("http://192.168.1.20:41234/#0123456789abcdef0123456789abcdef");
  QVERIFY(!image.isNull());
  for (int i = 0; i < image.width(); ++i)
    for (int k = 0; k < 4; ++k) QCOMPARE(qRed(image.pixel(i, k)), 255);
  // The three position marks (ISO/IEC 18004): 7 dark modules along their upper edges.
  const int last = image.width() - 5;
  for (int i = 0; i < 7; ++i) {
    QCOMPARE(qRed(image.pixel(4 + i, 4)), 0);
    QCOMPARE(qRed(image.pixel(last - i, 4)), 0);
    QCOMPARE(qRed(image.pixel(4 + i, last)), 0);
  }
  QVERIFY(qrImage("").isNull());
  const std::string lines = qrLines("a");
  QCOMPARE(int(std::count(lines.begin(), lines.end(), '\n')), (qrImage("a").height() + 1) / 2);
}

}  // namespace rackside::serve
