// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/gui_session.h"

#include <QGuiApplication>
#include <clocale>
#include <iostream>

namespace rackside::sheets {

namespace {

// Off screen no folder for sockets is needed; Qt's remark that there is none would puzzle a maker.
void withoutRuntimeRemark(QtMsgType, const QMessageLogContext&, const QString& text) {
  if (!text.contains("XDG_RUNTIME_DIR")) std::cerr << text.toStdString() << '\n';
}

}  // namespace

GuiSession::GuiSession() {
  if (QCoreApplication::instance()) return;
  const QtMessageHandler before = qInstallMessageHandler(withoutRuntimeRemark);
  qputenv("QT_QPA_PLATFORM", "offscreen");
  static int argc = 1;
  static char name[] = "rackside";
  static char* argv[] = {name, nullptr};
  own_ = std::make_unique<QGuiApplication>(argc, argv);
  std::setlocale(LC_NUMERIC, "C");  // Qt takes the user's: files must not depend on it
  qInstallMessageHandler(before);
}

GuiSession::~GuiSession() = default;

}  // namespace rackside::sheets
