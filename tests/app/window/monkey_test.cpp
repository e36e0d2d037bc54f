// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/monkey_test.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QDialog>
#include <QElapsedTimer>
#include <QMenu>
#include <QTimer>
#include <random>

#include "core/storage/rack_folder.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

using Random = std::mt19937;

const Qt::Key kKeys[] = {
    Qt::Key_1,    Qt::Key_2,     Qt::Key_3,     Qt::Key_4,      Qt::Key_5,         Qt::Key_6,
    Qt::Key_7,    Qt::Key_F,     Qt::Key_T,     Qt::Key_N,      Qt::Key_Tab,       Qt::Key_Backtab,
    Qt::Key_Left, Qt::Key_Right, Qt::Key_Up,    Qt::Key_Down,   Qt::Key_Return,    Qt::Key_Escape,
    Qt::Key_Plus, Qt::Key_Minus, Qt::Key_0,     Qt::Key_Delete, Qt::Key_Backspace, Qt::Key_Space,
    Qt::Key_1,    Qt::Key_5,     Qt::Key_Slash, Qt::Key_Z,      Qt::Key_PageDown,  Qt::Key_PageUp,
    Qt::Key_Home, Qt::Key_End,   Qt::Key_F2,    Qt::Key_X};

QWidget* anyWidget(QWidget& top, Random& random) {
  QList<QWidget*> shown;
  for (QWidget* w : top.findChildren<QWidget*>())
    if (w->isVisible() && w->isEnabled() && w->width() > 2 && w->height() > 2) shown << w;
  return shown.isEmpty() ? &top : shown[static_cast<qsizetype>(random() % shown.size())];
}

QPoint anyPoint(const QWidget& w, Random& random) {
  return {static_cast<int>(random() % static_cast<unsigned>(w.width())),
          static_cast<int>(random() % static_cast<unsigned>(w.height()))};
}

Qt::KeyboardModifiers anyModifiers(Random& random) {
  Qt::KeyboardModifiers keys;
  if (random() % 6 == 0) keys |= Qt::ShiftModifier;
  if (random() % 8 == 0) keys |= Qt::ControlModifier;
  return keys;
}

// Dialogs of the system (choosing a file, quitting) are not what is tried here.
void closePopups() {
  while (QWidget* popup = QApplication::activePopupWidget()) popup->close();
  for (QWidget* top : QApplication::topLevelWidgets())
    if (qobject_cast<QDialog*>(top) && top->isVisible()) top->close();
}

void act(WindowFixture& fixture, Random& random) {
  QWidget* target =
      random() % 2 ? static_cast<QWidget*>(&fixture.view()) : anyWidget(fixture.window(), random);
  if (!target->isVisible()) return;
  switch (random() % 6) {
    case 0:
    case 1: {
      const auto keys = anyModifiers(random);
      const Qt::Key key = kKeys[random() % std::size(kKeys)];
      QWidget* to = random() % 3 ? target : QApplication::focusWidget();
      if (to) QTest::keyClick(to, key, keys);
      break;
    }
    case 2:
      if (!target->objectName().startsWith(QLatin1String("welcome")) &&
          !target->inherits("QPushButton"))
        QTest::mouseClick(target, Qt::LeftButton, anyModifiers(random), anyPoint(*target, random));
      break;
    case 3: {
      const QPoint from = anyPoint(fixture.view(), random), to = anyPoint(fixture.view(), random);
      QTest::mousePress(&fixture.view(), Qt::LeftButton, {}, from);
      for (int i = 1; i <= 4; ++i) QTest::mouseMove(&fixture.view(), from + (to - from) * i / 4);
      QTest::mouseRelease(&fixture.view(), Qt::LeftButton, {}, to);
      break;
    }
    case 4:
      QTest::mouseDClick(&fixture.view(), Qt::LeftButton, {}, anyPoint(fixture.view(), random));
      break;
    default:
      fixture.window().go(static_cast<MainWindow::Station>(random() % 8));
  }
  closePopups();
}

}  // namespace

void MonkeyTest::survivesRandomInput() {
  made::RackWish wish;
  wish.boards = 5;
  wish.mmPerPx = 4;
  WindowFixture fixture(wish);
  bool ok = false;
  const int seconds = qEnvironmentVariableIntValue("RACKSIDE_MONKEY_SECONDS", &ok);
  const double limit = ok ? seconds : 3;
  const auto seed = static_cast<unsigned>(qEnvironmentVariableIntValue("RACKSIDE_MONKEY_SEED"));
  Random random(seed);
  QElapsedTimer timer;
  timer.start();
  long long actions = 0;
  // A dialog or menu that waits for an answer is closed from within its own loop.
  QTimer closer;
  QObject::connect(&closer, &QTimer::timeout, &closer, closePopups);
  closer.start(30);
  while (static_cast<double>(timer.elapsed()) < limit * 1000) {
    act(fixture, random);
    if (++actions % 20 == 0) QApplication::processEvents(QEventLoop::AllEvents, 5);
    if (!fixture.window().isVisible()) fixture.window().show();
  }
  qInfo("seed %u: %lld actions in %.0f s, %zu boards left", seed, actions, limit,
        fixture.document().rack().boards.size());
  // Whatever was done can be taken back, and what is kept can be read again.
  while (fixture.document().history().canUndo()) fixture.document().undo();
  QVERIFY(fixture.document().saveNow().ok());
  QVERIFY(loadRack(fixture.folder().toStdString()).ok());
}

}  // namespace rackside
