// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/whole_job_test.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QRegularExpression>
#include <QSignalSpy>
#include <QSpinBox>
#include <QTranslator>
#include <QXmlStreamReader>

#include "app/window/document/look_session.h"
#include "app/window/document/plan_aim.h"
#include "app/window/look/text.h"
#include "app/window/pages/paper_page.h"
#include "app/window/pages/shop_page.h"
#include "app/window/pages/tape_dialog.h"
#include "app/window/window/action_finder.h"
#include "core/document/edits.h"
#include "core/document/pinned.h"
#include "core/geometry/polygon.h"
#include "core/plan/checker.h"
#include "core/wood/looked_over.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

QLineEdit* named(QWidget& top, const QString& name) {
  for (QLineEdit* edit : top.findChildren<QLineEdit*>())
    if (edit->accessibleName() == name) return edit;
  return nullptr;
}

void type(QLineEdit& edit, const QString& text) {
  edit.setFocus();
  edit.selectAll();
  QTest::keyClicks(&edit, text);
  QTest::keyClick(&edit, Qt::Key_Return);
}

made::RackWish bare(int boards) {
  made::RackWish wish;
  wish.boards = boards;
  wish.pictures = false;
  return wish;
}

}  // namespace

void WholeJobTest::shopSettingsAreEnteredAndReset() {
  WindowFixture fixture(bare(1));
  fixture.window().go(MainWindow::Station::shop);
  ShopPage& page = fixture.window().shopPage();
  QVERIFY(page.isVisible());
  QLineEdit* kerf = named(page, QStringLiteral("Rip kerf"));
  QVERIFY(kerf);
  type(*kerf, QStringLiteral("2.4"));
  QCOMPARE(fixture.document().rack().shop.ripKerfMm, 2.4);
  QCOMPARE(kerf->text(), QStringLiteral("2.4 mm"));
  type(*kerf, QStringLiteral("3/32\""));
  QVERIFY(std::abs(fixture.document().rack().shop.ripKerfMm - 25.4 * 3 / 32) < 1e-9);
  QLineEdit* knot = named(page, QStringLiteral("Knot"));
  QVERIFY(knot);
  type(*knot, QStringLiteral("11"));
  QCOMPARE(fixture.document().rack().shop.clearance(MarkKind::knot), 11.0);
  for (QToolButton* reset : page.findChildren<QToolButton*>())
    if (reset->accessibleName().contains(QLatin1String("Rip kerf")) &&
        !reset->accessibleName().contains(QLatin1String("First")))
      reset->click();
  QCOMPARE(fixture.document().rack().shop.ripKerfMm, Shop{}.ripKerfMm);
  fixture.document().undo();
  QVERIFY(std::abs(fixture.document().rack().shop.ripKerfMm - 25.4 * 3 / 32) < 1e-9);
}

void WholeJobTest::shopServesAnotherRack() {
  QTemporaryDir dir;
  const QString file = dir.filePath(QStringLiteral("bench.json"));
  {
    WindowFixture fixture(bare(1));
    Shop shop = fixture.document().rack().shop;
    shop.endTrimMm = 77;
    QVERIFY(fixture.document().perform(changeShop(shop)));
    fixture.window().shopPage().saveShopTo(file);
  }
  WindowFixture fixture(bare(1));
  fixture.window().shopPage().useShopFrom(file);
  QCOMPARE(fixture.document().rack().shop.endTrimMm, 77.0);
}

void WholeJobTest::boardsAreEnteredByTape() {
  WindowFixture fixture(bare(0));
  TapeDialog dialog(fixture.document());
  dialog.show();
  const auto put = [&](const char* field, const char* text) {
    dialog.findChild<QLineEdit*>(QLatin1String(field))->setText(QLatin1String(text));
  };
  put("tapeName", "41");
  QVERIFY(!dialog.addBoard());  // no length: asked for, and nothing lost
  QCOMPARE(dialog.findChild<QLineEdit*>(QStringLiteral("tapeName"))->text(), QStringLiteral("41"));
  put("tapeLength", "2.4 m");
  put("tapeLeft", "8\"");
  put("tapeThickness", "27");
  QVERIFY(dialog.addBoard());
  const Rack& rack = fixture.document().rack();
  QCOMPARE(rack.boards.size(), size_t{1});
  const Board& board = rack.boards.front();
  QCOMPARE(board.tag, std::optional<int>(41));
  QVERIFY(std::abs(board.lengthMm.value - 2400) < 1e-6);
  QVERIFY(board.lengthMm.u95 > 0);
  QVERIFY(std::abs(board.widthsMm.front().value - 203.2) < 1e-6);
  put("tapeName", "41");
  put("tapeLength", "2 m");
  put("tapeLeft", "150");
  QVERIFY(!dialog.addBoard());  // the tag is on the rack already
  fixture.document().undo();
  QVERIFY(fixture.document().rack().boards.empty());
}

void WholeJobTest::facesAreLookedOver() {
  WindowFixture fixture(made::roomy(2));
  auto* over = fixture.find<QCheckBox>("faceLookedOver");
  QVERIFY(over->isVisible() && !over->isChecked());
  const BoardId id = fixture.board().id;
  QTest::mouseClick(over, Qt::LeftButton, {}, QPoint(8, over->height() / 2));
  QVERIFY(lookedOver(*fixture.document().rack().findBoard(id), Face::A));
  QVERIFY(!lookedOver(*fixture.document().rack().findBoard(id), Face::B));
  fixture.window().choice().setFace(Face::B);
  QVERIFY(!over->isChecked());
  // It is kept with the board.
  QVERIFY(fixture.document().saveNow().ok());
  QSignalSpy opened(&fixture.document(), &Document::opened);
  fixture.window().openRack(fixture.folder());
  QVERIFY(opened.wait(20000));
  QVERIFY(lookedOver(*fixture.document().rack().findBoard(id), Face::A));
}

void WholeJobTest::aimsAreComparedAndOneIsTaken() {
  WindowFixture fixture(made::roomy(3));
  fixture.window().go(MainWindow::Station::plan);
  fixture.find<QSpinBox>("planSeconds")->setValue(2);
  PlanSession& session = fixture.window().planSession();
  QSignalSpy finished(&session, &PlanSession::finished);
  QTest::mouseClick(fixture.find<QPushButton>("planCompare"), Qt::LeftButton);
  QVERIFY(!finished.isEmpty() || finished.wait(120000));
  QCOMPARE(session.compared().size(), kPlanAims.size());
  QVERIFY(!fixture.document().rack().plan);  // compared, not yet taken
  auto* shown = fixture.find<QLabel>("planCompared");
  QVERIFY(shown->isVisible());
  for (const ComparedPlan& plan : session.compared()) {
    QVERIFY(shown->text().contains(label(plan.aim)));
    PlanRequest request;
    request.boards = fixture.document().rack().boards;
    request.parts = fixture.document().rack().parts;
    request.shop = fixture.document().rack().shop;
    QVERIFY(checkPlan(request, plan.plan).empty());
  }
  const size_t last = session.compared().size() - 1;
  const PlanAim aim = session.compared()[last].aim;
  const size_t pieces = session.compared()[last].plan.pieces.size();
  emit shown->linkActivated(QString::number(last));
  QCOMPARE(fixture.document().rack().plan->pieces.size(), pieces);
  QCOMPARE(planAim(fixture.document().rack().shop), aim);
  // Whose faces nobody has looked over is said.
  QVERIFY(fixture.find<QLabel>("planCautions")->text().contains(QLatin1String("looked over")));
}

void WholeJobTest::aPlaceChosenByItsLooksIsUsed() {
  made::RackWish wish;
  wish.boards = 3;
  wish.mmPerPx = 2;
  wish.marksPerBoard = 0;
  wish.thicknessMm = 27;
  wish.bothFaces = true;
  WindowFixture fixture(wish);
  Part part;
  part.id = PartId{newIdText("part")};
  part.name = "Top";
  part.lengthMm = 600;
  part.widthMm = 80;
  part.thicknessMm = 20;
  QVERIFY(fixture.document().perform(changeParts({part})));
  LookSession looks(fixture.document());
  std::shared_ptr<const RankedLooks> found;
  QObject::connect(&looks, &LookSession::ranked, &looks,
                   [&](const auto& ranked) { found = ranked; });
  looks.rank(part.id, *wishFromName("straight"));
  QTRY_VERIFY_WITH_TIMEOUT(found != nullptr, 120000);
  QVERIFY(!found->ranking.places.empty());
  const Placement place = found->ranking.places.front();
  PlanSession& session = fixture.window().planSession();
  QSignalSpy finished(&session, &PlanSession::finished);
  QSignalSpy failed(&session, &PlanSession::failed);
  session.placeAt(part.id, place, 2);
  QVERIFY(!finished.isEmpty() || finished.wait(60000));
  QVERIFY2(failed.isEmpty(), failed.isEmpty() ? "" : qPrintable(failed[0][0].toString()));
  const Plan& plan = *fixture.document().rack().plan;
  QCOMPARE(pinnedPieces(plan).size(), size_t{1});
  const Rect wanted = bounds(place.outline);
  bool there = false;
  for (const Piece& piece : plan.pieces)
    if (piece.id == pinnedPieces(plan).front()) {
      const Rect box = bounds(piece.outline);
      there = piece.board == place.board && piece.part == part.id &&
              std::abs(box.x0 - wanted.x0) < 0.01 && std::abs(box.y0 - wanted.y0) < 0.01;
    }
  QVERIFY(there);
}

void WholeJobTest::pagesAreCountedAndOneBoardPrinted() {
  WindowFixture fixture(made::roomy(3));
  fixture.window().go(MainWindow::Station::plan);
  fixture.find<QSpinBox>("planSeconds")->setValue(1);
  QSignalSpy finished(&fixture.window().planSession(), &PlanSession::finished);
  QTest::mouseClick(fixture.find<QPushButton>("planStart"), Qt::LeftButton);
  QVERIFY(!finished.isEmpty() || finished.wait(60000));
  fixture.window().choice().setBoard(fixture.document().rack().plan->pieces.front().board);
  fixture.window().go(MainWindow::Station::paper);
  PaperPage& page = fixture.window().paperPage();
  QTRY_VERIFY_WITH_TIMEOUT(page.pages() > 3, 60000);
  const QString all = fixture.find<QLabel>("paperCount")->text();
  QCOMPARE(all, QStringLiteral("%1 pages").arg(page.pages()));
  for (QCheckBox* box : page.findChildren<QCheckBox*>())
    if (box->text().startsWith(QLatin1String("Only"))) box->setChecked(true);
  QTRY_COMPARE_WITH_TIMEOUT(fixture.find<QLabel>("paperCount")->text(), QStringLiteral("1 page"),
                            60000);
}

void WholeJobTest::actionsAreFound() {
  WindowFixture fixture(bare(2));
  ActionFinder finder(fixture.window().findChildren<QAction*>());
  finder.show();
  auto* words = finder.findChild<QLineEdit*>(QStringLiteral("actionWords"));
  auto* list = finder.findChild<QListWidget*>(QStringLiteral("actionList"));
  const int all = list->count();
  QVERIFY(all > 30);
  QTest::keyClicks(words, QStringLiteral("inches"));
  QVERIFY(list->count() >= 1 && list->count() < all);
  QTest::keyClick(words, Qt::Key_Return);
  QTRY_COMPARE(fixture.document().lengths().system, UnitSystem::inches);
}

// Every text has its German, with the same places for figures.
void WholeJobTest::germanIsComplete() {
  QFile file(QStringLiteral(RACKSIDE_SOURCE_DIR "/app/window/translations/rackside_de.ts"));
  QVERIFY(file.open(QIODevice::ReadOnly));
  QXmlStreamReader xml(&file);
  QString source;
  int texts = 0;
  const auto places = [](const QString& text) {
    QStringList found;
    static const QRegularExpression place(QStringLiteral("%\\d"));
    for (auto it = place.globalMatch(text); it.hasNext();) found << it.next().captured();
    found.sort();
    return found;
  };
  while (!xml.atEnd()) {
    if (xml.readNext() != QXmlStreamReader::StartElement) continue;
    if (xml.name() == QLatin1String("source")) source = xml.readElementText();
    if (xml.name() != QLatin1String("translation")) continue;
    QVERIFY2(!xml.attributes().hasAttribute(QStringLiteral("type")), qPrintable(source));
    const QString german = xml.readElementText();
    QVERIFY2(!german.isEmpty(), qPrintable(source));
    QVERIFY2(places(german) == places(source), qPrintable(source));
    ++texts;
  }
  QVERIFY(!xml.hasError() && texts > 500);
  QTranslator german;
  QVERIFY(german.load(QStringLiteral(":/i18n/rackside_de.qm")));
  QCOMPARE(german.translate("rackside::MainWindow", "Photographs"), QStringLiteral("Fotos"));
}

}  // namespace rackside
