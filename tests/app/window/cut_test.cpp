// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/cut_test.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSignalSpy>
#include <QSpinBox>

#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/plan/checker.h"
#include "core/plan/made_cuts.h"
#include "tests/app/window/loop_watchdog.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

// A plan, and a board in view that has several cuts.
struct CutDay {
  explicit CutDay(int boards = 4) : fixture(made::roomy(boards)) {
    fixture.window().go(MainWindow::Station::plan);
    fixture.find<QSpinBox>("planSeconds")->setValue(1);
    QSignalSpy finished(&fixture.window().planSession(), &PlanSession::finished);
    QTest::mouseClick(fixture.find<QPushButton>("planStart"), Qt::LeftButton);
    if (!finished.wait(60000)) return;
    const Plan& plan = *fixture.document().rack().plan;
    for (const Board& b : fixture.document().rack().boards) {
      const auto cuts = std::count_if(plan.cuts.begin(), plan.cuts.end(),
                                      [&](const Cut& c) { return c.board == b.id; });
      if (cuts >= 4) board = b.id;
    }
    fixture.window().choice().setBoard(board);
    fixture.window().go(MainWindow::Station::cut);
    list = fixture.find<QListWidget>("cutList");
  }
  const Plan& plan() { return *fixture.document().rack().plan; }
  int made() {
    int n = 0;
    for (const Cut& c : plan().cuts) n += c.board == board && c.made ? 1 : 0;
    return n;
  }
  void clickBox(int row) {
    if (!list) return;
    const QRect at = list->visualItemRect(list->item(row));
    QStyleOptionViewItem option;
    option.initFrom(list);
    option.rect = at;
    option.features = QStyleOptionViewItem::HasCheckIndicator | QStyleOptionViewItem::HasDisplay;
    const QRect box =
        list->style()->subElementRect(QStyle::SE_ItemViewItemCheckIndicator, &option, list);
    QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, box.center());
  }
  // What the checker says against the plan as it stands.
  std::vector<Breach> breaches() {
    const Rack& rack = fixture.document().rack();
    PlanRequest request;
    request.boards = rack.boards;
    request.parts = rack.parts;
    request.shop = rack.shop;
    return checkPlan(request, plan());
  }
  bool planTheRest(const std::function<void()>& ask) {
    QSignalSpy finished(&fixture.window().planSession(), &PlanSession::finished);
    ask();
    return !finished.isEmpty() || finished.wait(60000);
  }

  WindowFixture fixture;
  BoardId board;
  QListWidget* list = nullptr;
};

}  // namespace

void CutTest::ticksByClickAndKeyAndUndoes() {
  CutDay day;
  QVERIFY(!day.board.empty());
  QVERIFY(day.list->count() >= 4);
  day.clickBox(0);
  QCOMPARE(day.made(), 1);
  QCOMPARE(day.list->currentRow(), 1);
  day.list->setFocus();
  QTest::keyClick(day.list, Qt::Key_Return);
  QCOMPARE(day.made(), 2);
  QTest::keyClick(day.list, Qt::Key_Space);
  QCOMPARE(day.made(), 3);
  QVERIFY(day.fixture.find<QLabel>("cutProgress")->text().startsWith(QLatin1String("3 of")));
  // The last one was a slip.
  day.clickBox(2);
  QCOMPARE(day.made(), 2);
  for (int left = 3; left > 0; --left) day.fixture.document().undo();
  QCOMPARE(day.made(), 1);
  day.fixture.document().redo();
  QCOMPARE(day.made(), 2);
}

void CutTest::outOfTurnIsRefusedAndSaid() {
  CutDay day;
  const Plan& plan = day.plan();
  int late = 0;  // a cut whose wood another one frees first
  for (const Cut& c : plan.cuts)
    if (c.board == day.board && c.parent) late = std::max(late, c.order);
  QVERIFY(late > 1);
  day.list->scrollToItem(day.list->item(late - 1));
  day.clickBox(late - 1);
  QCOMPARE(day.made(), 0);
  QVERIFY(day.fixture.find<QLabel>("cutRefusal")->isVisible());
  QVERIFY(!day.fixture.find<QLabel>("cutRefusal")->text().isEmpty());
  QCOMPARE(day.list->item(late - 1)->checkState(), Qt::Unchecked);
  day.clickBox(0);
  QVERIFY(!day.fixture.find<QLabel>("cutRefusal")->isVisible());
}

void CutTest::miscutPlansTheRestAnew() {
  CutDay day;
  day.clickBox(0);
  const std::string second = [&] {
    for (const Cut& c : day.plan().cuts)
      if (c.board == day.board && c.order == 2) return c.id.text;
    return std::string();
  }();
  day.list->setCurrentRow(1);
  auto* by = day.fixture.find<QLineEdit>("cutBy");
  QVERIFY(by->isVisible());
  QTest::mouseClick(by, Qt::LeftButton);
  QTest::keyClicks(by, QStringLiteral("40"));
  QVERIFY(day.planTheRest(
      [&] { QTest::mouseClick(day.fixture.find<QPushButton>("cutBack"), Qt::LeftButton); }));
  const auto cut = std::find_if(day.plan().cuts.begin(), day.plan().cuts.end(),
                                [&](const Cut& c) { return c.id.text == second; });
  QVERIFY(cut != day.plan().cuts.end());
  QVERIFY(cut->made);
  QVERIFY(cut->planned.has_value());
  QVERIFY(day.breaches().empty());
  QCOMPARE(day.made(), 2);
  day.fixture.document().undo();
  QCOMPARE(day.made(), 1);
}

void CutTest::defectPlansTheRestAnew() {
  CutDay day;
  day.clickBox(0);
  const auto piece = std::find_if(day.plan().pieces.begin(), day.plan().pieces.end(),
                                  [&](const Piece& p) { return p.board == day.board; });
  QVERIFY(piece != day.plan().pieces.end());
  const PieceId lost = piece->id;
  const Rect box = bounds(piece->outline);
  day.fixture.window().choice().setFace(piece->showFace);
  // Drawn on the board with the tools that lie there on cut day too.
  day.fixture.key(Qt::Key_3);
  const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
  const size_t marks = day.fixture.board().marks.size();
  day.fixture.drag({middle.x - 25, middle.y - 12}, {middle.x + 25, middle.y + 12});
  QCOMPARE(day.fixture.board().marks.size(), marks + 1);
  QVERIFY(day.fixture.find<QLabel>("cutTrouble")->isVisible());
  QVERIFY(day.planTheRest(
      [&] { QTest::mouseClick(day.fixture.find<QPushButton>("cutPlanRest"), Qt::LeftButton); }));
  QVERIFY(!day.fixture.find<QLabel>("cutTrouble")->isVisible());
  QVERIFY(day.breaches().empty());
  QCOMPARE(day.made(), 1);
  for (const Piece& p : day.plan().pieces)
    if (p.id == lost) QVERIFY(bounds(p.outline).x0 != box.x0 || p.board != day.board);
}

void CutTest::miscutCanBeSaidAfterPlanningTheRest() {
  CutDay day;
  day.clickBox(0);
  QVERIFY(day.planTheRest(
      [&] { QTest::mouseClick(day.fixture.find<QPushButton>("cutPlanRest"), Qt::LeftButton); }));
  day.list->setCurrentRow(1);
  for (const char* name : {"cutBack", "cutForward"})
    QVERIFY(day.fixture.find<QPushButton>(name)->isEnabled());
  QVERIFY(day.fixture.find<QLineEdit>("cutBy")->isEnabled());
}

void CutTest::doneReturnsOffcuts() {
  CutDay day;
  auto* done = day.fixture.find<QPushButton>("cutDone");
  QVERIFY(!done->isEnabled());
  while (day.made() < day.list->count()) {
    day.list->scrollToItem(day.list->item(day.made()));
    day.clickBox(day.made());
  }
  QVERIFY(done->isEnabled());
  const size_t boards = day.fixture.document().rack().boards.size();
  QTest::mouseClick(done, Qt::LeftButton);
  const Rack& rack = day.fixture.document().rack();
  QVERIFY(rack.findBoard(day.board)->cutUp);
  for (size_t i = boards; i < rack.boards.size(); ++i)
    QVERIFY(rack.boards[i].offcutOf == day.board);
  day.fixture.document().undo();
  QVERIFY(!day.fixture.document().rack().findBoard(day.board)->cutUp);
  QCOMPARE(day.fixture.document().rack().boards.size(), boards);
}

void CutTest::loopTurnsWhilePlanningTheRest() {
  CutDay day(8);
  day.clickBox(0);
  LoopWatchdog watchdog;
  QApplication::processEvents();
  watchdog.start();
  QVERIFY(day.planTheRest(
      [&] { QTest::mouseClick(day.fixture.find<QPushButton>("cutPlanRest"), Qt::LeftButton); }));
  qInfo("longest stall while planning the rest %.1f ms", watchdog.longestStallMs());
  QVERIFY(watchdog.longestStallMs() <= 50);
}

void CutTest::planTellsItsScoreAndSpareStock() {
  CutDay day;
  day.fixture.window().go(MainWindow::Station::plan);
  const auto text = [&](const char* name) { return day.fixture.find<QLabel>(name)->text(); };
  QVERIFY(day.fixture.find<QLabel>("planScore")->isVisible());
  QVERIFY(text("planScore").contains(qt(day.plan().score.front().words)));
  bool shows = false;
  for (const Spare& spare : day.plan().spares) {
    shows = true;
    if (!spare.board) continue;
    const Board* board = day.fixture.document().rack().findBoard(*spare.board);
    QVERIFY(text("planSpares").contains(qt(board->name)));
  }
  QCOMPARE(day.fixture.find<QLabel>("planSpares")->isVisible(), shows);
  // A link leads to the board.
  if (shows)
    for (const Spare& spare : day.plan().spares)
      if (spare.board) {
        emit day.fixture.find<QLabel>("planSpares")->linkActivated(qt(spare.board->text));
        QCOMPARE(day.fixture.window().choice().board(), *spare.board);
        break;
      }
}

void CutTest::planOlderThanItsPartsSaysSo() {
  constexpr int kPatienceMs = 30000;
  CutDay day;
  WindowFixture& f = day.fixture;
  const auto said = [&f](MainWindow::Station station, const char* label) {
    f.window().go(station);
    QTest::qWait(1);
    auto* shown = f.find<QLabel>(label);
    return shown->isVisible() ? shown->text() : QString();
  };
  using Station = MainWindow::Station;
  const std::vector<std::pair<Station, const char*>> places{{Station::plan, "planCautions"},
                                                            {Station::cut, "cutTrouble"},
                                                            {Station::paper, "paperPlanState"}};
  for (const auto& [station, label] : places)
    QVERIFY(!said(station, label).contains(QLatin1String("this plan")));
  // A part that is wanted once more: what is planned can still be cut.
  std::vector<Part> parts = f.document().rack().parts;
  parts[0].copies += 1;
  QVERIFY(f.document().perform(changeParts(parts)));
  for (const auto& [station, label] : places)
    QTRY_VERIFY_WITH_TIMEOUT(
        said(station, label).contains(QLatin1String("Changed since this plan: the parts list")),
        kPatienceMs);
  // All parts longer than they were planned: it no longer holds.
  for (Part& part : parts) part.lengthMm += 60;
  QVERIFY(f.document().perform(changeParts(parts)));
  QTRY_VERIFY_WITH_TIMEOUT(!said(Station::cut, "cutTrouble").isEmpty(), kPatienceMs);
  QTRY_VERIFY_WITH_TIMEOUT(
      said(Station::plan, "planCautions").contains(QLatin1String("no longer holds")), kPatienceMs);
  QTRY_VERIFY_WITH_TIMEOUT(
      said(Station::paper, "paperPlanState").contains(QLatin1String("no longer holds")),
      kPatienceMs);
}

}  // namespace rackside
