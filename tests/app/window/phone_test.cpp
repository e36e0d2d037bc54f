// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/phone_test.h"

#include <QFile>
#include <QPushButton>
#include <QSignalSpy>

#include "app/window/window/phone_window.h"
#include "tests/app/serve/browser.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

using nlohmann::json;

namespace {

// The window serves, and a phone was let in.
struct Serving {
  Serving()
      : fixture(smallRack()), phones(*fixture.window().findChild<PhoneWindow*>()), phone(start()) {
    const std::string entrance = phones.server()->entrance();
    (void)phone.enter(entrance.substr(entrance.find('#') + 1));
  }
  // So that board 12 of the samples is not on it yet.
  static made::RackWish smallRack() {
    made::RackWish wish;
    wish.boards = 3;
    return wish;
  }
  quint16 start() {
    phones.start(QStringLiteral("127.0.0.1"));
    if (!phones.serving()) qFatal("the window does not serve");
    return static_cast<quint16>(phones.server()->port());
  }
  WindowFixture fixture;
  PhoneWindow& phones;
  serve::Browser phone;
};

}  // namespace

void PhoneTest::whatThePhoneWritesIsShownAtOnceAndUndone() {
  Serving s;
  Document& document = s.fixture.document();
  const Board before = s.fixture.board();
  QSignalSpy changed(&document, &Document::changed);
  const json mark{{"board", before.id.text},
                  {"face", "A"},
                  {"kind", "knot"},
                  {"x0", 300.0},
                  {"y0", 60.0},
                  {"x1", 320.0},
                  {"y1", 70.0}};
  QCOMPARE(s.phone.post("/mark", mark).status, 200);
  QCOMPARE(changed.count(), 1);
  QCOMPARE(s.fixture.board().marks.size(), before.marks.size() + 1);
  const json fields{{"board", before.id.text}, {"words", {{"place", "loft"}}}};
  QCOMPARE(s.phone.post("/fields", fields).status, 200);
  QCOMPARE(s.fixture.board().place, std::string("loft"));
  document.undo();
  document.undo();
  QCOMPARE(s.fixture.board().place, before.place);
  QCOMPARE(s.fixture.board().marks.size(), before.marks.size());
  // The phone sees what the window does, too.
  const json sheet = s.phone.get("/board?id=" + QByteArray::fromStdString(before.id.text)).json();
  QCOMPARE(sheet["markList"].size(), before.marks.size());
}

void PhoneTest::aPhotographIsKeptOntoTheOpenRack() {
  Serving s;
  Document& document = s.fixture.document();
  const size_t boards = document.rack().boards.size();
  QFile photo(QStringLiteral(RACKSIDE_SOURCE_DIR "/samples/photos/board-12.jpg"));
  QVERIFY(photo.open(QIODevice::ReadOnly));
  const QByteArray id(32, 'a');
  QCOMPARE(s.phone.post("/photo?number=1&board=12&job=" + id, photo.readAll()).status, 200);
  const json job{{"job", id.toStdString()}, {"words", {{"board", "12"}}}};
  QTRY_COMPARE_WITH_TIMEOUT(s.phone.post("/keep", job).status, 200, 120000);
  QCOMPARE(document.rack().boards.size(), boards + 1);
  const Board* kept = document.rack().findBoardNamed("12");
  QVERIFY(kept);
  const auto picture = [&] { return document.pictureFile(*kept, kept->pictures.front()); };
  QVERIFY(std::filesystem::exists(picture()));
  QVERIFY(document.saveNow().ok());
  QVERIFY(std::filesystem::exists(picture()));
  document.undo();
  QVERIFY(!document.rack().findBoardNamed("12"));
}

void PhoneTest::itIsOffUntilStartedAndEndsWithTheRack() {
  WindowFixture fixture;
  auto& phones = *fixture.window().findChild<PhoneWindow*>();
  QVERIFY(!phones.serving());
  phones.start(QStringLiteral("127.0.0.1"));
  QVERIFY(phones.serving());
  const auto port = static_cast<quint16>(phones.server()->port());
  QCOMPARE(serve::Browser(port).get("/").status, 200);
  QSignalSpy opened(&fixture.document(), &Document::opened);
  fixture.document().open(fixture.document().folder());
  QVERIFY(opened.wait(20000));
  QVERIFY(!phones.serving());
  QCOMPARE(serve::Browser(port).get("/").status, 0);
}

}  // namespace rackside
