// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/gate_test.h"

#include <QElapsedTimer>
#include <QTcpSocket>
#include <QTest>
#include <memory>
#include <vector>

#include "app/serve/secret.h"
#include "tests/app/serve/served.h"

namespace rackside::serve {

void GateTest::thePageIsOpenAndTheRackIsNot() {
  Served served;
  Browser stranger(served.phone().port());
  const Reply page = stranger.get("/");
  QCOMPARE(page.status, 200);
  QVERIFY(page.body.contains("<!doctype html>"));
  QVERIFY(page.body.size() <= 60000);
  QVERIFY(!page.body.contains("http://") || page.body.contains("www.w3.org/2000/svg"));
  for (const char* target : {"/state", "/board?id=a", "/seen?job=a&number=1", "/face?board=a"}) {
    const Reply reply = stranger.get(target);
    QCOMPARE(reply.status, 403);
    QVERIFY(reply.say().find("scan the code") != std::string::npos);
  }
  for (const char* target :
       {"/photo", "/keep", "/drop", "/again", "/fields", "/mark", "/unmark", "/tick"})
    QCOMPARE(stranger.post(target, QByteArray("{}")).status, 403);
}

void GateTest::theCodeServesOnePhone() {
  Served served;
  QCOMPARE(served.phone().get("/state").status, 200);
  Browser second(served.phone().port());
  const std::string code = served.code();
  QCOMPARE(second.enter(newSecret()).status, 403);
  const Reply entered = second.enter(code);
  QCOMPARE(entered.status, 200);
  const QByteArray cookie = entered.headers.at("set-cookie");
  QVERIFY(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"));
  QVERIFY(!cookie.contains(QByteArray::fromStdString(code)));
  QCOMPARE(second.get("/state").status, 200);
  QCOMPARE(served.phone().get("/state").status, 200);
  Browser third(served.phone().port());
  QCOMPARE(third.enter(code).status, 403);
  QVERIFY(served.code() != code);
}

void GateTest::onlyThePageItselfMayWrite() {
  Served served;
  const auto port = served.phone().port();
  const QByteArray body = "{}";
  const auto status = [&](const char* method, const char* target,
                          const std::map<QByteArray, QByteArray>& headers) {
    return sendBytes(port,
                     served.phone().request(method, target, method[0] == 'P' ? body : "", headers))
        .status;
  };
  QCOMPARE(status("POST", "/drop", {}), 404);  // let in; there is no such job
  QCOMPARE(status("POST", "/drop", {{"Origin", "http://elsewhere.example"}}), 403);
  QCOMPARE(status("POST", "/drop", {{"Origin", "null"}}), 403);
  QCOMPARE(status("POST", "/drop", {{"Origin", QByteArray()}}), 403);
  QCOMPARE(status("POST", "/drop", {{"Sec-Fetch-Site", "cross-site"}}), 403);
  QCOMPARE(status("GET", "/state", {{"Sec-Fetch-Site", "cross-site"}}), 403);
  QCOMPARE(status("GET", "/state", {{"Sec-Fetch-Site", "same-site"}}), 403);
  QCOMPARE(status("GET", "/state", {{"Sec-Fetch-Site", "same-origin"}}), 200);
  QCOMPARE(status("GET", "/state", {{"Origin", "http://elsewhere.example"}}), 403);
  QCOMPARE(status("GET", "/", {{"Sec-Fetch-Site", "cross-site"}}), 200);
}

// An outside page that makes its own name point here ("DNS rebinding") comes with that name.
void GateTest::onlyTheRightNameIsAnswered() {
  Served served;
  for (const char* host : {"elsewhere.example", "127.0.0.1", "localhost", ""})
    QCOMPARE(sendBytes(served.phone().port(),
                       served.phone().request("GET", "/state", {}, {{"Host", host}}))
                 .status,
             421);
  QCOMPARE(sendBytes(served.phone().port(),
                     served.phone().request("GET", "/", {}, {{"Host", QByteArray()}}))
               .status,
           421);
}

void GateTest::nothingElseIsAnswered() {
  Served served;
  for (const char* target :
       {"/index.html", "/..", "/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "//", "/state/",
        "/.phone", "/boards", "/parts.json", "/favicon.ico", "/State"})
    QCOMPARE(served.phone().get(target).status, 404);
  QCOMPARE(served.phone().get("/keep").status, 405);
  QCOMPARE(served.phone().post("/state", QByteArray("{}")).status, 405);
  QCOMPARE(served.phone().post("/", QByteArray("{}")).status, 405);
  // A job or a picture is never a path.
  for (const char* job : {"..", "../../etc", "%2e%2e%2f", "/etc/passwd", ""})
    QCOMPARE(served.phone().get(QByteArray("/seen?number=1&job=") + job).status, 404);
}

void GateTest::answersCarryTheirPolicies() {
  Served served;
  const Reply page = served.phone().get("/");
  const QByteArray policy = page.headers.at("content-security-policy");
  QVERIFY(policy.startsWith("default-src 'none'"));
  QVERIFY(policy.contains("script-src 'sha256-") && !policy.contains("unsafe"));
  QVERIFY(policy.contains("frame-ancestors 'none'") && policy.contains("form-action 'none'"));
  // The page itself holds nothing of the rack, and is wanted out of reach.
  QCOMPARE(page.headers.at("cache-control"), QByteArray("private, max-age=3600"));
  const Reply state = served.phone().get("/state"), none = served.phone().get("/none");
  for (const Reply& reply : {state, none})
    QCOMPARE(reply.headers.at("cache-control"), QByteArray("no-store"));
  for (const Reply& reply : {page, state, none}) {
    QCOMPARE(reply.headers.at("x-content-type-options"), QByteArray("nosniff"));
    QVERIFY(reply.headers.contains("content-security-policy"));
    QVERIFY(!reply.headers.contains("access-control-allow-origin"));
  }
}

void GateTest::longHeadsAreCutOff() {
  Served served;
  const auto port = served.phone().port();
  QCOMPARE(sendBytes(port, "GET / HTTP/1.1\r\nX: " + QByteArray(20000, 'a') + "\r\n\r\n").status,
           431);
  QCOMPARE(sendBytes(port, QByteArray(100000, 'a')).status, 431);
  QCOMPARE(served.phone().get("/state").status, 200);
}

void GateTest::slowSendersAreCutOff() {
  Served served({}, [](ServeOptions& o) { o.gate.headSeconds = o.gate.idleSeconds = 1; });
  const auto port = served.phone().port();
  QElapsedTimer clock;
  clock.start();
  QCOMPARE(sendBytes(port, "GET / HTT").status, 0);
  QVERIFY(clock.elapsed() < 4000);
  const QByteArray whole = served.phone().request("POST", "/keep", QByteArray(1000, ' '));
  clock.start();
  QCOMPARE(sendBytes(port, whole.left(whole.size() - 1)).status, 0);
  QVERIFY(clock.elapsed() < 4000);
  QCOMPARE(served.phone().get("/state").status, 200);
}

void GateTest::largeBodiesAreRefusedBeforeTheyCome() {
  Served served({}, [](ServeOptions& o) { o.pictureBytes = 1'000'000; });
  const auto head = [&](const char* target, qsizetype bytes) {
    QByteArray text = served.phone().request("POST", target, QByteArray(bytes, ' '));
    return text.left(text.size() - bytes);  // not a byte of the body
  };
  const Reply large = sendBytes(served.phone().port(), head("/photo", 1'000'001));
  QCOMPARE(large.status, 413);
  QVERIFY(large.say().find("1 MB at most") != std::string::npos);
  QCOMPARE(sendBytes(served.phone().port(), head("/keep", 5000)).status, 413);
  QCOMPARE(sendBytes(served.phone().port(), head("/enter", 500)).status, 413);
}

void GateTest::oneConnectionCarriesOneRequest() {
  Served served;
  const QByteArray one = served.phone().request("POST", "/drop", "{}");
  const Reply longer = sendBytes(served.phone().port(), one + "more than was said");
  QVERIFY(longer.status == 0);
  // Two in one go: the second is not carried out.
  const QByteArray two = served.phone().request("GET", "/state", {});
  const Reply first = sendBytes(served.phone().port(), two + two);
  QVERIFY(first.status != 200 || first.body.count("HTTP/1.1") == 0);
  QCOMPARE(served.phone().get("/state").status, 200);
}

void GateTest::callersAreBounded() {
  Served served({}, [](ServeOptions& o) { o.gate.connectionsOfOne = 5; });
  std::vector<std::unique_ptr<QTcpSocket>> open;
  for (int i = 0; i < 20; ++i) {
    open.push_back(std::make_unique<QTcpSocket>());
    open.back()->connectToHost(QHostAddress::LocalHost, served.phone().port());
  }
  const auto connected = [&] {
    return std::count_if(open.begin(), open.end(), [](const auto& s) {
      return s->state() == QAbstractSocket::ConnectedState;
    });
  };
  QVERIFY(QTest::qWaitFor([&] { return connected() <= 5; }, 4000));
  open.clear();
  QVERIFY(QTest::qWaitFor([&] { return served.phone().get("/state").status == 200; }, 4000));
  Served busy({}, [](ServeOptions& o) {
    o.requestsPerSecond = 0.01;
    o.requestsAtOnce = 4;
  });
  for (int i = 0; i < 3; ++i) QCOMPARE(busy.phone().get("/state").status, 200);
  QCOMPARE(busy.phone().get("/state").status, 429);
}

void GateTest::wrongCodesAreSlowedDown() {
  Served served({}, [](ServeOptions& o) {
    o.codesAtOnce = 3;
    o.codesPerSecond = 0.01;
  });
  Browser stranger(served.phone().port());
  QCOMPARE(stranger.enter(newSecret()).status, 403);
  QCOMPARE(stranger.enter(newSecret()).status, 403);
  QCOMPARE(stranger.enter(served.code()).status, 429);
}

void GateTest::nobodyIsLetInAfterTheEnd() {
  Served served;
  const std::string code = served.code();
  Browser before = served.phone();
  served.restart();
  const QByteArray asked = before.request(
      "GET", "/state", {}, {{"Host", "127.0.0.1:" + QByteArray::number(served.phone().port())}});
  QCOMPARE(sendBytes(served.phone().port(), asked).status, 403);
  QCOMPARE(Browser(served.phone().port()).enter(code).status, 403);
}

}  // namespace rackside::serve
