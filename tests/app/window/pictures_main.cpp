// SPDX-License-Identifier: GPL-3.0-or-later
// window_pictures RACK OUT [light|dark] [WIDTHxHEIGHT]: a picture of each stage of the window on a
// copy of a rack. tests/benchmarks/window_pictures.sh runs it in light, dark and at 200 %.
#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSettings>
#include <QSignalSpy>
#include <QSpinBox>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>
#include <filesystem>
#include <iostream>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/pages/board_page.h"
#include "app/window/pages/looks_page.h"
#include "app/window/pages/parts_page.h"
#include "app/window/panels/rack_panel.h"
#include "app/window/window/help_window.h"
#include "app/window/window/main_window.h"
#include "core/document/edits.h"
#include "core/geometry/polygon.h"

namespace rackside {

namespace {

class Photographer {
 public:
  Photographer(MainWindow& window, QString out) : window_(window), out_(std::move(out)) {}

  void take(const QString& name, QWidget* what = nullptr) {
    QElapsedTimer timer;
    timer.start();
    while (timer.elapsed() < 8000 && (timer.elapsed() < 300 || !window_.boardPage().view().sharp()))
      QApplication::processEvents(QEventLoop::AllEvents, 20);
    const QString file =
        QStringLiteral("%1/%2-%3.png").arg(out_).arg(++number_, 2, 10, QLatin1Char('0')).arg(name);
    (what ? what : &window_)->grab().save(file);
    std::cout << plain(file) << "\n";
  }

 private:
  MainWindow& window_;
  QString out_;
  int number_ = 0;
};

void openAndWait(MainWindow& window, const QString& rack) {
  QSignalSpy opened(&window.document(), &Document::opened);
  window.openRack(rack);
  opened.wait(30000);
}

void takeWood(MainWindow& window, Photographer& photographer) {
  FaceView& view = window.boardPage().view();
  photographer.take(QStringLiteral("wood"));
  const Board* board = view.board();
  if (!board) return;
  for (const Mark& mark : board->marks) {
    if (!mark.onA) continue;
    window.choice().setMark(mark.id);
    const Rect b = bounds(polygonsOf(*mark.onA).front());
    const double room = std::max({160.0, b.width(), b.height()});
    view.fitRect({b.x0 - room, b.y0 - room / 2, b.x1 + room, b.y1 + room / 2});
    break;
  }
  photographer.take(QStringLiteral("mark-in-hand"));
  view.fitBoard();
  view.setFocus();
  QTest::keyClick(&view, Qt::Key_6);
  const Rect b = bounds(board->outline.polygon());
  const QPoint from = view.camera().toScreen({b.x0 + 0.3 * b.width(), b.y0}).toPoint();
  const QPoint to = view.camera().toScreen({b.x0 + 0.3 * b.width(), b.y1}).toPoint();
  QTest::mousePress(&view, Qt::LeftButton, {}, from);
  QTest::mouseMove(&view, (from + to) / 2);
  QTest::mouseMove(&view, to);
  QTest::mouseRelease(&view, Qt::LeftButton, {}, to);
  photographer.take(QStringLiteral("measure"));
  QTest::keyClick(&view, Qt::Key_F);
  photographer.take(QStringLiteral("face-b"));
  QTest::keyClick(&view, Qt::Key_F);
  QTest::keyClick(&view, Qt::Key_1);
  QTest::keyClick(&view, Qt::Key_U, Qt::ControlModifier);
  photographer.take(QStringLiteral("inches"));
  QTest::keyClick(&view, Qt::Key_U, Qt::ControlModifier);
}

void takeParts(MainWindow& window, Photographer& photographer) {
  window.go(MainWindow::Station::parts);
  photographer.take(QStringLiteral("parts"));
  PartsPage& page = window.partsPage();
  page.model().setData(page.model().index(1, 2), QStringLiteral("23 5/x"), Qt::EditRole);
  page.table().setCurrentIndex(page.model().index(1, 2));
  photographer.take(QStringLiteral("parts-mistake"));
  while (window.document().history().canUndo()) window.document().undo();
  page.model().setData(page.model().index(1, 2), QStringLiteral("500"), Qt::EditRole);
}

void takeLooks(MainWindow& window, Photographer& photographer) {
  LooksPage& page = window.looksPage();
  const auto asked = [&](auto signal, const auto& ask) {
    QSignalSpy done(&page.session(), signal);
    ask();
    if (done.isEmpty()) done.wait(120000);
    QTest::qWait(300);
  };
  asked(&LookSession::ranked, [&] { window.go(MainWindow::Station::looks); });
  photographer.take(QStringLiteral("looks-none"));
  std::vector<Part> parts = window.document().rack().parts;
  if (parts.size() < 2) return;
  asked(&LookSession::ranked, [&] { page.choosePart(parts[1].id); });
  photographer.take(QStringLiteral("looks"));
  parts[0].glueUp.allowed = true;
  (void)window.document().perform(changeParts(parts));
  page.choosePart(parts[0].id);
  asked(&LookSession::panelLaid,
        [&] { window.findChild<QCheckBox*>(QStringLiteral("looksPanel"))->setChecked(true); });
  photographer.take(QStringLiteral("panel"));
  window.document().undo();
}

void takePlan(MainWindow& window, Photographer& photographer) {
  window.go(MainWindow::Station::plan);
  photographer.take(QStringLiteral("before-planning"));
  window.findChild<QSpinBox*>(QStringLiteral("planSeconds"))->setValue(5);
  QSignalSpy finished(&window.planSession(), &PlanSession::finished);
  window.findChild<QPushButton*>(QStringLiteral("planStart"))->click();
  QTest::qWait(1500);
  photographer.take(QStringLiteral("planning"));
  if (finished.isEmpty()) finished.wait(120000);
  const auto& plan = window.document().rack().plan;
  if (plan && !plan->pieces.empty()) {
    window.choice().setBoard(plan->pieces.front().board);
    window.choice().setPiece(plan->pieces.front().id);
  }
  photographer.take(QStringLiteral("plan"));
  if (plan && !plan->pieces.empty()) {
    window.planSession().holdAt(plan->pieces.front().id, {0, 120});
    photographer.take(QStringLiteral("piece-held-badly"));
    window.planSession().dropTrial();
  }
  // The panel's foot: spare stock and score.
  for (QScrollArea* area : window.findChildren<QScrollArea*>())
    if (area->isVisible() && area->findChild<QLabel*>(QStringLiteral("planScore")))
      area->verticalScrollBar()->setValue(area->verticalScrollBar()->maximum());
  photographer.take(QStringLiteral("plan-notes"));
}

void takeCutDay(MainWindow& window, Photographer& photographer) {
  window.go(MainWindow::Station::cut);
  photographer.take(QStringLiteral("cut-day"));
  auto* list = window.findChild<QListWidget*>(QStringLiteral("cutList"));
  for (int i = 0; i < 3 && i < list->count(); ++i) list->item(i)->setCheckState(Qt::Checked);
  photographer.take(QStringLiteral("cut-day-ticked"));
  if (list->count() > 4) list->item(list->count() - 1)->setCheckState(Qt::Checked);
  photographer.take(QStringLiteral("cut-day-refused"));
}

int run(const QStringList& arguments) {
  QTemporaryDir copy;
  const QString rack = copy.filePath(QFileInfo(arguments[1]).fileName());
  std::filesystem::copy(pathOf(arguments[1]), pathOf(rack),
                        std::filesystem::copy_options::recursive);
  QDir().mkpath(arguments[2]);
  Theme::instance().setWish(arguments.value(3) == QLatin1String("dark") ? Theme::Wish::dark
                                                                        : Theme::Wish::light);
  MainWindow window;
  const QStringList size = arguments.value(4, QStringLiteral("1360x800")).split(QLatin1Char('x'));
  window.resize(size.value(0).toInt(), size.value(1).toInt());
  window.show();
  (void)QTest::qWaitForWindowExposed(&window);
  Photographer photographer(window, arguments[2]);
  photographer.take(QStringLiteral("empty"));
  openAndWait(window, rack);
  takeWood(window, photographer);
  window.go(MainWindow::Station::photographs);
  photographer.take(QStringLiteral("photographs"));
  takeParts(window, photographer);
  takeLooks(window, photographer);
  takePlan(window, photographer);
  takeCutDay(window, photographer);
  window.go(MainWindow::Station::paper);
  QTest::qWait(1500);
  photographer.take(QStringLiteral("paper"));
  HelpWindow help;
  help.show();
  photographer.take(QStringLiteral("help"), &help);
  return 0;
}

}  // namespace

}  // namespace rackside

int main(int argc, char** argv) {
  if (argc < 3) {
    std::cerr << "usage: window_pictures RACK OUT [light|dark] [WIDTHxHEIGHT]\n";
    return 2;
  }
  QStandardPaths::setTestModeEnabled(true);
  QApplication app(argc, argv);
  QApplication::setApplicationName(QStringLiteral("rackside-window-pictures"));
  QSettings().clear();
  return rackside::run(app.arguments());
}
