// SPDX-License-Identifier: GPL-3.0-or-later
// The real window on an invented rack in a folder of its own.
#pragma once

#include <QTemporaryDir>
#include <QTest>
#include <memory>

#include "app/window/pages/board_page.h"
#include "app/window/pages/parts_page.h"
#include "app/window/panels/rack_panel.h"
#include "app/window/window/main_window.h"
#include "tests/app/window/made_rack.h"

namespace rackside {

class WindowFixture {
 public:
  explicit WindowFixture(const made::RackWish& wish = {});
  MainWindow& window() { return *window_; }
  Document& document() { return window_->document(); }
  FaceView& view() { return window_->boardPage().view(); }
  const Board& board();  // the one in view
  QString folder() const { return dir_.path() + QStringLiteral("/rack"); }
  QPoint at(Point board);                                              // in the view's pixels
  void key(Qt::Key key, Qt::KeyboardModifiers keys = Qt::NoModifier);  // to the view
  void drag(Point from, Point to, int steps = 6);
  void click(Point at, Qt::KeyboardModifiers keys = Qt::NoModifier);
  template <class W>
  W* find(const char* name) {
    return window_->findChild<W*>(QLatin1String(name));
  }

 private:
  QTemporaryDir dir_;
  std::unique_ptr<MainWindow> window_;
};

}  // namespace rackside
