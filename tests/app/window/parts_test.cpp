// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/parts_test.h"

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QLineEdit>

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
  const double before = fixture.document().rack().parts[0].lengthMm;
  type(page, 0, QStringLiteral("Length"), QStringLiteral("23 5/x"));
  const QModelIndex cell = page.model().index(0, columnOf(page.model(), QStringLiteral("Length")));
  QCOMPARE(cell.data().toString(), QStringLiteral("23 5/x"));  // what was typed stays
  QVERIFY(!cell.data(PartsModel::kMistakeRole).toString().isEmpty());
  QVERIFY(page.model().index(0, 0).data(PartsModel::kMistakeRole).toString().isEmpty());
  QCOMPARE(fixture.document().rack().parts[0].lengthMm, before);
  page.table().setCurrentIndex(cell);
  QVERIFY(!fixture.find<QLabel>("partsMistake")->text().isEmpty());
  type(page, 0, QStringLiteral("Length"), QStringLiteral("600mm"));
  QVERIFY(cell.data(PartsModel::kMistakeRole).toString().isEmpty());
  QCOMPARE(fixture.document().rack().parts[0].lengthMm, 600.0);
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
                      {"c", "500", "50", "20"}});
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

}  // namespace rackside
