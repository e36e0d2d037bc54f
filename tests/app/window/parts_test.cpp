// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/parts_test.h"

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QPushButton>
#include <QSignalSpy>
#include <QTimer>

#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

made::RackWish small() {
  made::RackWish w;
  w.boards = 1;
  w.pictures = false;
  return w;
}

int columnOf(PartsModel& model, const QString& title) {
  for (int c = 0; c < model.columnCount(); ++c)
    if (model.headerData(c, Qt::Horizontal, Qt::DisplayRole).toString() == title) return c;
  return -1;
}

// Types into a cell as a person does: go there, type, Enter.
void type(PartsPage& page, int row, const QString& column, const QString& text) {
  QTableView& table = page.table();
  table.setFocus();
  table.setCurrentIndex(page.model().index(row, columnOf(page.model(), column)));
  QTest::keyClick(&table, Qt::Key_F2);
  auto* editor = qobject_cast<QLineEdit*>(QApplication::focusWidget());
  QVERIFY(editor != nullptr);
  editor->selectAll();
  QTest::keyClicks(editor, text);
  QTest::keyClick(editor, Qt::Key_Return);
  QApplication::processEvents();  // the cell is taken over by a queued call
}

// Answers the next question that comes up with the button of this text.
void answer(const QString& button) {
  QTimer::singleShot(0, qApp, [button] {
    auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
    if (!box) return answer(button);
    for (QAbstractButton* b : box->buttons())
      if (b->text().remove(QLatin1Char('&')) == button) b->click();
  });
}

}  // namespace

void PartsTest::typesARow() {
  WindowFixture fixture(small());
  QTest::keyClick(&fixture.window(), Qt::Key_3, Qt::AltModifier);
  PartsPage& page = fixture.window().partsPage();
  QVERIFY(page.isVisible());
  const size_t before = fixture.document().rack().parts.size();
  const int row = page.model().rowCount() - 1;
  type(page, row, QStringLiteral("Name"), QStringLiteral("Apron"));
  type(page, row, QStringLiteral("Length"), QStringLiteral("23 5/8\""));
  type(page, row, QStringLiteral("Width"), QStringLiteral("90 mm"));
  type(page, row, QStringLiteral("Thickness"), QStringLiteral("7/8\""));
  QCOMPARE(fixture.document().rack().parts.size(), before + 1);
  const Part& part = fixture.document().rack().parts.back();
  QCOMPARE(part.name, std::string("Apron"));
  QCOMPARE(part.copies, 1);
  QVERIFY(std::abs(part.lengthMm - 23.625 * 25.4) < 1e-9);
  QCOMPARE(part.widthMm, 90.0);
  QVERIFY(std::abs(part.thicknessMm - 22.225) < 1e-9);
  QCOMPARE(page.model().rowCount(), row + 2);  // a fresh row below
}

void PartsTest::pastesASpreadsheetInAnyOrder() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const size_t before = fixture.document().rack().parts.size();
  page.table().setCurrentIndex(page.model().index(page.model().rowCount() - 1, 0));
  QApplication::clipboard()->setText(
      QStringLiteral("Thickness\tName\tLength\tWidth\tCopies\n20\tSlat\t400\t60\t9\n20\tStile\t2' "
                     "6\"\t65\t2\n"));
  page.table().setFocus();
  QTest::keyClick(&page.table(), Qt::Key_V, Qt::ControlModifier);
  const auto& parts = fixture.document().rack().parts;
  QCOMPARE(parts.size(), before + 2);
  QCOMPARE(parts[before].name, std::string("Slat"));
  QCOMPARE(parts[before].copies, 9);
  QVERIFY(std::abs(parts[before + 1].lengthMm - 30 * 25.4) < 1e-9);
}

void PartsTest::mistakeIsShownInItsCellAndMended() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const PartId id = fixture.document().rack().parts[0].id;
  type(page, 0, QStringLiteral("Length"), QStringLiteral("23 5/x"));
  const QModelIndex cell = page.model().index(0, columnOf(page.model(), QStringLiteral("Length")));
  QCOMPARE(cell.data().toString(), QStringLiteral("23 5/x"));  // what was typed stays
  QVERIFY(!cell.data(PartsModel::kMistakeRole).toString().isEmpty());
  QVERIFY(page.model().index(0, 0).data(PartsModel::kMistakeRole).toString().isEmpty());
  QVERIFY(!fixture.document().rack().findPart(id));  // its old size is not planned meanwhile
  page.table().setCurrentIndex(cell);
  QVERIFY(!fixture.find<QLabel>("partsMistake")->text().isEmpty());
  type(page, 0, QStringLiteral("Length"), QStringLiteral("600mm"));
  QVERIFY(cell.data(PartsModel::kMistakeRole).toString().isEmpty());
  QCOMPARE(fixture.document().rack().parts[0].lengthMm, 600.0);
  QCOMPARE(fixture.document().rack().parts[0].id, id);
}

void PartsTest::pasteIsOneStepOfUndo() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const size_t before = fixture.document().rack().parts.size();
  page.model().paste(page.model().rowCount() - 1, 0,
                     {{"Name", "Length", "Width", "Thickness"},
                      {"a", "500", "50", "20"},
                      {"b", "500", "50", "20"},
                      {"c", "500", "50", "20"}},
                     PartsModel::Onto::replaceRows);
  QCOMPARE(fixture.document().rack().parts.size(), before + 3);
  QTest::keyClick(&page.table(), Qt::Key_Z, Qt::ControlModifier);
  QCOMPARE(fixture.document().rack().parts.size(), before);
}

void PartsTest::removesRows() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const auto before = fixture.document().rack().parts;
  page.table().setFocus();
  page.table().setCurrentIndex(page.model().index(1, 0));
  QTest::keyClick(&page.table(), Qt::Key_Delete, Qt::ControlModifier);
  const auto& after = fixture.document().rack().parts;
  QCOMPARE(after.size(), before.size() - 1);
  QVERIFY(after[0].id == before[0].id && after[1].id == before[2].id);
}

void PartsTest::everyColumnIsKept() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsModel& model = fixture.window().partsPage().model();
  const auto put = [&](const char* column, const char* text) {
    const QModelIndex cell = model.index(0, columnOf(model, QLatin1String(column)));
    model.setData(cell, QLatin1String(text), Qt::EditRole);
    QCOMPARE(cell.data().toString(), QLatin1String(text));
  };
  put("Max grain slope", "4");
  put("Sapwood on the back", "yes");
  put("Sound knots on the back", "yes");
  put("Filled holes on the back", "yes");
  put("Stain on the back", "yes");
  put("Narrowest strip", "45 mm");
  put("Widest strip", "120 mm");
  put("Priority", "12.5");
  const Part& part = fixture.document().rack().parts[0];
  QCOMPARE(part.grainToleranceDeg, 4.0);
  QCOMPARE(part.back, (FaceAllows{true, true, true, SapwoodRule::yes}));
  QCOMPARE(part.glueUp.leastStripMm, 45.0);
  QCOMPARE(part.glueUp.greatestStripMm, 120.0);
  QCOMPARE(part.value, 12.5);
}

void PartsTest::lengthIsNotRoundedByOtherCells() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  type(page, 0, QStringLiteral("Length"), QStringLiteral("600.4"));
  type(page, 0, QStringLiteral("Name"), QStringLiteral("Apron"));
  QCOMPARE(fixture.document().rack().parts[0].lengthMm, 600.4);
}

// A row without a length, and one whose length became nonsense: both are there again when the rack
// is opened anew, and neither is planned.
void PartsTest::unfinishedRowsOutliveTheWindow() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const auto before = fixture.document().rack().parts;
  type(page, 1, QStringLiteral("Length"), QStringLiteral("23 5/x"));
  type(page, page.model().rowCount() - 1, QStringLiteral("Name"), QStringLiteral("Shelf"));
  QCOMPARE(fixture.document().rack().parts.size(), before.size() - 1);
  QVERIFY(!fixture.document().rack().findPart(before[1].id));
  QVERIFY(fixture.document().saveNow().ok());

  QSignalSpy opened(&fixture.document(), &Document::opened);
  fixture.window().openRack(fixture.folder());
  QVERIFY(opened.wait(20000));
  const PartsModel& model = page.model();
  QCOMPARE(model.mistakes(), 2);
  const int length = columnOf(page.model(), QStringLiteral("Length"));
  QCOMPARE(model.index(1, length).data().toString(), QStringLiteral("23 5/x"));
  QCOMPARE(model.index(model.rowCount() - 2, 0).data().toString(), QStringLiteral("Shelf"));
  type(page, 1, QStringLiteral("Length"), QStringLiteral("450 mm"));
  const Part* mended = fixture.document().rack().findPart(before[1].id);
  QVERIFY(mended);
  QCOMPARE(mended->lengthMm, 450.0);
  QCOMPARE(fixture.document().rack().parts[1].id, before[1].id);
}

void PartsTest::enterGoesDownAndEscapeLeavesTheCell() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const int name = columnOf(page.model(), QStringLiteral("Name"));
  type(page, 0, QStringLiteral("Name"), QStringLiteral("Rail"));
  QCOMPARE(page.table().currentIndex(), page.model().index(1, name));
  QTest::keyClick(&page.table(), Qt::Key_Return);
  QCOMPARE(page.table().currentIndex(), page.model().index(2, name));
  const QString before = page.table().currentIndex().data().toString();
  QTest::keyClick(&page.table(), Qt::Key_F2);
  auto* editor = qobject_cast<QLineEdit*>(QApplication::focusWidget());
  QVERIFY(editor);
  QTest::keyClicks(editor, QStringLiteral("never meant"));
  QTest::keyClick(editor, Qt::Key_Escape);
  QApplication::processEvents();
  QCOMPARE(page.table().currentIndex(), page.model().index(2, name));
  QCOMPARE(page.table().currentIndex().data().toString(), before);
}

void PartsTest::typingReplacesAndUnitsStay() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  page.table().setFocus();
  page.table().setCurrentIndex(
      page.model().index(0, columnOf(page.model(), QStringLiteral("Length"))));
  QTest::keyClick(&page.table(), Qt::Key_7);
  auto* editor = qobject_cast<QLineEdit*>(QApplication::focusWidget());
  QVERIFY(editor);
  QTest::keyClicks(editor, QStringLiteral("00"));
  QCOMPARE(editor->text(), QStringLiteral("700"));
  // Switched to inches under the typing hand: 700 was meant in millimetres.
  QTest::keyClick(editor, Qt::Key_U, Qt::ControlModifier);
  QApplication::processEvents();
  QCOMPARE(fixture.document().lengths().system, UnitSystem::inches);
  QCOMPARE(fixture.document().rack().parts[0].lengthMm, 700.0);
}

void PartsTest::pasteOntoFilledRowsAsks() {
  WindowFixture fixture(small());
  fixture.window().go(MainWindow::Station::parts);
  PartsPage& page = fixture.window().partsPage();
  const auto before = fixture.document().rack().parts;
  QVERIFY(before.size() >= 2);
  QApplication::clipboard()->setText(
      QStringLiteral("Slat\t9\t400\t60\t20\nStile\t2\t700\t65\t20\n"));
  const auto pasteAtTop = [&](const QString& button) {
    fixture.window().activateWindow();
    (void)QTest::qWaitForWindowActive(&fixture.window());
    page.table().setCurrentIndex(page.model().index(0, 0));
    page.table().setFocus();
    answer(button);
    QTest::keyClick(&page.table(), Qt::Key_V, Qt::ControlModifier);
  };
  pasteAtTop(QStringLiteral("Cancel"));
  QCOMPARE(fixture.document().rack().parts.size(), before.size());
  QCOMPARE(fixture.document().rack().parts[0].name, before[0].name);
  pasteAtTop(QStringLiteral("Insert as new rows"));
  QCOMPARE(fixture.document().rack().parts.size(), before.size() + 2);
  QCOMPARE(fixture.document().rack().parts[0].name, std::string("Slat"));
  QCOMPARE(fixture.document().rack().parts[2].id, before[0].id);
  fixture.document().undo();
  pasteAtTop(QStringLiteral("Replace what is there"));
  QCOMPARE(fixture.document().rack().parts.size(), before.size());
  QCOMPARE(fixture.document().rack().parts[0].id, before[0].id);
  QCOMPARE(fixture.document().rack().parts[0].name, std::string("Slat"));
}

}  // namespace rackside
