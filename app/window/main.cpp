// SPDX-License-Identifier: GPL-3.0-or-later
#include <QApplication>
#include <QCommandLineParser>
#include <QSettings>
#include <clocale>

#include "app/serve/measure_worker.h"
#include "app/window/look/language.h"
#include "app/window/window/main_window.h"

int main(int argc, char** argv) {
  if (rackside::serve::isWorker(argc, argv)) return rackside::serve::workerMain();
  QApplication app(argc, argv);
  std::setlocale(LC_NUMERIC, "C");  // Qt takes the user's: files must not depend on it
  QApplication::setApplicationName(QStringLiteral("rackside-window"));
  QApplication::setApplicationVersion(QStringLiteral("0.1.0"));
  QApplication::setOrganizationName(QStringLiteral("rackside"));
  QCommandLineParser parser;
  parser.setApplicationDescription(
      QStringLiteral("Photographs of rough boards become measured boards, a plan and sheets."));
  parser.addHelpOption();
  parser.addVersionOption();
  parser.addPositionalArgument(QStringLiteral("rack"),
                               QStringLiteral("The rack's folder; the latest one when left out."));
  parser.process(app);

  rackside::installLanguage();
  rackside::MainWindow window;
  QString folder = parser.positionalArguments().value(0);
  if (folder.isEmpty()) folder = QSettings().value(QStringLiteral("rack/latest")).toString();
  if (!folder.isEmpty()) window.openRack(folder);
  window.show();
  return QApplication::exec();
}
