// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/suggest_test.h"

#include <QPainter>
#include <QPushButton>
#include <QSignalSpy>
#include <algorithm>

#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/geometry/polygon.h"
#include "core/storage/rack_folder.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

made::RackWish bare() {
  made::RackWish w;
  w.boards = 1;
  w.mmPerPx = 1;
  w.marksPerBoard = 0;
  return w;
}

Mark suggested(const char* id, double x, double y, double confidence) {
  Mark m;
  m.id.text = id;
  m.kind = MarkKind::knot;
  m.onA = Ellipse{{x, y}, 12, 9, 0};
  m.confidence = confidence;
  return m;
}

// Four suggestions along the board in view.
void suggestFour(WindowFixture& f) {
  const Rect b = bounds(f.board().outline.polygon());
  const double y = (b.y0 + b.y1) / 2, step = b.width() / 5;
  QVERIFY(f.document().perform(suggestMarks(
      f.board().id, MarkAuthor::proposal,
      {suggested("s1", b.x0 + step, y, 0.95), suggested("s2", b.x0 + 2 * step, y, 0.65),
       suggested("s3", b.x0 + 3 * step, y, 0.85), suggested("s4", b.x0 + 4 * step, y, 0.7)})));
}

const Mark& markOf(WindowFixture& f, const char* id) {
  const Mark* m = f.board().findMark(MarkId{id});
  if (!m) throw std::runtime_error(std::string("no mark ") + id);
  return *m;
}

std::string inHand(WindowFixture& f) {
  return f.window().choice().mark().text;
}

bool waitForTheLook(WindowFixture& f) {
  SuggestSession& session = f.window().boardPage().suggestions().session();
  QSignalSpy done(&session, &SuggestSession::finished), failed(&session, &SuggestSession::failed);
  f.key(Qt::Key_G);
  return (done.count() > 0 || done.wait(60000)) && failed.isEmpty();
}

}  // namespace

void SuggestTest::looksAtThePictureAndSuggests() {
  made::RackWish wish = bare();
  wish.mmPerPx = 0.5;
  WindowFixture f(wish);
  const Picture* picture = f.board().newestPicture(Face::A);
  QVERIFY(picture);
  const QString file = qtPath(f.document().pictureFile(f.board(), *picture));
  const auto t = picture->boardFromPicture;
  QImage image(file);
  const QPoint knot(image.width() / 3, image.height() / 2);
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(QColor(74, 48, 30));
  painter.drawEllipse(knot, 26, 18);
  painter.setBrush(QColor(32, 20, 12));
  painter.drawEllipse(knot, 14, 10);
  painter.end();
  // As soft as a photograph.
  image = image.scaled(image.size() / 2, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
              .scaled(image.size(), Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
  QVERIFY(image.save(file, "JPEG", 95));
  QVERIFY(waitForTheLook(f));
  const Point at{t[0] * knot.x() + t[1] * knot.y() + t[2],
                 t[3] * knot.x() + t[4] * knot.y() + t[5]};
  const auto& marks = f.board().marks;
  QVERIFY(std::any_of(marks.begin(), marks.end(), [&](const Mark& m) {
    const Polygons shape = m.onA ? polygonsOf(*m.onA) : Polygons{};
    return !m.confirmed && !shape.empty() && contains(shape.front(), at);
  }));
  f.document().undo();  // the look is one step
  QVERIFY(f.board().marks.empty());
}

void SuggestTest::oneKeyTakesOneKeyRefuses() {
  WindowFixture f(bare());
  suggestFour(f);
  f.key(Qt::Key_Y);  // nothing in hand yet: the first comes to hand, to be seen before it is taken
  QCOMPARE(inHand(f), std::string("s1"));
  QVERIFY(!markOf(f, "s1").confirmed);
  f.key(Qt::Key_Y);
  QVERIFY(markOf(f, "s1").confirmed);
  QCOMPARE(inHand(f), std::string("s2"));
  f.key(Qt::Key_N);
  QVERIFY(!f.board().findMark(MarkId{"s2"}));
  QCOMPARE(f.board().refused.size(), size_t{1});
  QCOMPARE(inHand(f), std::string("s3"));
  f.document().undo();
  QVERIFY(!markOf(f, "s2").confirmed);
  QVERIFY(f.board().refused.empty());
  f.document().undo();
  QVERIFY(!markOf(f, "s1").confirmed);
}

void SuggestTest::takesAllThatAreSureEnoughInOneStep() {
  WindowFixture f(bare());
  suggestFour(f);
  f.key(Qt::Key_Y, Qt::ShiftModifier);
  for (const char* id : {"s1", "s3"}) QVERIFY(markOf(f, id).confirmed);
  for (const char* id : {"s2", "s4"}) QVERIFY(!markOf(f, id).confirmed);
  f.document().undo();
  for (const char* id : {"s1", "s2", "s3", "s4"}) QVERIFY(!markOf(f, id).confirmed);
}

void SuggestTest::whatWasRefusedStaysAway() {
  WindowFixture f(bare());
  suggestFour(f);
  f.window().choice().setMark(MarkId{"s2"});
  f.key(Qt::Key_N);
  suggestFour(f);
  QVERIFY(!f.board().findMark(MarkId{"s2"}));
  QCOMPARE(f.board().marks.size(), size_t{3});
}

void SuggestTest::panelAndDeleteSettleToo() {
  WindowFixture f(bare());
  suggestFour(f);
  f.window().choice().setMark(MarkId{"s4"});
  auto* remove = f.find<QPushButton>("markRemove");
  QVERIFY(remove && remove->isVisible());
  QTest::mouseClick(remove, Qt::LeftButton);
  QCOMPARE(f.board().refused.size(), size_t{1});
  f.window().choice().setMark(MarkId{"s3"});
  f.key(Qt::Key_1);
  f.key(Qt::Key_Delete);
  QCOMPARE(f.board().refused.size(), size_t{2});
}

}  // namespace rackside
