// SPDX-License-Identifier: GPL-3.0-or-later
// Work off the window's thread, and its result back on it.
#pragma once

#include <QCoreApplication>
#include <QMetaObject>
#include <QObject>
#include <QPointer>
#include <QThreadPool>
#include <memory>
#include <type_traits>
#include <utility>

namespace rackside {

// Runs `work` on `pool`, then `done(result)` on the window's thread, unless `context` is gone by
// then. The result crosses as a posted event, so none is lost, whichever thread is first. (Qt 6.4's
// QFuture::then with a context lost one now and then.)
template <class Work, class Done>
void inBackground(QThreadPool& pool, QObject* context, Work work, Done done) {
  pool.start([work = std::move(work), done = std::move(done),
              guard = QPointer<QObject>(context)]() mutable {
    auto result = std::make_shared<std::invoke_result_t<Work>>(work());
    QMetaObject::invokeMethod(
        QCoreApplication::instance(),
        [guard, result, done]() mutable {
          if (guard) done(*result);
        },
        Qt::QueuedConnection);
  });
}

}  // namespace rackside
