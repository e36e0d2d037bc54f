// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/window_fixture.h"

#include <QApplication>
#include <QSignalSpy>
#include <stdexcept>

#include "app/window/look/text.h"

namespace rackside {

WindowFixture::WindowFixture(const made::RackWish& wish) {
  made::writeRack(pathOf(folder()), wish);
  window_ = std::make_unique<MainWindow>();
  window_->resize(1280, 800);
  window_->show();
  QSignalSpy opened(&window_->document(), &Document::opened);
  window_->openRack(folder());
  if (!opened.wait(20000)) throw std::runtime_error("the rack did not open");
  (void)QTest::qWaitForWindowExposed(window_.get());
  window_->activateWindow();  // shortcuts act only in the active window
  (void)QTest::qWaitForWindowActive(window_.get());
  QApplication::processEvents();
}

const Board& WindowFixture::board() {
  const Board* board = document().rack().findBoard(window_->choice().board());
  if (!board) throw std::runtime_error("no board in view");
  return *board;
}

QPoint WindowFixture::at(Point board) {
  return view().camera().toScreen(board).toPoint();
}

void WindowFixture::key(Qt::Key key, Qt::KeyboardModifiers keys) {
  view().setFocus();
  QTest::keyClick(&view(), key, keys);
}

void WindowFixture::drag(Point from, Point to, int steps) {
  QTest::mousePress(&view(), Qt::LeftButton, {}, at(from));
  for (int i = 1; i <= steps; ++i)
    QTest::mouseMove(&view(), at(from + (double(i) / steps) * (to - from)));
  QTest::mouseRelease(&view(), Qt::LeftButton, {}, at(to));
}

void WindowFixture::click(Point point, Qt::KeyboardModifiers keys) {
  QTest::mouseClick(&view(), Qt::LeftButton, keys, at(point));
}

}  // namespace rackside
