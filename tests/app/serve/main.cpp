// SPDX-License-Identifier: GPL-3.0-or-later
// Runs every test class, or the one that the first argument names. Also the worker of its own
// server.
#include <QGuiApplication>
#include <QTest>
#include <functional>
#include <memory>

#include "app/serve/measure_worker.h"
#include "tests/app/serve/drive_test.h"
#include "tests/app/serve/fuzz_test.h"
#include "tests/app/serve/gate_test.h"
#include "tests/app/serve/head_test.h"
#include "tests/app/serve/page_test.h"
#include "tests/app/serve/queue_test.h"
#include "tests/app/serve/routes_test.h"

namespace {

template <class Test>
std::unique_ptr<QObject> make() {
  return std::make_unique<Test>();
}

}  // namespace

int main(int argc, char** argv) {
  using namespace rackside::serve;
  if (isWorker(argc, argv)) return workerMain();
  qputenv("QTEST_FUNCTION_TIMEOUT", "3600000");  // for long runs by hand
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QGuiApplication app(argc, argv);
  const QString only = argc > 1 ? QString::fromLocal8Bit(argv[1]) : QString();
  int failed = 0, ran = 0;
  for (const auto& one : {make<HeadTest>, make<GateTest>, make<RoutesTest>, make<QueueTest>,
                          make<FuzzTest>, make<PageTest>, make<DriveTest>}) {
    const std::unique_ptr<QObject> test = one();
    const QString name = QString::fromLatin1(test->metaObject()->className()).section("::", -1);
    if (!only.isEmpty() && !only.startsWith('-') && only != name) continue;
    QStringList arguments = QCoreApplication::arguments();
    if (only == name) arguments.removeAt(1);
    failed += QTest::qExec(test.get(), arguments);
    ++ran;
  }
  if (ran == 0) qCritical("no test class of that name");
  return failed == 0 && ran > 0 ? 0 : 1;
}
