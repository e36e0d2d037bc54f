// SPDX-License-Identifier: GPL-3.0-or-later
// Runs every test class; arguments go to QtTest. Works off screen when there is no display.
#include <QApplication>
#include <QSettings>
#include <QStandardPaths>
#include <QTest>

#include "app/serve/measure_worker.h"
#include "tests/app/window/test_classes.h"
#include "tests/core/support/temporary_folder.h"

int main(int argc, char** argv) {
  if (rackside::serve::isWorker(argc, argv)) return rackside::serve::workerMain();
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM") && qEnvironmentVariableIsEmpty("DISPLAY"))
    qputenv("QT_QPA_PLATFORM", "offscreen");
  // QtTest ends a test after five minutes, which a long run of random input is meant to outlast.
  if (qEnvironmentVariableIsSet("RACKSIDE_MONKEY_SECONDS"))
    qputenv("QTEST_FUNCTION_TIMEOUT", "86400000");
  QStandardPaths::setTestModeEnabled(true);  // settings and cache of its own
  const rackside::tests::TemporaryFolder readings;
  qputenv("RACKSIDE_CACHE", readings.path().c_str());
  QApplication app(argc, argv);
  // The first argument may name one class, so that CTest runs them one by one; each has settings
  // and a cache of its own, for they run side by side.
  const QString only = argc > 1 ? QString::fromLocal8Bit(argv[1]) : QString();
  QApplication::setApplicationName(QStringLiteral("rackside-window-tests-") + only);
  QApplication::setOrganizationName(QStringLiteral("rackside"));
  QSettings().clear();
  QStringList arguments = app.arguments();
  int failed = 0, ran = 0;
  for (const auto& make : rackside::testClasses()) {
    const std::unique_ptr<QObject> test(make());
    const QString name = QString::fromLatin1(test->metaObject()->className()).section("::", -1);
    if (!only.isEmpty() && !only.startsWith('-') && only != name) continue;
    QStringList mine = arguments;
    if (only == name) mine.removeAt(1);
    failed += QTest::qExec(test.get(), mine);
    ++ran;
  }
  if (ran == 0) qCritical("no test class of that name");
  return failed == 0 && ran > 0 ? 0 : 1;
}
