// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/rack_test.h"

#include <QApplication>
#include <QDoubleSpinBox>
#include <QElapsedTimer>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <cmath>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "core/document/edits.h"
#include "core/storage/rack_folder.h"
#include "tests/app/window/loop_watchdog.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

made::RackWish wish(int boards) {
  made::RackWish w;
  w.boards = boards;
  w.mmPerPx = 3;
  return w;
}

// Relative luminance and contrast of WCAG 2.1 (definitions of "relative luminance" and "contrast
// ratio").
double luminance(const QColor& colour) {
  const auto linear = [](double v) {
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
         0.0722 * linear(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

}  // namespace

void RackTest::emptyWindowTeaches() {
  MainWindow window;
  window.show();
  QVERIFY(window.findChild<QPushButton*>(QStringLiteral("welcomeOpen"))->isVisible());
  QVERIFY(window.findChild<QPushButton*>(QStringLiteral("welcomeSample"))->isVisible());
  bool cards = false;
  for (const QLabel* label : window.findChildren<QLabel*>())
    cards = cards || (label->isVisible() && label->text().contains(QLatin1String("Print cards")));
  QVERIFY(cards);
}

void RackTest::brokenRackIsToldAndNothingIsLost() {
  WindowFixture fixture(wish(2));
  QTemporaryDir broken;
  QFile file(broken.filePath(QStringLiteral("parts.json")));
  QVERIFY(file.open(QIODevice::WriteOnly));
  file.write("{ \"format\": ");
  file.close();
  QSignalSpy failed(&fixture.document(), &Document::openFailed);
  fixture.window().openRack(broken.path());
  QVERIFY(failed.wait(5000));
  QVERIFY(!failed.first().first().toString().isEmpty());
  QCOMPARE(fixture.document().rack().boards.size(), size_t{2});  // what was open stays open
  QVERIFY(fixture.find<QLabel>("message")->isVisible());
}

void RackTest::listShowsEveryBoard() {
  WindowFixture fixture(wish(7));
  QCOMPARE(fixture.window().rackPanel().list().model()->rowCount(), 7);
  QVERIFY(!fixture.window().choice().board().empty());
  QVERIFY(fixture.view().isVisible());
}

void RackTest::findsByTagAndWords() {
  WindowFixture fixture(wish(9));
  auto& panel = fixture.window().rackPanel();
  QTest::keyClick(&fixture.window(), Qt::Key_F, Qt::ControlModifier);
  QVERIFY(panel.search().hasFocus());
  QTest::keyClicks(&panel.search(), QStringLiteral("4"));
  QCOMPARE(panel.list().model()->rowCount(), 1);
  panel.search().clear();
  QTest::keyClicks(&panel.search(), QStringLiteral("cherry"));
  int cherry = 0;
  for (const Board& b : fixture.document().rack().boards) cherry += b.species == "cherry";
  QCOMPARE(panel.list().model()->rowCount(), cherry);
}

void RackTest::sortsLongestFirst() {
  WindowFixture fixture(wish(9));
  auto& panel = fixture.window().rackPanel();
  for (QComboBox* box : panel.findChildren<QComboBox*>())
    if (const int at = box->findText(QStringLiteral("longest first")); at >= 0)
      box->setCurrentIndex(at);
  QTest::keyClick(&panel.list(), Qt::Key_Home);
  double longest = 0;
  for (const Board& b : fixture.document().rack().boards)
    longest = std::max(longest, b.lengthMm.value);
  QCOMPARE(fixture.board().lengthMm.value, longest);
}

void RackTest::pageKeysWalkThroughBoards() {
  WindowFixture fixture(wish(3));
  QCOMPARE(*fixture.board().tag, 1);
  fixture.key(Qt::Key_PageDown);
  QCOMPARE(*fixture.board().tag, 2);
  fixture.key(Qt::Key_PageDown);
  fixture.key(Qt::Key_PageDown);
  QCOMPARE(*fixture.board().tag, 3);
  fixture.key(Qt::Key_PageUp);
  QCOMPARE(*fixture.board().tag, 2);
}

void RackTest::unitsChangeEverywhereAndCanBeUndone() {
  WindowFixture fixture(wish(2));
  QCOMPARE(fixture.document().lengths().system, UnitSystem::millimetres);
  fixture.key(Qt::Key_U, Qt::ControlModifier);
  QCOMPARE(fixture.document().lengths().system, UnitSystem::inches);
  bool inches = false;
  for (const QLabel* label : fixture.window().findChildren<QLabel*>())
    inches = inches || label->text().contains(QLatin1Char('"'));
  QVERIFY(inches);
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  QCOMPARE(fixture.document().lengths().system, UnitSystem::millimetres);
}

void RackTest::moistureIsEnteredAndTakenBack() {
  WindowFixture fixture(wish(2));
  auto* field = fixture.find<QDoubleSpinBox>("boardMoisture");
  QVERIFY(field);
  const size_t before = fixture.board().moisture.size();
  QTest::mouseClick(field, Qt::LeftButton);
  field->selectAll();
  QTest::keyClicks(field, QStringLiteral("12.5"));
  QTest::keyClick(field, Qt::Key_Return);
  QCOMPARE(fixture.board().moisture.size(), before + 1);
  QCOMPARE(fixture.board().moisture.back().percent, 12.5);
  QCOMPARE(fixture.board().moisture.back().date.size(), size_t(10));
  // The same day's reading is mended, not added to.
  field->selectAll();
  QTest::keyClicks(field, QStringLiteral("11"));
  QTest::keyClick(field, Qt::Key_Return);
  QCOMPARE(fixture.board().moisture.size(), before + 1);
  fixture.document().undo();
  fixture.document().undo();
  QCOMPARE(fixture.board().moisture.size(), before);
}

void RackTest::editsAreSavedByThemselves() {
  WindowFixture fixture(wish(2));
  auto* name = fixture.find<QLineEdit>("boardName");
  name->setFocus();
  name->selectAll();
  QTest::keyClicks(name, QStringLiteral("Long one"));
  QTest::keyClick(name, Qt::Key_Return);
  QCOMPARE(fixture.board().name, std::string("Long one"));
  QVERIFY(!fixture.document().saved());
  QTRY_VERIFY_WITH_TIMEOUT(fixture.document().saved(), 10000);
  const auto onDisk = loadRack(pathOf(fixture.folder()));
  QVERIFY(onDisk.ok());
  QVERIFY(onDisk->findBoardNamed("Long one") != nullptr);
}

// Page Down while a field is being typed in: the words belong to the board they were typed for.
void RackTest::whatIsTypedStaysWithItsBoard() {
  WindowFixture fixture(wish(3));
  const BoardId first = fixture.board().id;
  auto* species = fixture.find<QLineEdit>("boardSpecies");
  species->setFocus();
  species->selectAll();
  QTest::keyClicks(species, QStringLiteral("bog oak"));
  QTest::keyClick(species, Qt::Key_PageDown);
  const BoardId second = fixture.board().id;
  QVERIFY(second != first);
  fixture.view().setFocus();
  QCOMPARE(fixture.document().rack().findBoard(first)->species, std::string("bog oak"));
  QVERIFY(fixture.document().rack().findBoard(second)->species != "bog oak");
}

void RackTest::unitKeyErasesNothing() {
  WindowFixture fixture(wish(1));
  auto* thickness = fixture.find<QLineEdit>("boardThickness");
  thickness->setFocus();
  thickness->selectAll();
  QTest::keyClicks(thickness, QStringLiteral("54"));
  QTest::keyClick(thickness, Qt::Key_U, Qt::ControlModifier);
  QCOMPARE(fixture.document().lengths().system, UnitSystem::inches);
  QCOMPARE(fixture.board().thicknessMm, 54.0);
  QVERIFY(thickness->text().startsWith(QLatin1String("2 1/8")));
  thickness->selectAll();
  QTest::keyClicks(thickness, QStringLiteral("two"));
  QTest::keyClick(thickness, Qt::Key_U, Qt::ControlModifier);
  QCOMPARE(thickness->text(), QStringLiteral("two"));  // not understood, and not lost
}

// A command marks a board while the window shows it: both changes stand, here and on disk.
void RackTest::changesOfAnotherProgramAreTakenIn() {
  WindowFixture fixture(wish(2));
  const auto folder = pathOf(fixture.folder());
  const BoardId id = fixture.board().id;
  QSignalSpy taken(&fixture.document(), &Document::tookIn);
  RackSnapshot snapshot;
  Rack theirs = loadRack(folder, &snapshot).value();
  theirs.findBoard(id)->place = "by the door";
  QVERIFY(saveRack(theirs, folder, &snapshot).ok());
  Board ours = fixture.board();
  ours.note = "checked";
  QVERIFY(fixture.document().perform(changeBoard(ours)).ok());
  QVERIFY(!taken.isEmpty() || taken.wait(10000));
  QCOMPARE(fixture.board().place, std::string("by the door"));
  QCOMPARE(fixture.board().note, std::string("checked"));
  QTRY_VERIFY_WITH_TIMEOUT(fixture.document().saved(), 10000);
  const Rack onDisk = loadRack(folder).value();
  QCOMPARE(onDisk.findBoard(id)->place, std::string("by the door"));
  QCOMPARE(onDisk.findBoard(id)->note, std::string("checked"));
}

// A file that cannot be replaced must not be papered over.
void RackTest::changesThatCouldNotBeWrittenAreNotCalledSaved() {
  WindowFixture fixture(wish(2));
  const auto file = boardFolder(pathOf(fixture.folder()), fixture.board().id) / "board.json";
  std::filesystem::remove(file);
  std::filesystem::create_directory(file);  // nothing can be written over it
  QSignalSpy failed(&fixture.document(), &Document::saveFailed);
  Board changed = fixture.board();
  changed.note = "checked";
  QVERIFY(fixture.document().perform(changeBoard(changed)).ok());
  QVERIFY(!failed.isEmpty() || failed.wait(10000));
  QApplication::processEvents();
  QVERIFY(!fixture.document().saved());
  QVERIFY(!fixture.document().saveNow().ok());
  QVERIFY(!fixture.document().saved());
}

// 4.5 : 1 for text (WCAG 2.1, 1.4.3), in both palettes.
void RackTest::darkKeepsTextLegible() {
  WindowFixture fixture(wish(2));
  const auto before = Theme::instance().wish();
  for (const auto wanted : {Theme::Wish::light, Theme::Wish::dark}) {
    Theme::instance().setWish(wanted);
    QCOMPARE(Theme::instance().dark(), wanted == Theme::Wish::dark);
    const Colours& c = colours();
    for (const QColor& ground : {c.page, c.card})
      for (const QColor& text : {c.ink, c.faint, c.good, c.warn, c.bad})
        QVERIFY2(contrast(text, ground) >= 4.5, qPrintable(text.name() + " on " + ground.name()));
    QVERIFY(contrast(c.onAccent, c.accent) >= 4.5);
  }
  fixture.key(Qt::Key_D, Qt::ControlModifier);
  QVERIFY(!Theme::instance().dark());
  Theme::instance().setWish(before);
}

void RackTest::threeHundredBoardsStartInASecond() {
  QTemporaryDir dir;
  made::RackWish w = wish(300);
  w.pictures = false;
  made::writeRack(pathOf(dir.path()), w);
  LoopWatchdog watchdog;
  QElapsedTimer timer;
  timer.start();
  MainWindow window;
  window.show();
  const double built = static_cast<double>(timer.nsecsElapsed()) / 1e6;
  watchdog.start();
  QSignalSpy opened(&window.document(), &Document::opened);
  window.openRack(dir.path());
  QVERIFY(opened.wait(30000));
  QApplication::processEvents();
  const auto all = timer.elapsed();
  qInfo("window built in %.0f ms, 300 boards in view after %lld ms; longest stall %.1f ms", built,
        static_cast<long long>(all), watchdog.longestStallMs());
  QCOMPARE(window.rackPanel().list().model()->rowCount(), 300);
  if (qEnvironmentVariableIsSet("RACKSIDE_TIMING")) QVERIFY(all <= 1000);
}

}  // namespace rackside
