// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/gui_session.h"

#include <QGuiApplication>

namespace rackside::sheets {

GuiSession::GuiSession() {
  if (QCoreApplication::instance()) return;
  qputenv("QT_QPA_PLATFORM", "offscreen");
  static int argc = 1;
  static char name[] = "rackside";
  static char* argv[] = {name, nullptr};
  own_ = std::make_unique<QGuiApplication>(argc, argv);
}

GuiSession::~GuiSession() = default;

}  // namespace rackside::sheets
