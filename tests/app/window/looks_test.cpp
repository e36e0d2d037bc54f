// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/looks_test.h"

#include <QLabel>
#include <QPushButton>
#include <QSignalSpy>

#include "app/window/pages/looks_page.h"
#include "core/document/edits.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

made::RackWish seenOnBothFaces() {
  made::RackWish w;
  w.boards = 3;
  w.mmPerPx = 2;
  w.marksPerBoard = 0;
  w.thicknessMm = 27;
  w.bothFaces = true;
  return w;
}

// One part that fits every board; glued up from strips when `strips`.
void askFor(WindowFixture& fixture, bool strips) {
  Part part;
  part.id = PartId{newIdText("part")};
  part.name = "Top";
  part.lengthMm = 600;
  part.widthMm = strips ? 240 : 80;
  part.thicknessMm = 20;
  if (strips) part.glueUp = {true, 50, 90};
  QVERIFY(fixture.document().perform(changeParts({part})));
}

bool waitFor(QSignalSpy& spy) {
  return !spy.isEmpty() || spy.wait(60000);
}

}  // namespace

void LooksTest::boardsStandSideBySideBestFirst() {
  WindowFixture fixture(seenOnBothFaces());
  askFor(fixture, false);
  LooksPage& page = fixture.window().looksPage();
  std::shared_ptr<const RankedLooks> looks;
  connect(&page.session(), &LookSession::ranked, &page, [&](const auto& l) { looks = l; });
  QSignalSpy ranked(&page.session(), &LookSession::ranked);
  fixture.window().go(MainWindow::Station::looks);
  QVERIFY(waitFor(ranked));
  QVERIFY(looks != nullptr);
  QVERIFY(page.entries() >= 2);
  QCOMPARE(static_cast<size_t>(page.entries()), looks->ranking.places.size());
  for (size_t i = 0; i < looks->pictures.size(); ++i) {
    QCOMPARE(looks->pictures[i].width(), qRound(600 / looks->mmPerPx));
    if (i > 0) QVERIFY(looks->ranking.places[i].score <= looks->ranking.places[i - 1].score);
  }
  QVERIFY(page.findChild<QLabel*>(QStringLiteral("looksTitle"))->text().contains(u"Top"));
}

void LooksTest::aBoardIsShownOnTheWood() {
  WindowFixture fixture(seenOnBothFaces());
  askFor(fixture, false);
  LooksPage& page = fixture.window().looksPage();
  std::shared_ptr<const RankedLooks> looks;
  connect(&page.session(), &LookSession::ranked, &page, [&](const auto& l) { looks = l; });
  QSignalSpy ranked(&page.session(), &LookSession::ranked);
  fixture.window().go(MainWindow::Station::looks);
  QVERIFY(waitFor(ranked));
  QList<QPushButton*> buttons;
  for (QPushButton* b : page.findChildren<QPushButton*>())
    if (b->accessibleName().startsWith(u"See board")) buttons << b;
  QVERIFY(!buttons.isEmpty());
  buttons.last()->click();
  QCOMPARE(fixture.window().station(), MainWindow::Station::wood);
  QCOMPARE(fixture.window().choice().board(), looks->ranking.places.back().board);
  QCOMPARE(fixture.window().choice().face(), looks->ranking.places.back().face);
}

void LooksTest::stripsAreMovedTurnedAndTurnedOver() {
  WindowFixture fixture(seenOnBothFaces());
  askFor(fixture, true);
  LooksPage& page = fixture.window().looksPage();
  QSignalSpy laid(&page.session(), &LookSession::panelLaid);
  fixture.window().go(MainWindow::Station::looks);
  fixture.find<QCheckBox>("looksPanel")->setChecked(true);
  QVERIFY(waitFor(laid));
  PanelView& view = page.panelView();
  QCOMPARE(view.order().strips.size(), size_t(3));
  const auto before = view.order().strips;
  view.setFocus();
  QTest::keyClick(&view, Qt::Key_Up, Qt::ControlModifier);
  QCOMPARE(view.order().strips[1].strip, before[0].strip);
  QTest::keyClick(&view, Qt::Key_T);
  QCOMPARE(view.order().strips[1].turned, !before[0].turned);
  const bool over = view.order().strips[1].over;
  QTest::keyClick(&view, Qt::Key_O);
  QCOMPARE(view.order().strips[1].over, !over);
  QCOMPARE(view.order().seams.size(), size_t(2));
  // By mouse: the lowest strip to the top.
  const auto now = view.order().strips;
  const int high = view.height() / 3;
  QTest::mousePress(&view, Qt::LeftButton, {}, QPoint(60, view.height() - high / 2));
  QTest::mouseMove(&view, QPoint(60, view.height() / 2));
  QTest::mouseMove(&view, QPoint(60, high / 4));
  QTest::mouseRelease(&view, Qt::LeftButton, {}, QPoint(60, high / 4));
  QCOMPARE(view.order().strips.back().strip, now.front().strip);
}

void LooksTest::whatIsMissingIsSaid() {
  WindowFixture fixture(seenOnBothFaces());
  QVERIFY(fixture.document().perform(changeParts({})));
  fixture.window().go(MainWindow::Station::looks);
  auto* title = fixture.window().looksPage().findChild<QLabel*>(QStringLiteral("looksTitle"));
  QTRY_VERIFY(title->text().contains(u"There are no parts yet"));
}

}  // namespace rackside
